"""Everything a message holds that a rule takes: names, days and numbers, none over another."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol, TypeVar

from pourwright.shop.message.day import NamedDay, days_in
from pourwright.shop.message.naming import Known, Run, runs_in
from pourwright.shop.message.quantity import Quantity, quantities_in
from pourwright.shop.message.word import Word

BAIT, LOOK, CUSTOMER = "bait", "look", "customer"


class _Stretch(Protocol):
    @property
    def first(self) -> int: ...
    @property
    def end(self) -> int: ...


S = TypeVar("S", bound=_Stretch)


@dataclass(frozen=True, slots=True)
class Heard:
    """What rules took; `free` says of each word whether none did."""

    runs: tuple[Run, ...]
    days: tuple[NamedDay, ...]
    numbers: tuple[Quantity, ...]
    free: tuple[bool, ...]

    @property
    def things(self) -> tuple[Run, ...]:
        """Namings of baits and looks."""
        return tuple(it for it in self.runs if it.of(BAIT) or it.of(LOOK))


def heard(words: Sequence[Word], records: Sequence[Known], today: dt.date) -> Heard:
    """Names of several words go first, then days, then names by one word, then numbers."""
    free = [True] * len(words)
    long = _claimed(free, [it for it in runs_in(words, records, free) if it.length > 1])
    days = _claimed(free, days_in(_left(words, free), today))
    short = _claimed(free, runs_in(words, records, free))
    numbers = _claimed(free, quantities_in(words, free))
    runs = sorted((*long, *short), key=lambda it: it.first)
    return Heard(tuple(runs), tuple(days), tuple(numbers), tuple(free))


def _claimed(free: list[bool], found: Iterable[S]) -> list[S]:
    """Those whose words are all free, which they are no more."""
    kept: list[S] = []
    for it in found:
        if all(free[it.first : it.end]):
            kept.append(it)
            free[it.first : it.end] = [False] * (it.end - it.first)
    return kept


def _left(words: Sequence[Word], free: Sequence[bool]) -> tuple[Word, ...]:
    """The words with those that are taken made unreadable."""
    return tuple(
        w if left else replace(w, text="\0", key="") for w, left in zip(words, free, strict=True)
    )
