"""A pour day as a calendar file (RFC 5545), its times those of the clock on the wall."""

from __future__ import annotations

import datetime as dt

from icalendar import Alarm, Calendar, Event

from pourwright.shop.calendar_entry import CalendarEntry

BEFORE = dt.timedelta(minutes=-1)


def calendar(name: str, entries: tuple[CalendarEntry, ...], *, made_at: str) -> bytes:
    """The file: an event for each entry, each with an alarm a minute before."""
    found = Calendar()
    found.add("prodid", "-//Pourwright//Pour day//EN")
    found.add("version", "2.0")
    found.add("x-wr-calname", name)
    for entry in entries:
        found.add_component(_event(entry, dt.datetime.fromisoformat(made_at)))
    return bytes(found.to_ical())


def _event(entry: CalendarEntry, made: dt.datetime) -> Event:
    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstamp", made)
    event.add("dtstart", dt.datetime.fromisoformat(entry.starts))
    event.add("dtend", dt.datetime.fromisoformat(entry.ends))
    event.add("summary", entry.words)
    if entry.more:
        event.add("description", entry.more)
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", entry.words)
    alarm.add("trigger", BEFORE)
    event.add_component(alarm)
    return event
