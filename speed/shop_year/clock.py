"""A clock that is set to the moment that is being told."""

from __future__ import annotations

import datetime as dt
from uuid import NAMESPACE_OID, uuid5


class ToldClock:
    """Shows the moment it was set to."""

    def __init__(self, at: str) -> None:
        self.at = at

    def now(self) -> str:
        return self.at

    def moment(self) -> str:
        return self.at.replace("Z", ".000Z")


class CountedIds:
    """Ids that count, so that the same year has the same ids."""

    def __init__(self) -> None:
        self._made = 0

    def fresh(self) -> str:
        self._made += 1
        return uuid5(NAMESPACE_OID, f"invented shop {self._made}").hex


def moment(year: int, day: int, hour: float) -> str:
    """A moment of a day of the year, counted from 0, as UTC."""
    at = dt.datetime(year, 1, 1, tzinfo=dt.UTC) + dt.timedelta(days=day, hours=hour)
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")
