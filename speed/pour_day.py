"""Timetables of invented pour days: the search beside the best simple rule, and how both grow.

    python3 run.py speed pour_day

The peer is the best of the four rules on the same day in the same run. Processor seconds are
printed beside those of the clock, because the machine may have other work.
"""

from __future__ import annotations

import dataclasses
import random
import statistics
import time
from contextlib import suppress
from typing import NamedTuple

from pourwright.plan.day.day import DayAnswer, best_day
from pourwright.plan.day.day_input import DayCup, DayFill, DayInput, DayMold

SEEDS = range(1, 6)
SIZES, SEARCHED = (5, 10, 20, 40, 80), (5, 10, 20, 40)
# The search's own limit, by which it ends with a bound, and the clock's where it is held up.
SEARCH_EFFORT, SEARCH_S = 10.0, 30.0
LEAST_GAIN = 0.05


def invented_day(cups: int, seed: int, *, due: bool = False, effort: float = 20) -> DayInput:
    """Cups of one to four shots into four sorts of mold, ten shades, three kits."""
    draw = random.Random(seed)  # noqa: S311  no secret is drawn
    molds = tuple(
        DayMold(
            name=f"mold {m}", count=draw.choice([1, 2, 2, 3]), cool_s=60 * draw.choice([4, 5, 6])
        )
        for m in range(4)
    )
    return DayInput(
        cups=tuple(_cup(draw, i, cups, molds, due=due) for i in range(cups)),
        molds=molds, kits=3, effort=effort, seed=seed,
    )  # fmt: skip


def _cup(
    draw: random.Random, i: int, cups: int, molds: tuple[DayMold, ...], *, due: bool
) -> DayCup:
    return DayCup(
        name=f"cup {i}",
        heat_s=30 * draw.randint(6, 12),
        shade=draw.randrange(10),
        due_min=draw.choice([None, None, 60, 120, 6 * cups]) if due else None,
        fills=(DayFill(mold=draw.choice(molds).name, shots=draw.randint(1, 4), pour_s=60),),
    )


def main() -> None:
    """Small days to the proof, large ones against the rules, then growth."""
    print("10 cups: proven best within 5 s of the clock")
    for seed in SEEDS:
        row(invented_day(10, seed))
    for due in (False, True):
        print(f"30 cups{' with due times' if due else ''}: gain on the best rule")
        gains = [row(invented_day(30, seed, due=due)) for seed in SEEDS]
        print(f"median gain {statistics.median(gains):.1%}, asked {LEAST_GAIN:.0%}")
    growth()


def row(inputs: DayInput) -> float:
    """One day; what the search gains on the best rule."""
    clock, work = time.perf_counter(), time.process_time()
    answer = best_day(inputs)
    clock, work = time.perf_counter() - clock, time.process_time() - work
    best = _best_rule(answer)
    gain = 1 - answer.totals.objective / best
    print(
        f"  best rule {best:7.0f}  found {answer.totals.objective:7.0f}  gain {gain:6.1%}  "
        f"{clock:5.1f} s ({work:.1f} s of work)  {answer.gap_words}", flush=True,
    )  # fmt: skip
    return gain


def growth() -> None:
    """The four rules, then the search, from one size to twice that size."""
    print(f"{'cups':>5} {'four rules':>12} {'against half as many':>22}")
    before = 0.0
    for size in SIZES:
        inputs = dataclasses.replace(invented_day(size, 1), effort=0)
        seconds = min(_seconds(inputs) for _ in range(3))
        times = f"{seconds / before:5.1f} times" if before else ""
        print(f"{size:5d} {seconds * 1e3:9.0f} ms {times:>22}")
        before = seconds
    print(f"the search, effort {SEARCH_EFFORT:.0f}, cut off after {SEARCH_S:.0f} s of the clock")
    for size in SEARCHED:
        for seed in (1, 2):
            print(f"{size:5d} cups, day {seed}: {watched(size, seed)}", flush=True)


def watched(size: int, seed: int) -> str:
    """When the search first beat every rule, and what it came to, in words."""
    inputs, watch = invented_day(size, seed, effort=SEARCH_EFFORT), Watch()
    with suppress(TimeUp):
        watch.better(best_day(inputs, watch.better, watch.at))
    first, last = watch.beating(), watch.seen[-1]
    ended = time.perf_counter() - watch.begun
    beaten = "no rule beaten"
    if first:
        beaten = f"better than the rules after {first.seconds:5.2f} s by {first.gain:5.1%}"
    proof = "proven" if last.answer.proven else f"not proven ({last.answer.gap_words})"
    return f"{beaten}, at the end by {last.gain:5.1%}; {proof} when it ended after {ended:5.1f} s"


class TimeUp(Exception):
    """The search has had its time."""


class Seen(NamedTuple):
    """A timetable, and when it was there."""

    seconds: float
    answer: DayAnswer

    @property
    def gain(self) -> float:
        """Share of the best rule's points that it saves."""
        return 1 - self.answer.totals.objective / _best_rule(self.answer)


class Watch:
    """Notes every better timetable, and ends the search when its time is up."""

    def __init__(self) -> None:
        self.begun = time.perf_counter()
        self.seen: list[Seen] = []

    def better(self, answer: DayAnswer) -> None:
        self.seen.append(Seen(time.perf_counter() - self.begun, answer))
        self.at(0.0)

    def at(self, _: float) -> None:
        if time.perf_counter() - self.begun > SEARCH_S:
            raise TimeUp

    def beating(self) -> Seen | None:
        """The first timetable that is better than that of every rule."""
        return next((it for it in self.seen if it.gain > 0), None)


def _best_rule(answer: DayAnswer) -> float:
    return min(tried.totals.objective for tried in answer.rules)


def _seconds(inputs: DayInput) -> float:
    start = time.process_time()
    answer: DayAnswer = best_day(inputs)
    if not answer.verified:
        raise RuntimeError("a timetable was not verified")
    return time.process_time() - start
