"""Check characters: how each scheme makes them, and which slips it lets pass."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.errors import BadInput

DIGITS = "0123456789"
ALPHABET = DIGITS + "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
# Lengths of an article number, its check digit included.
ARTICLE_LENGTHS = (8, 12, 13, 14)


class Scheme(StrEnum):
    """Where a code's check characters come from."""

    MOD_37_36 = "MOD 37,36"
    """ISO/IEC 7064; that of this bench's lot codes."""
    MOD_37_2 = "MOD 37-2"
    """ISO/IEC 7064."""
    MOD_97_10 = "MOD 97-10"
    """ISO/IEC 7064."""
    MOD_10 = "GS1 mod 10"
    """That of article numbers."""


@dataclass(frozen=True, slots=True)
class CheckScheme:
    """A scheme: what it may hold, what it appends, and what it is blind to."""

    alphabet: str
    appended: int
    made: Callable[[str], str]
    holds: str
    misses: str

    def check_of(self, body: str) -> str:
        """The check characters of a body.

        Raises: BadInput for a character the scheme does not know, or no body at all.
        """
        if not body:
            raise BadInput("code", body, "holds nothing before its check characters")
        for character in body:
            if character not in self.alphabet:
                why = f"holds {character!r}, which does not belong: {self.holds}"
                raise BadInput("code", body, why)
        return self.made(body)

    def parted(self, code: str) -> tuple[str, str]:
        """A complete code as its body and its check characters."""
        return code[: -self.appended], code[-self.appended :]


def check_character(body: str) -> str:
    """The check character of ISO/IEC 7064:2003, MOD 37,36, for digits and capital letters.

    It catches every wrong character. Of two neighbors swapped it misses one pair in 630 at each
    place: next to each other in the alphabet, which pair depends on what stands before.
    Raises: BadInput for a character that is no digit and no capital letter.

    >>> check_character("A12425GABC1234002")
    'M'
    """
    return SCHEMES[Scheme.MOD_37_36].check_of(body)


def _mod_37_36(body: str) -> str:
    left = 36
    for character in body:
        left = (left + ALPHABET.index(character)) % 36 or 36
        left = left * 2 % 37
    return ALPHABET[(37 - left) % 36]


def _mod_37_2(body: str) -> str:
    left = 0
    for character in body:
        left = (left + ALPHABET.index(character)) * 2 % 37
    return (ALPHABET + "*")[(1 - left) % 37]


def _mod_97_10(body: str) -> str:
    return f"{98 - int(body) * 100 % 97:02d}"


def _mod_10(body: str) -> str:
    """Threes and ones from the right, up to the next ten."""
    _refuse_odd_length(body + "0")
    weighed = sum(int(digit) * (1 if i % 2 else 3) for i, digit in enumerate(reversed(body)))
    return str(-weighed % 10)


def _refuse_odd_length(number: str) -> None:
    if len(number) not in ARTICLE_LENGTHS:
        why = (
            f"would have {len(number)} digits with its check digit; an article number has 8, 12, "
            "13 or 14"
        )
        raise BadInput("code", number[:-1], why)


_SEES_ALL = (
    "Misses no single wrong character and no swap of two neighbors; two slips at once can pass."
)

SCHEMES: dict[Scheme, CheckScheme] = {
    Scheme.MOD_37_36: CheckScheme(
        ALPHABET, 1, _mod_37_36, "digits and capital letters only",
        "Misses no single wrong character. Of two neighbors swapped it misses one pair in 630 at "
        "each place, such as IJ for JI at the beginning; two slips at once can pass.",
    ),
    Scheme.MOD_37_2: CheckScheme(
        ALPHABET, 1, _mod_37_2, "digits and capital letters, the check character may be *",
        _SEES_ALL,
    ),
    Scheme.MOD_97_10: CheckScheme(DIGITS, 2, _mod_97_10, "digits only", _SEES_ALL),
    Scheme.MOD_10: CheckScheme(
        DIGITS, 1, _mod_10, "digits only",
        "Misses no single wrong digit, but every swap of neighbors that differ by 5 (05 for 50, "
        "16 for 61) and every swap of two digits with one between them.",
    ),
}  # fmt: skip


def refuse_bad_article_number(number: str, *, field: str) -> None:
    """Refuse what cannot be an article number; whether it was issued to you, no check can tell.

    Raises: BadInput naming the field and what is wrong.
    """
    scheme = SCHEMES[Scheme.MOD_10]
    if not number.isascii() or not number.isdigit():
        raise BadInput(field, number, "an article number holds digits only, no spaces or dashes")
    if len(number) not in ARTICLE_LENGTHS:
        raise BadInput(field, number, f"has {len(number)} digits; it must have 8, 12, 13 or 14")
    body, given = scheme.parted(number)
    wanted = scheme.check_of(body)
    if given != wanted:
        why = f"is mistyped: its last digit is {given}, and the ones before it ask for {wanted}"
        raise BadInput(field, number, why)
