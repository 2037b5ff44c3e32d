"""A double-entry journal: dated entries whose amounts cancel."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.shop.money import Money


@dataclass(frozen=True, slots=True)
class Posting:
    """An amount on an account; accounts are told by words with colons between."""

    account: str
    amount: Money


@dataclass(frozen=True, slots=True)
class Entry:
    """Something that happened on a day, with what it did to each account."""

    day: str
    words: str
    postings: tuple[Posting, ...]

    def __post_init__(self) -> None:
        if sum((it.amount for it in self.postings), Money(0)) != Money(0):
            raise ValueError(f"the entry {self.words!r} does not balance")


@dataclass(frozen=True, slots=True)
class Journal:
    """Entries by day, in a currency given by its sign."""

    currency: str
    entries: tuple[Entry, ...]


def transfer(day: str, words: str, *, source: str, target: str, amount: Money) -> Entry:
    """An amount that goes from one account to another."""
    return Entry(day, words, (Posting(target, amount), Posting(source, -amount)))
