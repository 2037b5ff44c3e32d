"""Marks on a message: what each piece of it was taken for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pourwright.shop.message.day import NamedDay
from pourwright.shop.message.heard import BAIT, CUSTOMER, LOOK, Heard
from pourwright.shop.message.item import Item
from pourwright.shop.message.mark import Mark, Sense
from pourwright.shop.message.naming import Run
from pourwright.shop.message.quantity import Quantity, Unit
from pourwright.shop.message.word import Word


def marks_of(
    words: Sequence[Word], heard: Heard, items: Sequence[Item], used: set[int],
    names: Mapping[str, str],
) -> tuple[Mark, ...]:  # fmt: skip
    """The marks in the order of the text; `used` are the counts that a line took."""
    found = (
        *(_of_run(words, it, names) for it in heard.runs),
        *(_of_day(words, it) for it in heard.days),
        *(_of_number(words, it, used) for it in heard.numbers),
        *(mark for it in items for mark in _against(words, it)),
    )
    return tuple(sorted(found, key=lambda it: it.start))


def _of_run(words: Sequence[Word], run: Run, names: Mapping[str, str]) -> Mark:
    sorts = [s for s in (BAIT, LOOK, CUSTOMER) if run.of(s)]
    sense = Sense.NAME if sorts[:2] == [BAIT, LOOK] else Sense(sorts[0])
    called = dict.fromkeys(names[key] for sort in sorts for key in run.of(sort))
    return Mark(*_stretch(words, run), sense, " or ".join(called))


def _of_day(words: Sequence[Word], day: NamedDay) -> Mark:
    said = " or ".join(f"{d:%A}, {d:%B} {d.day}, {d.year}" for d in day.days)
    return Mark(*_stretch(words, day), Sense.DAY, said or day.why)


def _of_number(words: Sequence[Word], it: Quantity, used: set[int]) -> Mark:
    numbers = " or ".join(str(n) for n in it.numbers) or "how many?"
    if it.unit is Unit.SIZE:
        return Mark(*_stretch(words, it), Sense.PACK, f"{numbers} to a pack")
    if it.unit is Unit.LISTED or it.first not in used:
        return Mark(*_stretch(words, it), Sense.NUMBER, numbers)
    counts = "" if it.unit in {Unit.UNSAID, Unit.UNCLEAR} else f" {it.unit.value}"
    return Mark(*_stretch(words, it), Sense.COUNT, f"{numbers}{counts}")


def _against(words: Sequence[Word], item: Item) -> Iterator[Mark]:
    for place in item.against:
        yield Mark(words[place].start, words[place].end, Sense.DOUBT, "speaks against it")


def _stretch(words: Sequence[Word], it: Run | NamedDay | Quantity) -> tuple[int, int]:
    return words[it.first].start, words[it.end - 1].end
