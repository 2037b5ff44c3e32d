"""Times of events as the clock on the wall of the bench shows them."""

from __future__ import annotations

import datetime as dt

_NEAR = {0: "", 1: "tomorrow ", -1: "yesterday "}


def time_of_day(at: str, now: str) -> str:
    """A time on the laptop's own clock: hours and minutes, with the day where it is another."""
    moment, here = _local(at), _local(now)
    return f"{_day(moment, here)}{moment:%H:%M}"


def day_of(at: str) -> str:
    """The day of a time, on the laptop's own clock."""
    moment = _local(at)
    return f"{moment:%b} {moment.day}, {moment.year}"


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
