"""One entry of a calendar: floating times, that is, those of whatever wall the clock hangs on."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CalendarEntry:
    """`starts` and `ends` are local, ISO 8601 without a zone; `uid` stays the same for good."""

    uid: str
    starts: str
    ends: str
    words: str
    more: str = ""
