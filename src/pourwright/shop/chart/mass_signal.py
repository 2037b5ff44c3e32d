"""What stands out among weighed lots: far out, in a row, uneven, or creeping away."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from pourwright.shop.chart.signal import Side, Sign, Signal, in_order, run_signals


class Lot(Protocol):
    """A charted lot."""

    @property
    def lot(self) -> str:
        """Its name."""

    @property
    def mean_g(self) -> float:
        """Its mean."""

    @property
    def range_g(self) -> float | None:
        """Its range."""

    @property
    def ewma_g(self) -> float:
        """The moving mean at it."""

    @property
    def ewma_low_g(self) -> float | None:
        """The lower limit of that."""

    @property
    def ewma_high_g(self) -> float | None:
        """The upper limit of that."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits of a chart of weights; all none where there are none yet."""

    center: float | None = None
    low: float | None = None
    high: float | None = None
    range_center: float | None = None
    range_low: float | None = None
    range_high: float | None = None
    ewma_low: float | None = None
    ewma_high: float | None = None


def mass_signals(lots: Sequence[Lot], limits: Limits, *, usual: bool) -> tuple[Signal, ...]:
    """Everything that stands out, by place; a creep is told where it begins, not at every lot.

    `usual` says that the center is known from before.
    """
    center = limits.center if usual else _steady(lots, limits)
    sides = [Side(_sign(it.mean_g - (center or 0.0)), 0.5) for it in lots]
    alone = [s for place, it in enumerate(lots) for s in _alone(place, it, limits)]
    return in_order([*alone, *_creeps(lots)], run_signals(sides, [it.lot for it in lots]))


def _steady(lots: Sequence[Lot], limits: Limits) -> float | None:
    """The center of the lots that are not far out: one that is makes no run of the others."""
    low, high = limits.low or -math.inf, limits.high or math.inf
    near = [it.mean_g for it in lots if low <= it.mean_g <= high]
    return sum(near) / len(near) if near else limits.center


def _alone(place: int, it: Lot, limits: Limits) -> Iterator[Signal]:
    mean = f"{it.lot}: {it.mean_g:.4g} g on average"
    if it.mean_g > (limits.high or math.inf):
        words = f"{mean}, where chance alone ends at {limits.high:.4g} g."
        yield Signal(it.lot, place + 1, Sign.HIGH, words)
    if limits.low is not None and it.mean_g < limits.low:
        words = f"{mean}, where chance alone begins at {limits.low:.4g} g."
        yield Signal(it.lot, place + 1, Sign.LOW, words)
    if it.range_g is None:
        return
    if it.range_g > (limits.range_high or math.inf):
        words = f"{it.lot}: {it.range_g:.3g} g apart, where chance ends at {limits.range_high:.3g}."
        yield Signal(it.lot, place + 1, Sign.UNEVEN, words)
    if it.range_g < (limits.range_low or 0.0):
        words = f"{it.lot}: only {it.range_g:.3g} g apart. Was the scale fine enough?"
        yield Signal(it.lot, place + 1, Sign.EVEN, words)


def _creeps(lots: Sequence[Lot]) -> Iterator[Signal]:
    before = 0
    for place, it in enumerate(lots):
        side = _creeping(it)
        if side and side != before:
            sign = Sign.DRIFT_UP if side > 0 else Sign.DRIFT_DOWN
            words = f"{it.lot}: baits have been getting {'heavier' if side > 0 else 'lighter'}."
            yield Signal(it.lot, place + 1, sign, words)
        before = side


def _creeping(it: Lot) -> int:
    if it.ewma_low_g is None or it.ewma_high_g is None:
        return 0
    return (it.ewma_g > it.ewma_high_g) - (it.ewma_g < it.ewma_low_g)


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)
