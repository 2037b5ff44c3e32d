"""Lot codes: the day, the sheet and a check character that catches a slip of the pen."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import flag, out, text
from pourwright.base.record import Record
from pourwright.base.source import published

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def check_character(body: str) -> str:
    """The check character of ISO/IEC 7064:2003, MOD 37,36.

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
    """Code of a lot: P, year, month, day, sheet number in four digits or more, check character.

    >>> lot_code(date="2026-11-25", number=7)
    'P2611250007L'
    """
    body = f"P{date[2:4]}{date[5:7]}{date[8:10]}{number:04d}"
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


@calculation(
    "shop.check_code",
    purpose="check character of a lot code, and whether a code carries it",
    sources=(published("ISO/IEC 7064:2003, hybrid system MOD 37,36"),),
    example={"code": "A12425GABC1234002M"},
)
def check_code(inputs: CodeInput) -> CodeAnswer:
    """The check character of a code's body."""
    body = inputs.code[:-1] if inputs.complete else inputs.code
    wanted = check_character(body)
    return CodeAnswer(wanted, inputs.complete and inputs.code[-1] == wanted)
