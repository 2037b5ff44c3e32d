"""The drift of a look's color, drawn: difference to its first lot, by day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pourwright.actions.drift import LotColor, lot_colors
from pourwright.actions.port import Bench

WIDE, TALL, EDGE = 640, 220, 36
# Fewer lots than this say nothing of a trend.
LEAST = 3
_LEAST_TOP = 4.0


@dataclass(frozen=True, slots=True)
class Dot:
    """One lot in the drawing."""

    x: float
    y: float
    lot: LotColor


@dataclass(frozen=True, slots=True)
class DriftChart:
    """Dots with the height of a difference of 2, and what may be said of them."""

    dots: tuple[Dot, ...]
    limit_y: float
    words: str


def drift_of(bench: Bench, look: str) -> DriftChart:
    """The drift of a look."""
    lots = lot_colors(bench, look)
    top = max([_LEAST_TOP, *(lot.delta_e00 * 1.2 for lot in lots)])
    days = [date.fromisoformat(lot.read_on).toordinal() for lot in lots]
    span = max(days[-1] - days[0], 1) if days else 1
    dots = tuple(
        Dot(EDGE + (d - days[0]) / span * (WIDE - 2 * EDGE), _height(lot.delta_e00, top), lot)
        for d, lot in zip(days, lots, strict=True)
    )
    return DriftChart(dots, _height(2.0, top), _words(lots))


def _height(value: float, top: float) -> float:
    return TALL - EDGE - value / top * (TALL - 2 * EDGE)


def _words(lots: tuple[LotColor, ...]) -> str:
    if len(lots) < LEAST:
        counted = "1 lot" if len(lots) == 1 else f"{len(lots) or 'no'} lots"
        return f"Too few to say whether the color drifts: {counted} read alike, {LEAST} needed."
    worst = max(lots, key=lambda lot: lot.delta_e00)
    if worst.delta_e00 < 2:
        return f"{len(lots)} lots within {worst.delta_e00:.1f} of the first: it holds."
    return f"Lot {worst.lot} is {worst.delta_e00:.1f} off the first: plain to see side by side."
