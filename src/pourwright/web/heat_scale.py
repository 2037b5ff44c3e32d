"""Temperature as color: dark blue to pale yellow, each step lighter than the one before.

Lightness alone tells the steps apart, so nobody needs to tell red from green to read it.
"""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.units import System, convert

LOW_C, HIGH_C, STEP_K = 20.0, 220.0, 5.0
# Evenly spaced from cold to hot; between them by straight lines in sRGB.
_ANCHORS = ("#10193f", "#31306f", "#64407c", "#98506f", "#c9684f", "#e88f3e", "#f3bd58", "#fbeaa2")
WIDTH, HEIGHT = 640.0, 62.0
_BAR, _EDGE = 22.0, 24.0
_TICKS = {System.US: (100, 150, 200, 250, 300, 350, 400), System.METRIC: (50, 100, 150, 200)}


@dataclass(frozen=True, slots=True)
class Tick:
    """A labeled temperature along the scale; a spare one goes where room is scarce."""

    x: float
    words: str
    spare: bool


@dataclass(frozen=True, slots=True)
class ScaleBar:
    """The scale laid out for an SVG: boxes of color as (x, color), and ticks."""

    width: float
    height: float
    bar: float
    step: float
    boxes: tuple[tuple[float, str], ...]
    ticks: tuple[Tick, ...]


def step_of(celsius: float) -> int:
    """The step of the scale a temperature falls into; beyond its ends the first or last."""
    last = int((HIGH_C - LOW_C) / STEP_K) - 1
    return min(max(int((celsius - LOW_C) // STEP_K), 0), last)


def color_of(step: int) -> str:
    """The color of a step, #rrggbb."""
    steps = int((HIGH_C - LOW_C) / STEP_K)
    place = step / (steps - 1) * (len(_ANCHORS) - 1)
    left = min(int(place), len(_ANCHORS) - 2)
    a, b = (_channels(_ANCHORS[i]) for i in (left, left + 1))
    mixed = (round(x + (y - x) * (place - left)) for x, y in zip(a, b, strict=True))
    return "#" + "".join(f"{v:02x}" for v in mixed)


def scale_bar(system: System) -> ScaleBar:
    """The scale with ticks in the bench's own degrees."""
    steps = int((HIGH_C - LOW_C) / STEP_K)
    step = (WIDTH - 2 * _EDGE) / steps
    sign, unit = ("°F", "f") if system is System.US else ("°C", "c")
    return ScaleBar(
        WIDTH,
        HEIGHT,
        _BAR,
        round(step, 2),
        tuple((round(_EDGE + i * step, 2), color_of(i)) for i in range(steps)),
        tuple(
            Tick(_x(convert(t, unit, "c")), f"{t} {sign}", spare=t % 100 != 0)
            for t in _TICKS[system]
        ),
    )


def _x(celsius: float) -> float:
    return round(_EDGE + (WIDTH - 2 * _EDGE) * (celsius - LOW_C) / (HIGH_C - LOW_C), 1)


def _channels(color: str) -> tuple[int, ...]:
    return tuple(int(color[i : i + 2], 16) for i in (1, 3, 5))
