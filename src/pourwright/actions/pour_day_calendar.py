"""A pour day as entries of a calendar: what the hands and the microwave do, cooling left out."""

from __future__ import annotations

import datetime as dt

from pourwright.base.errors import Conflict
from pourwright.shop.calendar_entry import CalendarEntry
from pourwright.shop.pour_day import PlannedCup, PlannedStep, PourDay

WORDS = {
    "heat": "Heat {cup}", "rewarm": "Warm {cup} again", "pour": "Shoot {cup}",
    "clean": "Clean a kit for {cup}",
}  # fmt: skip
CAUTION = (
    "A timetable is no reason to hurry: gloves, face shield, fan on; never leave a heating cup; "
    "smoke or a sharp smell means stop and get out."
)


def pour_day_calendar(id: str, day: PourDay) -> tuple[CalendarEntry, ...]:
    """An entry for every step that needs somebody. Raises: Conflict for a day not laid out."""
    if day.timetable is None:
        raise Conflict("the day has no timetable yet: lay it out first")
    start = dt.datetime.fromisoformat(f"{day.day}T{day.begins}:00")
    cups = {cup.name: cup for cup in day.timetable.cups}
    return tuple(
        _entry(id, start, i, step, cups[step.cup])
        for i, step in enumerate(day.timetable.steps, 1)
        if step.doing in WORDS and step.cup in cups
    )


def _entry(
    id: str, start: dt.datetime, number: int, step: PlannedStep, cup: PlannedCup
) -> CalendarEntry:
    starts, ends = (start + dt.timedelta(seconds=s) for s in (step.start_s, step.end_s))
    words = WORDS[step.doing].format(cup=cup.name[0].lower() + cup.name[1:])
    return CalendarEntry(
        uid=f"{id}-{number}@pour-day",
        starts=starts.isoformat(),
        ends=ends.isoformat(),
        words=f"{words}: {cup.title}",
        more=CAUTION,
    )
