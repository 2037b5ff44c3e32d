"""Which number belongs to which bait and look."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pourwright.shop.message.naming import Run
from pourwright.shop.message.quantity import Quantity, Unit
from pourwright.shop.message.word import Word

_ENDS = {"\n", ";", "?", "!"}
AGAINST = {
    "no", "not", "don't", "dont", "cancel", "without", "instead", "except", "or", "either",
    "maybe", "if", "unless", "nothing", "less", "minus", "neither", "nor", "never",
}  # fmt: skip
_EVERY = {"each", "every", "apiece"}


@dataclass(frozen=True, slots=True)
class Item:
    """Words from `first` up to `end` with what they name; `count` is none where no number is.

    `against` are places of words that may turn its meaning.
    """

    first: int
    end: int
    count: Quantity | None
    size: Quantity | None
    runs: tuple[Run, ...]
    each: bool
    against: tuple[int, ...]


def items_in(
    words: Sequence[Word], runs: Sequence[Run], quantities: Sequence[Quantity], free: Sequence[bool]
) -> list[Item]:
    """The items of a text, clause by clause."""
    found: list[Item] = []
    for first, end in _clauses(words, free):
        here = [it for it in runs if first <= it.first < end]
        numbers = [it for it in quantities if first <= it.first < end and it.unit in _COUNTS]
        found.extend(
            _item(words, a, b, here, numbers) for a, b in _parts(here, numbers, first, end)
        )
    return [it for it in found if it.count or it.size or it.runs]


_COUNTS = {Unit.PACKS, Unit.BAITS, Unit.UNSAID, Unit.UNCLEAR, Unit.SIZE}


def _clauses(words: Sequence[Word], free: Sequence[bool]) -> Iterator[tuple[int, int]]:
    """Lines and sentences; a sign within a name ends none."""
    first = 0
    for at, word in enumerate(words):
        stop = word.key == "." and (at + 1 == len(words) or words[at + 1].spaced)
        if free[at] and (word.key in _ENDS or stop):
            yield first, at
            first = at + 1
    yield first, len(words)


def _parts(
    runs: Sequence[Run], numbers: Sequence[Quantity], first: int, end: int
) -> Iterator[tuple[int, int]]:
    """A clause cut so that each piece has one count.

    Where the counts stand before the names, each begins a piece; where they stand after them,
    each ends one.
    """
    counts = [it for it in numbers if it.unit is not Unit.SIZE]
    if len(counts) < 2:
        yield first, end
        return
    last_name = max((it.first for it in runs), default=first)
    behind = bool(runs) and runs[0].first < counts[0].first and counts[-1].first > last_name
    cuts = [it.end for it in counts[:-1]] if behind else [it.first for it in counts[1:]]
    if behind:
        cuts = [_past_size(numbers, cut) for cut in cuts]
    yield from zip([first, *cuts], [*cuts, end], strict=True)


def _past_size(numbers: Sequence[Quantity], cut: int) -> int:
    """A pack size right behind a count belongs to it."""
    return next((it.end for it in numbers if it.unit is Unit.SIZE and it.first == cut), cut)


def _item(
    words: Sequence[Word], first: int, end: int, runs: Sequence[Run], numbers: Sequence[Quantity]
) -> Item:
    inside = [it for it in numbers if first <= it.first < end]
    keys = [w.key for w in words[first:end]]
    taken = {i for it in runs for i in range(it.first, it.end)}
    against = [
        i for i, w in enumerate(words[first:end], start=first)
        if w.key in AGAINST and i not in taken and not _in_range(inside, i)
    ]  # fmt: skip
    return Item(
        first,
        end,
        next((it for it in inside if it.unit is not Unit.SIZE), None),
        next((it for it in inside if it.unit is Unit.SIZE), None),
        tuple(it for it in runs if first <= it.first < end),
        any(key in _EVERY for key in keys),
        tuple(against),
    )


def _in_range(numbers: Sequence[Quantity], at: int) -> bool:
    """Whether a word belongs to a number, as in 2 or 3, which is asked anyway."""
    return any(it.first <= at < it.end for it in numbers)
