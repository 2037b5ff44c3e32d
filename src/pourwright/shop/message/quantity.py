"""How many a message asks for: numbers, and what they count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from pourwright.shop.message.word import NUMBERS, Word

PACK_WORDS = {"pack", "bag", "packet", "package", "pk", "pks", "pkt", "baggie", "baggy", "pouch"}
BAIT_WORDS = {"bait", "piece", "pc", "pcs", "lure", "plastic", "softbait"}
SIZE_WORDS = {"ct", "count"}
LENGTHS = {"inch", "mm", "cm", "foot", "ft"}
VAGUE = {"couple", "few", "some", "several", "bunch", "more", "many"}
_TIMES = {"x", "×", "*"}
_MOST_DIGITS = 4


class Unit(StrEnum):
    """What a number counts."""

    PACKS = "packs"
    BAITS = "baits"
    UNSAID = "unsaid"
    SIZE = "baits to a pack"
    UNCLEAR = "packs or baits to a pack"
    LISTED = "number of a line"
    UNREAD = "unread"


@dataclass(frozen=True, slots=True)
class Quantity:
    """Words from `first` up to `end` that give a number; several where it is a range."""

    first: int
    end: int
    numbers: tuple[int, ...]
    unit: Unit
    why: str = ""


def quantities_in(words: Sequence[Word], free: Sequence[bool]) -> list[Quantity]:
    """Every number that is free, left to right, also one that nothing can be made of."""
    found: list[Quantity] = []
    at = 0
    while at < len(words):
        one = _quantity(words, at, free) if free[at] else None
        if one is not None:
            found.append(one)
        at = one.end if one else at + 1
    return found


def _quantity(words: Sequence[Word], at: int, free: Sequence[bool]) -> Quantity | None:
    reader = _Reader(words, free)
    return reader.vague(at) or reader.pack_of(at) or reader.times(at) or reader.number(at)


@dataclass(frozen=True, slots=True)
class _Reader:
    words: Sequence[Word]
    free: Sequence[bool]

    def key(self, at: int) -> str:
        """The key of a free word; empty where none stands."""
        return self.words[at].key if 0 <= at < len(self.words) and self.free[at] else ""

    def vague(self, at: int) -> Quantity | None:
        """A couple of packs, some."""
        first = at
        if self.key(at) in {"a", "an"}:
            at += 1
        if self.key(at) not in VAGUE:
            return None
        end = at + 1 + (self.key(at + 1) == "of")
        end, unit = self.unit(end)
        return Quantity(first, end, (), unit, f"how many is “{self.words[at].text}”?")

    def pack_of(self, at: int) -> Quantity | None:
        """Packs of 8; what comes before the pack word is its own number."""
        if self.key(at) not in PACK_WORDS or self.key(at + 1) not in {"of", "with"}:
            return None
        number, end = self.value(at + 2)
        if number is None or self.key(end) in LENGTHS or self.key(end) in PACK_WORDS:
            return None
        end = self.skip_baits(end)
        return Quantity(at, end, (number,), Unit.SIZE)

    def times(self, at: int) -> Quantity | None:
        """x5."""
        if self.key(at) not in _TIMES or self.value(at - 1)[0] is not None:
            return None
        number, end = self.value(at + 1)
        if number is None:
            return None
        end, unit = self.unit(end)
        return Quantity(at, end, (number,), unit)

    def number(self, at: int) -> Quantity | None:
        """5, five packs, 8-pack, 2 or 3, and numbers that are something else."""
        if self.key(at) in {"a", "an"} and self.key(at + 1) in PACK_WORDS:
            return Quantity(at, at + 2, (1,), Unit.PACKS)
        number, end = self.value(at)
        if number is None:
            return self.odd(at)
        if self.numbers_a_line(at):
            return Quantity(at, end + 1, (number,), Unit.LISTED)
        if self.key(at - 1) in {"$", "€", "£", "#"} or self.key(end) in LENGTHS | {"$", "%"}:
            return Quantity(at, end, (number,), Unit.UNREAD)
        if self.key(end) in {"dollar", "buck", "usd", "cent", "oz", "g", "gram", "lb"}:
            return Quantity(at, end, (number,), Unit.UNREAD)
        size = self.size(at, end, number)
        if size is not None:
            return size
        return self.ranged(at, end, number)

    def numbers_a_line(self, at: int) -> bool:
        """Whether it only counts the lines of a list: 1. or 1) at the start of one."""
        first = at == 0 or self.words[at - 1].key == "\n"
        after = self.words[at + 2 : at + 3]
        return first and self.key(at + 1) in {".", ")"} and bool(after) and after[0].spaced

    def odd(self, at: int) -> Quantity | None:
        """A number no rule takes: with a fraction, too long, or 0."""
        text = self.words[at].text
        return Quantity(at, at + 1, (), Unit.UNREAD) if text[0].isdigit() else None

    def size(self, at: int, end: int, number: int) -> Quantity | None:
        """8-pack, 8 ct, 8 per pack; "8 pack" may be either."""
        if self.key(end) in SIZE_WORDS:
            return Quantity(at, end + 1, (number,), Unit.SIZE)
        if self.key(end) == "-" and self.key(end + 1) in PACK_WORDS | SIZE_WORDS:
            return Quantity(at, end + 2, (number,), Unit.SIZE)
        for link in (("per",), ("to", "a"), ("in", "a"), ("a",)):
            place = end + len(link)
            heard = tuple(self.key(end + i) for i in range(len(link)))
            if heard == link and self.key(place) in PACK_WORDS:
                return Quantity(at, place + 1, (number,), Unit.SIZE)
        if self.key(end) in PACK_WORDS and number > 1 and self.words[end].text.casefold() in {
            "pack", "bag", "packet", "package", "pk", "pouch"
        }:  # fmt: skip
            if self.counted_before(at):
                return Quantity(at, end + 1, (number,), Unit.SIZE)
            return Quantity(
                at, end + 1, (number,), Unit.UNCLEAR, f"{number} packs, or packs of {number}?"
            )
        return None

    def counted_before(self, at: int) -> bool:
        """Whether a number stands right before, as in 3 x 8 pack."""
        place = at - 1
        if self.key(place) in _TIMES:
            place -= 1
        return place >= 0 and self.value(place)[0] is not None

    def ranged(self, at: int, end: int, number: int) -> Quantity:
        """One number, or two of which one is meant."""
        if self.key(end) in {"-", "–", "to", "or"}:
            other, after = self.value(end + 1)
            if other is not None and other > number:
                after, unit = self.unit(after)
                return Quantity(at, after, (number, other), unit, "one of two numbers: which?")
        if self.key(end) in _TIMES and self.value(end + 1)[0] is None:
            end += 1
        end, unit = self.unit(end)
        return Quantity(at, end, (number,), unit)

    def unit(self, at: int) -> tuple[int, Unit]:
        """What is counted, and where that word ends."""
        if self.key(at) in PACK_WORDS:
            if self.key(at + 1) in {"of", "with"} and self.value(at + 2)[0] is not None:
                sized = self.pack_of(at)
                return (at, Unit.PACKS) if sized else (at + 1, Unit.PACKS)
            return at + 1, Unit.PACKS
        if self.key(at) in BAIT_WORDS:
            return at + 1, Unit.BAITS
        return at, Unit.UNSAID

    def skip_baits(self, at: int) -> int:
        """Past the word of "packs of 8 baits"."""
        return at + 1 if self.key(at) in BAIT_WORDS else at

    def value(self, at: int) -> tuple[int | None, int]:
        """A number in digits or letters, dozens multiplied, and where it ends."""
        if not self.key(at):
            return None, at
        if self.key(at) == "half" and self.key(at + 1) in {"a", "dozen"}:
            place = at + 1 + (self.key(at + 1) == "a")
            return (6, place + 1) if self.key(place) == "dozen" else (None, at)
        if self.key(at) == "dozen":
            return 12, at + 1
        if self.key(at) in {"a", "an"} and self.key(at + 1) == "dozen":
            return 12, at + 2
        number, end = self.plain(at)
        if number is not None and self.key(end) == "dozen":
            return 12 * number, end + 1
        return number, end

    def plain(self, at: int) -> tuple[int | None, int]:
        """A number in digits or letters; none of anything is no number to order by."""
        word = self.words[at]
        if word.is_number:
            number = int(word.text) if len(word.text) <= _MOST_DIGITS else 0
            return (number, at + 1) if number else (None, at)
        if not NUMBERS.get(word.key) or word.text.casefold() != word.key:
            return None, at
        number, end = NUMBERS[word.key], at + 1
        if number >= 20 and number % 10 == 0:
            place = end + (self.key(end) == "-")
            small = NUMBERS.get(self.key(place), 0)
            if 0 < small < 10:
                return number + small, place + 1
        return number, end
