"""A message as words, numbers and signs, each with its place in the text."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

_TOKEN = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|\d+(?:[.,]\d+)?|[^\S\n]+|\n|.", re.DOTALL)
_SMALL = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen",
]  # fmt: skip
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
NUMBERS = {w: n for n, w in enumerate(_SMALL)} | {w: 10 * n for n, w in enumerate(_TENS, start=2)}
_INCH = {"inch", "in", '"', "”", "″", "''"}
_ES = ("ches", "shes", "sses", "xes", "zes")


@dataclass(frozen=True, slots=True)
class Word:
    """A piece of a text that is no space; `key` is the same for one word in all its forms.

    `spaced` says whether a space stands before it.
    """

    start: int
    end: int
    text: str
    key: str
    spaced: bool = False

    @property
    def is_number(self) -> bool:
        """Whether it is a whole number in digits."""
        return self.text.isascii() and self.text.isdigit()

    @property
    def is_word(self) -> bool:
        """Whether it is made of letters."""
        return self.text[0].isalpha()


def words_of(text: str) -> tuple[Word, ...]:
    """The words of a text; a line break is one of them.

    >>> [w.key for w in words_of('Two 7" Marsh-worms')]
    ['two', '7', 'inch', 'marsh', '-', 'worm']
    """
    found: list[Word] = []
    spaced = False
    for hit in _TOKEN.finditer(text):
        piece = hit[0]
        if piece.isspace() and piece != "\n":
            spaced = True
            continue
        after_number = bool(found) and _counts(found[-1].key) and not (piece == "in" and spaced)
        found.append(Word(hit.start(), hit.end(), piece, _key(piece, after_number), spaced))
        spaced = False
    return tuple(found)


def named_key(word: Word) -> str:
    """The key of a word in a name, where a number may be a word.

    >>> [named_key(w) for w in words_of("Seven-inch worm")]
    ['7', '-', 'inch', 'worm']
    """
    return str(NUMBERS[word.key]) if word.key in NUMBERS else word.key


def _counts(key: str) -> bool:
    return key.isdigit() or key in NUMBERS or key == "-"


def _key(piece: str, after_number: bool) -> str:
    plain = unicodedata.normalize("NFKD", piece).casefold()
    plain = "".join(c for c in plain if not unicodedata.combining(c)).replace("’", "'")
    if plain in {"inches", "inch"} or (after_number and plain in _INCH):
        return "inch"
    return _singular(plain)


def _singular(word: str) -> str:
    """One form for one and for many; what it takes for a plural, it takes so in names too."""
    word = word.removesuffix("'s")
    if len(word) > 4 and word.endswith("ies"):
        return f"{word[:-3]}y"
    if len(word) > 4 and word.endswith(_ES):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word
