"""Who waits for whom while a cup is poured, laid out for an SVG: a row each for hands and molds."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from pourwright.forecast.pour_rotation import RotationAct
from pourwright.plan.pour_plan import PourPlan

WIDTH, LEFT, RIGHT, TOP, BOTTOM = 640.0, 74.0, 8.0, 6.0, 26.0
ROW, BAR = 30.0, 20.0
# A bar narrower than this carries no word.
LEAST_WORD = 34.0
TICKS_S = (60, 120, 300, 600, 900, 1800, 3600)
MOST_TICKS = 8


@dataclass(frozen=True, slots=True)
class Bar:
    """One stretch of time in a row; `sort` names its looks."""

    sort: str
    x: float
    y: float
    width: float
    word: str


@dataclass(frozen=True, slots=True)
class RowName:
    """A row's name and where it stands."""

    word: str
    y: float


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark of time along the foot."""

    x: float
    seconds: float


@dataclass(frozen=True, slots=True)
class PourChart:
    """Coordinates in a box of 640 by as many rows as there are."""

    width: float
    height: float
    top: float
    bottom: float
    bar: float
    rows: tuple[RowName, ...]
    bars: tuple[Bar, ...]
    ticks: tuple[Tick, ...]


def pour_chart(plan: PourPlan) -> PourChart:
    """Where every act of a pour plan stands."""
    total = plan.acts[-1].end_s
    names = ("hands", "oven", *(f"mold {i + 1}" for i in range(plan.molds)))
    bars = [b for a in plan.acts for b in _acted(a, total)]
    bars += [b for i in range(plan.molds) for b in _cooling(plan.acts, i + 1, total)]
    bottom = TOP + ROW * len(names)
    step = next((t for t in TICKS_S if total / t <= MOST_TICKS), TICKS_S[-1])
    return PourChart(
        WIDTH, bottom + BOTTOM, TOP, bottom, BAR,
        tuple(RowName(name, _y(i) + BAR / 2 + 4) for i, name in enumerate(names)),
        tuple(bars),
        tuple(Tick(_x(s, total), float(s)) for s in range(0, int(total) + 1, step)),
    )  # fmt: skip


def _acted(act: RotationAct, total: float) -> list[Bar]:
    """The act in the row of the hands, and in that of what the hands are at."""
    if act.doing == "wait":
        return []
    word = f"{act.doing} {act.mold}" if act.mold else act.doing
    bars = [_bar(act.doing, 0, act.start_s, act.end_s, total, word)]
    if act.doing == "rewarm":
        bars.append(_bar("rewarm", 1, act.start_s, act.end_s, total, "on"))
    elif act.mold:
        bars.append(_bar(act.doing, 1 + act.mold, act.start_s, act.end_s, total, act.doing))
    return bars


def _cooling(acts: tuple[RotationAct, ...], mold: int, total: float) -> list[Bar]:
    """From each shot into a mold to its opening."""
    own = [a for a in acts if a.mold == mold]
    pairs = itertools.pairwise(own)
    return [
        _bar("closed", 1 + mold, shot.end_s, opened.start_s, total, "cools")
        for shot, opened in pairs
        if shot.doing == "shoot"
    ]


def _bar(sort: str, row: int, start: float, end: float, total: float, word: str) -> Bar:
    x = _x(start, total)
    width = max(round(_x(end, total) - x, 1), 1.0)
    return Bar(sort, x, _y(row), width, word if width >= LEAST_WORD else "")


def _x(seconds: float, total: float) -> float:
    return round(LEFT + (WIDTH - LEFT - RIGHT) * seconds / total, 1)


def _y(row: int) -> float:
    return TOP + ROW * row + (ROW - BAR) / 2
