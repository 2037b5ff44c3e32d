"""Read an order out of a message."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.field import out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.message.amount import baits_each, packs
from pourwright.shop.message.day import NamedDay
from pourwright.shop.message.heard import BAIT, CUSTOMER, LOOK, Heard, heard
from pourwright.shop.message.item import Item, items_in
from pourwright.shop.message.mark import Choice, Count, Mark, chosen
from pourwright.shop.message.marking import marks_of
from pourwright.shop.message.naming import LINKS, Known, Run, known
from pourwright.shop.message.quantity import Quantity, Unit
from pourwright.shop.message.who import Named, named_in
from pourwright.shop.message.word import Word, words_of

PLAIN_RULES = (
    "Read by plain rules: nothing is guessed, nothing is ordered until somebody confirms it. What "
    "is not marked in the text was not read."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedBait(Record):
    """A bait that can be ordered, with the sizes of pack it is sold in."""

    id: str = text("Id of its record", most=64)
    name: str = text("Name", most=60)
    packs: tuple[int, ...] = parts("Baits to a pack on the price list", most=12, low=1, high=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedRecord(Record):
    """A look or a customer."""

    id: str = text("Id of its record", most=64)
    name: str = text("Name", most=60)


@dataclass(frozen=True, slots=True, kw_only=True)
class MessageInput(Record):
    """A message, the day it came, and the names of the bench."""

    message: str = text("The message", most=4000)
    on_day: str = text("Day it came", pattern=DAY, most=10)
    baits: tuple[NamedBait, ...] = parts("Baits", most=500)
    looks: tuple[NamedRecord, ...] = parts("Looks", most=500)
    customers: tuple[NamedRecord, ...] = parts("Customers", most=5000)


@dataclass(frozen=True, slots=True)
class ReadLine:
    """A line of an order as the message says it."""

    start: int = out("First character of the words it was read from")
    end: int = out("Character after the last of them")
    bait: Choice = out("Bait")
    look: Choice = out("Look")
    packs: Count = out("Packs")
    baits_each: Count = out("Baits to a pack")


@dataclass(frozen=True, slots=True)
class MessageAnswer:
    """What was understood, and what was not."""

    lines: tuple[ReadLine, ...] = out("Lines of an order")
    due: Choice = out("Day it is wanted by")
    customer: Choice = out("Customer")
    marks: tuple[Mark, ...] = out("What was understood where, in the order of the text")
    unread: tuple[str, ...] = out("Words that no rule took")
    doubts: tuple[str, ...] = out("What has to be asked")
    notes: tuple[str, ...] = out("How it was read")


@calculation(
    "order.read_message",
    purpose="what a pasted message orders, by plain rules: what is clear, what has to be asked",
    sources=(PRACTICE,),
    example={
        "message": "Hi, 2 packs of marsh worms in green by Friday please. Ada Reed",
        "on_day": "2026-06-01",
        "baits": [{"id": "worm", "name": "Seven-inch marsh worm", "packs": [8]}],
        "looks": [{"id": "green", "name": "Marsh green"}],
        "customers": [{"id": "ada", "name": "Ada Reed"}],
    },
)
def read_message(inputs: MessageInput) -> MessageAnswer:
    """Numbers, names of the bench's own records and days, each where it stands.

    A name counts whole or by some of its words, in any case and number; of several that fit
    equally well all are given. Raises: BadInput for a day that does not exist.
    """
    words = words_of(inputs.message)
    told = heard(words, _records(inputs), _today(inputs))
    items = items_in(words, told.things, told.numbers, told.free)
    lines = tuple(_lines(words, items, {b.id: b.packs for b in inputs.baits}))
    due, customer = _due(told.days), _customer(words, told.runs)
    used = {item.count.first for item in items if item.count and _makes_line(item)}
    return MessageAnswer(
        lines,
        due,
        customer,
        marks_of(words, told, items, used, _names(inputs)),
        tuple(w.text for w, left in zip(words, told.free, strict=True) if left and _tells(w)),
        tuple(_doubts(words, told, items, used)),
        (PLAIN_RULES,),
    )


def _lines(
    words: Sequence[Word], items: Iterable[Item], listed: Mapping[str, tuple[int, ...]]
) -> Iterator[ReadLine]:
    carried: tuple[str, ...] = ()
    for item in items:
        named = named_in(item.runs, carried)
        if item.runs and any(run.of(BAIT) for run in item.runs):
            carried = named.bait.options
        if _makes_line(item):
            yield from _lines_of(words, item, named, listed)


def _makes_line(item: Item) -> bool:
    """Whether it asks for something; a number alone, or a name alone, does not."""
    sorts = [(bool(run.of(BAIT)), bool(run.of(LOOK))) for run in item.runs]
    if item.count is None:
        return len(sorts) > 1 and any(b for b, _ in sorts) and any(look for _, look in sorts)
    return bool(sorts) or item.count.unit in {Unit.PACKS, Unit.UNCLEAR}


def _lines_of(
    words: Sequence[Word], item: Item, named: Named, listed: Mapping[str, tuple[int, ...]]
) -> Iterator[ReadLine]:
    start, end = _stretch(words, item)
    sizes = listed.get(named.bait.options[0], ()) if len(named.bait.options) == 1 else ()
    each = baits_each(item, sizes)
    for look in named.looks or (Choice((), sure=False, why="no look is named"),):
        many = packs(item, sizes, looks=len(named.looks))
        yield ReadLine(start, end, named.bait, look, many, each)


def _stretch(words: Sequence[Word], item: Item) -> tuple[int, int]:
    """The characters from the first word that counts to the last."""
    pieces: list[Run | Quantity] = [*item.runs, *(it for it in (item.count, item.size) if it)]
    first, last = min(it.first for it in pieces), max(it.end for it in pieces)
    return words[first].start, words[last - 1].end


def _due(days: Sequence[NamedDay]) -> Choice:
    found = sorted({day.isoformat() for it in days for day in it.days})
    if len({it.days for it in days}) > 1:
        return chosen(tuple(found), "several days are named")
    return chosen(tuple(found), next((it.why for it in days if it.why), ""))


def _customer(words: Sequence[Word], runs: Sequence[Run]) -> Choice:
    """Whoever is named in full; a part of a name is asked, where it names nothing else."""
    whole = {key for run in runs if run.whole(CUSTOMER) for key in run.of(CUSTOMER)}
    if whole:
        why = "several customers are named" if len(whole) > 1 else ""
        return chosen(tuple(sorted(whole)), why)
    some = {
        key
        for run in runs
        if not (run.of(BAIT) or run.of(LOOK)) and words[run.first].text[0].isupper()
        for key in run.of(CUSTOMER)
    }
    return chosen(tuple(sorted(some)), "named by a part of the name" if some else "")


def _doubts(
    words: Sequence[Word], told: Heard, items: Sequence[Item], used: set[int]
) -> Iterator[str]:
    """What stands in no line and may still matter."""
    for it in told.numbers:
        if it.unit not in {Unit.SIZE, Unit.LISTED} and it.first not in used:
            yield f"“{_said(words, it)}”: a number that belongs to nothing that was read"
    for item in items:
        if item.count is None and item.runs and not _makes_line(item):
            names = ", ".join(f"“{_said(words, run)}”" for run in item.runs)
            yield f"{names}: named without a number"
    for day in told.days:
        if not day.days:
            yield f"“{_said(words, day)}” {day.why}"


def _said(words: Sequence[Word], it: Quantity | Run | NamedDay) -> str:
    return " ".join(w.text for w in words[it.first : it.end])


def _tells(word: Word) -> bool:
    return word.is_word and word.key not in LINKS


def _today(inputs: MessageInput) -> dt.date:
    refuse_no_day("on_day", inputs.on_day)
    return dt.date.fromisoformat(inputs.on_day)


def _records(inputs: MessageInput) -> tuple[Known, ...]:
    return (
        *(known(BAIT, it.id, it.name) for it in inputs.baits),
        *(known(LOOK, it.id, it.name) for it in inputs.looks),
        *(known(CUSTOMER, it.id, it.name) for it in inputs.customers),
    )


def _names(inputs: MessageInput) -> dict[str, str]:
    baits = {it.id: it.name for it in inputs.baits}
    return baits | {it.id: it.name for it in (*inputs.looks, *inputs.customers)}
