"""Times of events as the clock on the wall of the bench shows them."""

from __future__ import annotations

import datetime as dt
import re

_ISO_DAY = re.compile(r"\b[0-9]{4}-[0-9]{2}-[0-9]{2}\b")
_NEAR = {0: "", 1: "tomorrow ", -1: "yesterday "}


def time_of_day(at: str, now: str) -> str:
    """A time on the laptop's own clock: hours and minutes, with the day where it is another."""
    moment, here = _local(at), _local(now)
    return f"{_day(moment, here)}{moment:%H:%M}"


def day_of(at: str) -> str:
    """The day of a time, on the laptop's own clock."""
    return _day_words(_local(at))


def dated(words: str) -> str:
    """Words in which every day stands as people read it; what is no day stays.

    >>> dated("2026-06-05"), dated("due 2026-06-05; for Ada")
    ('Fri, Jun 5, 2026', 'due Fri, Jun 5, 2026; for Ada')
    """
    return _ISO_DAY.sub(_worded, words)


def _worded(found: re.Match[str]) -> str:
    try:
        return _day_words(dt.date.fromisoformat(found[0]))
    except ValueError:
        return found[0]


def _day_words(day: dt.date) -> str:
    return f"{day:%a}, {day:%b} {day.day}, {day.year}"


def to_the_second(at: str) -> str:
    """A time on the laptop's own clock, to the second."""
    return f"{_local(at):%H:%M:%S}"


def _day(moment: dt.datetime, here: dt.datetime) -> str:
    days = (moment.date() - here.date()).days
    if days in _NEAR:
        return _NEAR[days]
    year = "" if moment.year == here.year else f" {moment.year}"
    return f"{moment:%b} {moment.day}{year}, "


def _local(at: str) -> dt.datetime:
    return dt.datetime.fromisoformat(at).astimezone()
