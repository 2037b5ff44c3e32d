"""The maker's own calendar day."""

from __future__ import annotations

import datetime as dt


def day_here(at: str) -> str:
    """The day of a UTC time on the laptop's own clock, such as 2026-06-03."""
    return dt.datetime.fromisoformat(at).astimezone().date().isoformat()
