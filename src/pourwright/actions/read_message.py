"""Read a pasted message with the names of this bench."""

from __future__ import annotations

from collections import defaultdict

from pourwright.actions.offered import offers
from pourwright.actions.port import Bench
from pourwright.shop.look import Look
from pourwright.shop.message.read import (
    MessageAnswer,
    MessageInput,
    NamedBait,
    NamedRecord,
    read_message,
)
from pourwright.shop.mold import Bait
from pourwright.shop.order import Customer


def message_read(bench: Bench, message: str, *, on_day: str) -> MessageAnswer:
    """What a message orders; `on_day` is the day it came, by the maker's calendar.

    Raises: BadInput for an empty message or one that is too long.
    """
    sizes: dict[str, set[int]] = defaultdict(set)
    for _, offer in offers(bench):
        sizes[offer.bait].add(offer.baits_each)
    return read_message(
        MessageInput(
            message=message,
            on_day=on_day,
            baits=tuple(
                NamedBait(id=s.id, name=s.noun.name, packs=tuple(sorted(sizes[s.id])))
                for s in bench.records.all(Bait.key)
            ),
            looks=_named(bench, Look.key),
            customers=_named(bench, Customer.key),
        )
    )


def _named(bench: Bench, sort: str) -> tuple[NamedRecord, ...]:
    return tuple(NamedRecord(id=s.id, name=s.noun.name) for s in bench.records.all(sort))
