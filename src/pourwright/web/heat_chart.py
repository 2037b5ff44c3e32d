"""The temperature line of a cup, laid out for an SVG: rounds, bands, target and limit."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.forecast.heat import HANDLING_S
from pourwright.heat.next_step import REST_S
from pourwright.plan.batch_plan import HeatPlan

WIDTH, HEIGHT = 640.0, 240.0
LEFT, RIGHT, TOP, BOTTOM = 74.0, 12.0, 14.0, 30.0
LOW_C, HIGH_C = 20.0, 220.0
AWAY_S = REST_S + HANDLING_S


@dataclass(frozen=True, slots=True)
class Mark:
    """A labeled line across or along the chart."""

    at: float
    celsius: float


@dataclass(frozen=True, slots=True)
class Spot:
    """A round: its box of heating, the reading with its range, and the hottest place."""

    number: int
    x0: float
    x1: float
    x: float
    read: float
    read_low: float
    read_high: float
    hot: float
    hot_high: float


@dataclass(frozen=True, slots=True)
class HeatChart:
    """Coordinates in a box of 640 by 240."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    spots: tuple[Spot, ...]
    line: str
    band: str
    target: Mark
    limit: Mark
    grid: tuple[Mark, ...]


def heat_chart(plan: HeatPlan) -> HeatChart:
    """Where everything of a heat plan stands."""
    total = sum(r.on_s + AWAY_S for r in plan.rounds) or 1.0
    spots, at = [], 0.0
    for r in plan.rounds:
        start, stop, read = at, at + r.on_s, at + r.on_s + AWAY_S
        spots.append(
            Spot(
                r.number, _x(start, total), _x(stop, total), _x(read, total),
                _y(r.reads_c.typical), _y(r.reads_c.low), _y(r.reads_c.high),
                _y(r.hottest_c.typical), _y(r.hottest_c.high),
            )
        )  # fmt: skip
        at = read
    start_y = _y(22.0)
    points = [(LEFT, start_y), *((s.x, s.read) for s in spots)]
    upper = [(LEFT, start_y), *((s.x, s.read_high) for s in spots)]
    lower = [(LEFT, start_y), *((s.x, s.read_low) for s in spots)]
    return HeatChart(
        WIDTH, HEIGHT, LEFT, WIDTH - RIGHT, TOP, HEIGHT - BOTTOM, tuple(spots),
        _points(points), _points([*upper, *reversed(lower)]),
        Mark(_y(plan.target_c), plan.target_c), Mark(_y(plan.limit_c), plan.limit_c),
        tuple(Mark(_y(c), c) for c in (50.0, 100.0, 150.0, 200.0)),
    )  # fmt: skip


def _x(seconds: float, total: float) -> float:
    return round(LEFT + (WIDTH - LEFT - RIGHT) * seconds / total, 1)


def _y(celsius: float) -> float:
    share = (min(max(celsius, LOW_C), HIGH_C) - LOW_C) / (HIGH_C - LOW_C)
    return round(HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * share, 1)


def _points(points: list[tuple[float, float]]) -> str:
    return " ".join(f"{x:g},{y:g}" for x, y in points)
