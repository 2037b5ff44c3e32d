"""What a pour day has too late: batches needed on a day before, cups needed at an earlier time."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.base.units import convert
from pourwright.shop.pour_day import PourDay, Timetable


@dataclass(frozen=True, slots=True)
class LateBatch:
    """A batch that was needed before the pour day."""

    title: str
    due_on: str
    days: int


@dataclass(frozen=True, slots=True)
class LateCup:
    """A cup whose last mold opens too late; `needed_at` is empty where the day itself is due."""

    cup: str
    title: str
    needed_at: str
    done_s: int
    late_s: int


def done_by_cup(table: Timetable) -> dict[str, int]:
    """When each cup is done, in seconds from the start of the day."""
    found: dict[str, int] = {}
    for step in table.steps:
        found[step.cup] = max(found.get(step.cup, 0), step.end_s)
    return found


def late_batches(day: PourDay, table: Timetable) -> Iterator[LateBatch]:
    """Batches that were needed before the pour day."""
    titles = {cup.batch: cup.title for cup in table.cups}
    for place, batch in enumerate(day.batches):
        if place in titles and batch.due_on and batch.due_on < day.day:
            late = dt.date.fromisoformat(day.day) - dt.date.fromisoformat(batch.due_on)
            yield LateBatch(titles[place], batch.due_on, late.days)


def late_cups(day: PourDay, table: Timetable) -> Iterator[LateCup]:
    """Cups that miss the time of the pour day by which they are needed."""
    done = done_by_cup(table)
    for cup in table.cups:
        if cup.due_min is None:
            continue
        late_s = done.get(cup.name, 0) - int(convert(cup.due_min, "min", "s"))
        if late_s > 0:
            needed = day.batches[cup.batch].needed_at
            yield LateCup(cup.name, cup.title, needed, done[cup.name], late_s)
