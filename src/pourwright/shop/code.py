"""Lot codes: the day, the sheet and a check character that catches a slip of the pen."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import flag, out, text
from pourwright.base.record import Record
from pourwright.base.source import published

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def check_character(body: str) -> str:
    """The check character of ISO/IEC 7064:2003, MOD 37,36.

    It catches every wrong character and every swap of two neighbors.
    Raises: BadInput for a character that is no digit and no capital letter.

    >>> check_character("A12425GABC1234002")
    'M'
    """
    left = 36
    for character in body:
        if character not in ALPHABET:
            raise BadInput("code", body, "may hold only digits and capital letters")
        left = (left + ALPHABET.index(character)) % 36 or 36
        left = left * 2 % 37
    return ALPHABET[(37 - left) % 36]


def lot_code(*, date: str, number: int) -> str:
    """Code of a lot, in a layout of our own that no registry knows.

    P, then year, month and day with two digits each, the number of the batch sheet with four
    digits or more, and the check character. A code says nothing to anyone else: it is no article
    number and carries no issued prefix. `date` is year-month-day, `number` 1 or more.
    Raises: BadInput for a day that does not exist or a number below 1.

    >>> lot_code(date="2026-11-25", number=7)
    'P2611250007L'
    """
    try:
        day = dt.date.fromisoformat(date)
    except ValueError as error:
        raise BadInput("date", date, "must be a day such as 2026-11-25") from error
    if number < 1:
        raise BadInput("number", number, "must be 1 or more")
    body = f"P{day:%y%m%d}{number:04d}"
    return body + check_character(body)


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeInput(Record):
    """A code, with or without its check character."""

    code: str = text("The code", most=40, pattern="[0-9A-Z]{2,40}")
    complete: bool = flag("It carries its check character", default=True)


@dataclass(frozen=True, slots=True)
class CodeAnswer:
    """What the check character should be, and whether it is."""

    check: str = out("The check character that fits")
    valid: bool = out("Whether the code carries it; false for a code without one")
    verdict: str = out("The same in words")


@calculation(
    "shop.check_code",
    purpose="check character of a lot code, and whether a code carries it",
    sources=(published("ISO/IEC 7064:2003, hybrid system MOD 37,36"),),
    example={"code": "A12425GABC1234002M"},
)
def check_code(inputs: CodeInput) -> CodeAnswer:
    """The check character of a code's body, and the verdict on a complete code.

    A code that passes was not mistyped by one character; whether such a lot exists is another
    question.
    """
    if not inputs.complete:
        wanted = check_character(inputs.code)
        return CodeAnswer(wanted, valid=False, verdict=f"complete it as {inputs.code}{wanted}")
    body, given = inputs.code[:-1], inputs.code[-1]
    wanted = check_character(body)
    if given == wanted:
        return CodeAnswer(wanted, valid=True, verdict="the check character fits")
    wrong = f"mistyped: after {body} the check character is {wanted}, not {given}"
    return CodeAnswer(wanted, valid=False, verdict=wrong)
