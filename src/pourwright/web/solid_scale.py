"""Colors that stand for a thickness or an order of filling, and the scale that says which.

Dark is little and bright is much, each color as much lighter than the one before, so that nobody
needs to tell red from green to read it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.base.units import System, convert

# Even steps of lightness, their hue turning: picked in CIE LCh, chroma as the screen allows.
THICK = (
    "#360a6d", "#24328d", "#01568a", "#02738d", "#039090", "#05ae89", "#6cc770", "#bed85f",
    "#ffe78f",
)  # fmt: skip
FILLED = (
    "#002168", "#3b2e85", "#6b3d93", "#994d96", "#c45f91", "#e87786", "#ff987d", "#ffc092",
    "#ffe4b9",
)  # fmt: skip
# The scale leaves room at either end for half of a label.
WIDTH, EDGE = 640.0, 50.0
MOST_TICKS = 5
_STEPS = {
    System.METRIC: ("mm", (0.5, 1.0, 2.0, 5.0, 10.0, 20.0)),
    System.US: ("in", (0.02, 0.05, 0.1, 0.2, 0.5, 1.0)),
}


@dataclass(frozen=True, slots=True)
class Tick:
    """A labeled place of a scale; `below` is the same in the other system of units."""

    share: float
    words: str
    below: str

    @property
    def x(self) -> float:
        """Where it stands in the SVG."""
        return round(EDGE + (WIDTH - 2 * EDGE) * self.share, 1)


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale laid out for an SVG; `most` is what its last color stands for."""

    key: str
    label: str
    colors: tuple[str, ...]
    stops: tuple[tuple[float, str], ...]
    most: float
    lines: tuple[float, ...]
    ticks: tuple[Tick, ...]

    @property
    def box(self) -> tuple[float, float]:
        """Left end of the bar in the SVG, and its width."""
        return EDGE, WIDTH - 2 * EDGE

    def for_script(self) -> dict[str, object]:
        """What the drawing needs: colors, the value of the last one, lines as shares of it."""
        return {"colors": self.colors, "most": self.most, "lines": self.lines}


def thick_scale(thickest_mm: float, system: System) -> Scale:
    """From nothing to the thickest place of a bait, in both systems of units."""
    unit, steps = _STEPS[system]
    most = convert(thickest_mm, "mm", unit)
    step = next((s for s in steps if most / s < MOST_TICKS), steps[-1])
    values = [i * step for i in range(int(most / step) + 1)]
    ticks = tuple(Tick(v / most, *_both(v, step, unit)) for v in values)
    lines = tuple(round(v / most, 5) for v in values[1:])
    label = f"Thickness: the last color is the thickest place, {_words(most, step / 10, unit)}"
    return Scale("thickness", label, THICK, _stops(THICK), thickest_mm, lines, ticks)


def filling_scale() -> Scale:
    """From the gate to the last place that fills."""
    shares = (0.0, 0.25, 0.5, 0.75, 1.0)
    words = {0.0: "gate", 1.0: "last"}
    ticks = tuple(Tick(s, f"{s * 100:.0f} %", words.get(s, "")) for s in shares)
    label = "How full the cavity is when the plastic gets there"
    return Scale("filling", label, FILLED, _stops(FILLED), 1.0, shares[1:-1], ticks)


def _both(value: float, step: float, unit: str) -> tuple[str, str]:
    """A tick in its own unit, and in that of the other system."""
    other = "mm" if unit == "in" else "in"
    fine = 0.1 if other == "mm" else 0.01
    return _words(value, step, unit), _words(convert(value, unit, other), fine, other)


def _words(value: float, step: float, unit: str) -> str:
    """A value no finer than its step; a bare zero needs no decimals."""
    places = max(0, -math.floor(math.log10(step) + 1e-9)) if value else 0
    return f"{value:.{places}f} {unit}"


def _stops(colors: tuple[str, ...]) -> tuple[tuple[float, str], ...]:
    return tuple((i / (len(colors) - 1), color) for i, color in enumerate(colors))
