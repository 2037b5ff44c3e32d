"""The heat budget used, laid out as a bar for an SVG."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.heat.scorch_words import BLEND, SPENT, USE_SOON, Advice

WIDTH, HEIGHT = 640.0, 96.0
_EDGE, _MOST = 20.0, 1.25


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of the bar and what to do in it."""

    x: float
    width: float
    words: str


@dataclass(frozen=True, slots=True)
class BudgetBar:
    """The bar from 0 to a little over all of it; `beyond` where the high end runs off it."""

    width: float
    height: float
    zones: tuple[Zone, ...]
    ticks: tuple[tuple[float, str], ...]
    low: float
    high: float
    typical: float
    beyond: bool


def budget_bar(dose: Band) -> BudgetBar:
    """Where a used share stands between fresh and spent."""
    ends = (0.0, USE_SOON, BLEND, SPENT, _MOST)
    zones = tuple(
        Zone(_x(a), round(_x(b) - _x(a), 1), advice.value)
        for a, b, advice in zip(ends[:-1], ends[1:], Advice, strict=True)
    )
    return BudgetBar(
        WIDTH,
        HEIGHT,
        zones,
        tuple((_x(share), f"{share:.0%}") for share in ends[:-1]),
        _x(dose.low),
        _x(dose.high),
        _x(dose.typical),
        dose.high > _MOST,
    )


def _x(share: float) -> float:
    return round(_EDGE + (WIDTH - 2 * _EDGE) * min(share, _MOST) / _MOST, 1)
