"""Lot codes: the day, the sheet and a check character that catches a slip of the pen."""

from __future__ import annotations

import datetime as dt

from pourwright.base.errors import BadInput
from pourwright.shop.check_scheme import check_character

# Letters that a code begins with: what the lot holds.
POURED, BAGGED, BOUGHT, REMELT = "P", "B", "M", "R"
_DAY_SIGNS, _CHECK_SIGNS = 7, 1


def lot_code(*, date: str, number: int, letter: str = POURED) -> str:
    """Code of a lot, in a layout of our own that no registry knows.

    The letter of its sort, then year, month and day with two digits each, a number with four
    digits or more (for a poured lot that of its batch sheet), and the check character. A code
    says nothing to anyone else: it is no article number and carries no issued prefix. `date` is
    year-month-day, `number` 1 or more. Raises: BadInput for a day that does not exist or a number
    below 1.

    >>> lot_code(date="2026-11-25", number=7)
    'P2611250007L'
    """
    try:
        day = dt.date.fromisoformat(date)
    except ValueError as error:
        raise BadInput("date", date, "must be a day such as 2026-11-25") from error
    if number < 1:
        raise BadInput("number", number, "must be 1 or more")
    body = f"{letter}{day:%y%m%d}{number:04d}"
    return body + check_character(body)


def number_in(code: str) -> int:
    """The number that a code of ours carries.

    >>> number_in("P2611250007L")
    7
    """
    return int(code[_DAY_SIGNS:-_CHECK_SIGNS])
