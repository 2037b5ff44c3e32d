"""Times as events carry them: UTC, ISO 8601 to the second, ending in Z."""

from __future__ import annotations

import datetime as dt


def seconds_between(first: str, second: str) -> float:
    """Seconds from one time to another; negative where the second comes before the first.

    >>> seconds_between("2026-01-17T14:00:00Z", "2026-01-17T14:01:15Z")
    75.0
    """
    return (_moment(second) - _moment(first)).total_seconds()


def before(at: str, seconds: int) -> str:
    """The time so many seconds earlier.

    >>> before("2026-01-17T14:00:05Z", 10)
    '2026-01-17T13:59:55Z'
    """
    return (_moment(at) - dt.timedelta(seconds=seconds)).strftime("%Y-%m-%dT%H:%M:%SZ")


def after(at: str, seconds: int) -> str:
    """The time so many seconds later.

    >>> after("2026-01-17T23:59:55Z", 10)
    '2026-01-18T00:00:05Z'
    """
    return before(at, -seconds)


def _moment(at: str) -> dt.datetime:
    return dt.datetime.fromisoformat(at)
