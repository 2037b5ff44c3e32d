"""Quarters of the calendar, and when a quarter's return is due."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

_MONTHS = 3
_MONTHS_A_YEAR = 12
_SATURDAY = 5
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True, order=True)
class Quarter:
    """A quarter; `number` runs from 1 to 4."""

    year: int
    number: int

    @classmethod
    def of(cls, day: str) -> Quarter:
        """The quarter of a day such as 2026-05-31."""
        date = dt.date.fromisoformat(day)
        return cls(date.year, (date.month - 1) // _MONTHS + 1)

    @property
    def name(self) -> str:
        """Such as 2026-Q2."""
        return f"{self.year}-Q{self.number}"

    @property
    def months(self) -> tuple[str, ...]:
        """Its three months, such as 2026-04."""
        first = (self.number - 1) * _MONTHS + 1
        return tuple(f"{self.year}-{first + i:02}" for i in range(_MONTHS))

    @property
    def first(self) -> str:
        """Its first day."""
        return f"{self.months[0]}-01"

    @property
    def last(self) -> str:
        """Its last day."""
        return (_first_after(self) - _DAY).isoformat()

    @property
    def due_on(self) -> str:
        """Day by which Form 720 is due: the last of the month after it, or the next business day.

        Source: instructions for Form 720, "When to file". No legal holiday (5 USC 6103(a), from
        memory) lies between such a day and the second day after it, so that weekends alone move it.
        """
        after = _first_after(self)
        due = _start(after.year, after.month + 1) - _DAY
        while due.weekday() >= _SATURDAY:
            due += _DAY
        return due.isoformat()

    def moved(self, by: int) -> Quarter:
        """The quarter so many quarters later."""
        year, index = divmod(self.year * 4 + self.number - 1 + by, 4)
        return Quarter(year, index + 1)


def _first_after(quarter: Quarter) -> dt.date:
    return _start(quarter.year, quarter.number * _MONTHS + 1)


def _start(year: int, month: int) -> dt.date:
    """First day of a month that may be counted past December."""
    return dt.date(year + (month - 1) // _MONTHS_A_YEAR, (month - 1) % _MONTHS_A_YEAR + 1, 1)
