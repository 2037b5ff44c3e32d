"""Ids of the moves of one deed."""

from __future__ import annotations

_DIGITS = 32


def moved_id(key: str, place: int) -> str:
    """The id of a deed, counted on, so that the same deed makes the same moves.

    >>> moved_id("f" * 32, 1)
    '00000000000000000000000000000000'
    """
    return f"{(int(key, 16) + place) % 16**_DIGITS:0{_DIGITS}x}"
