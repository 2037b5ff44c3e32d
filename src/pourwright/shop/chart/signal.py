"""What stands out in a chart: a lot too far out, or too many in a row on one side."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.field import out
from pourwright.shop.chart.odds import Chance

RUN = 8
# Champ and Woodall, Technometrics 29 (1987) 393, table 1: limits with runs of eight.
ALARM_EVERY = 150


class Sign(StrEnum):
    """What stood out."""

    HIGH = "too high"
    LOW = "too low"
    RUN_HIGH = "a run above"
    RUN_LOW = "a run below"
    UNEVEN = "spread too wide"
    EVEN = "spread too narrow"
    DRIFT_UP = "drifting up"
    DRIFT_DOWN = "drifting down"


@dataclass(frozen=True, slots=True)
class Signal:
    """One thing that stands out, and the lot at which it does."""

    lot: str = out("Lot at which it shows")
    place: int = out("Its place in the chart, from 1")
    sign: Sign = out("What stands out")
    words: str = out("The same in a sentence")


@dataclass(frozen=True, slots=True)
class Side:
    """On which side of the center a lot lies (1, -1 or 0), and how likely chance puts it there."""

    side: int
    chance: float


@dataclass(frozen=True, slots=True)
class Run:
    """Lots in a row on one side; places count from 0."""

    first: int
    last: int
    side: int


@dataclass(frozen=True, slots=True)
class Counted:
    """A count in a chart, how it is told, what it was counted on, and where chance ends.

    `deal` is what chance makes of it where so many are usual of one.
    """

    lot: str
    told: str
    count: int
    size: float
    fewest: int | None
    most: int | None
    deal: Callable[[float], Chance]


def count_signals(counts: Sequence[Counted], center: float, *, known: bool) -> tuple[Signal, ...]:
    """Counts too far out, and runs beside what is usual; `known` where the center is from before.

    One count far out must not make all others look like a run on the other side, so that the
    center of the runs is taken without it.
    """
    alone = [_far_out(place, it) for place, it in enumerate(counts, start=1)]
    near = [it for it, far in zip(counts, alone, strict=True) if far is None]
    steady = center if known or not near else sum(i.count for i in near) / sum(i.size for i in near)
    sides = [side_of(it.deal(steady), it.count) for it in counts]
    return in_order(alone, run_signals(sides, [it.lot for it in counts]))


def _far_out(place: int, it: Counted) -> Signal | None:
    if it.most is not None and it.count > it.most:
        words = f"{it.lot}: {it.told}, where chance alone makes at most {it.most}."
        return Signal(it.lot, place, Sign.HIGH, words)
    if it.fewest is not None and it.count < it.fewest:
        least = f"where chance alone leaves at least {it.fewest}. Better than usual?"
        return Signal(it.lot, place, Sign.LOW, f"{it.lot}: {it.told}, {least}")
    return None


def side_of(chance: Chance, count: int) -> Side:
    """On which side of what is usual a count lies."""
    if count == chance.mean:
        return Side(0, 1.0)
    if count > chance.mean:
        return Side(1, chance.at_least(math.floor(chance.mean) + 1))
    return Side(-1, chance.at_most(math.ceil(chance.mean) - 1))


def runs(sides: Sequence[Side]) -> tuple[Run, ...]:
    """Runs of eight or more on one side, each at its full length.

    Where the sides are not even, as with a few bad ones among few baits, a run must be as long as
    makes it no likelier than eight heads in a row.
    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2, for even sides.
    """
    found: list[Run] = []
    first, odds = 0, 1.0
    for place, it in enumerate(sides):
        if it.side != sides[first].side or not it.side:
            first, odds = place, 1.0
        odds *= it.chance
        if it.side and place - first + 1 >= RUN and odds <= 0.5**RUN:
            if found and found[-1].first == first:
                found.pop()
            found.append(Run(first, place, it.side))
    return tuple(found)


def run_signals(sides: Sequence[Side], lots: Sequence[str]) -> list[Signal]:
    """The runs as signals, at the last lot of each."""
    return [
        Signal(
            lots[run.last], run.last + 1, Sign.RUN_HIGH if run.side > 0 else Sign.RUN_LOW,
            f"{lots[run.first]} to {lots[run.last]}: {run.last - run.first + 1} in a row "
            f"{'above' if run.side > 0 else 'below'} what is usual.",
        )
        for run in runs(sides)
    ]  # fmt: skip


def in_order(alone: Iterable[Signal | None], others: Iterable[Signal]) -> tuple[Signal, ...]:
    """Signals by their place in the chart."""
    found = [it for it in (*alone, *others) if it is not None]
    return tuple(sorted(found, key=lambda it: it.place))


def false_alarms(every: int) -> str:
    """What a signal is worth, where chance alone makes one in so many lots."""
    return (
        f"Even where nothing changed, about one lot in {every} is called out: "
        "a signal is a reason to look, not a verdict."
    )


def summed(signals: Sequence[Signal]) -> str:
    """What the signals come to, in a sentence."""
    if not signals:
        return "Nothing stands out: chance alone explains these lots."
    if len(signals) == 1:
        return f"One thing stands out. {signals[0].words}"
    return f"{len(signals)} things stand out, the last of them: {signals[-1].words}"
