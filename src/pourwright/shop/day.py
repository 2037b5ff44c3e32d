"""Days of the calendar as they are typed, such as 2026-11-25."""

from __future__ import annotations

import datetime as dt

from pourwright.base.errors import BadInput

DAY = "[0-9]{4}-[0-9]{2}-[0-9]{2}"


def refuse_no_day(field: str, day: str) -> None:
    """Refuse a day that no calendar has; none at all is let pass. Raises: BadInput."""
    try:
        dt.date.fromisoformat(day or "2000-01-01")
    except ValueError as error:
        raise BadInput(field, day, "is no day of the calendar") from error
