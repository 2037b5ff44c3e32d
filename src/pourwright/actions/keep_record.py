"""Add, change and take off the nouns of the bench; list them, and read their history."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.actions.count_by_hand import counted_by_hand
from pourwright.actions.port import Bench, Stored, World
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.base.field import fields_of
from pourwright.base.record import Record
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import ADDITIVES, NOUNS
from pourwright.shop.offer import Offer
from pourwright.shop.stored_form import noun_of
from pourwright.shop.tax_profile import TaxProfile
from pourwright.shop.workplace import Workplace

# The sorts that stand for several: what a dose may refer to.
FAMILIES: Mapping[str, tuple[str, ...]] = {"additive": ADDITIVES}
# What the ledger calls a record that was taken off.
RETIRED = "retired"
# Sorts of which there is one record; its id is its sort.
ONLY_ONE = (Workplace, TaxProfile)
# Sorts that keep others on the bench by referring to them; a plan lets go of what is gone.
HOLDERS = (Mold.key, Look.key, Bait.key, Offer.key)


@dataclass(frozen=True, slots=True)
class Reference:
    """A field that refers to a stored record: where it stands, the sort and the id."""

    path: str
    sort: str
    id: str


def sort_named(key: str) -> type[Noun]:
    """The noun class of a sort. Raises: NotFound."""
    if key not in NOUNS:
        raise NotFound(f"nothing on the bench is called {key!r}")
    return NOUNS[key]


def add_record(world: World, noun: Noun) -> Stored:
    """Keep a new record; there is one workplace, and one tax profile.

    Raises: BadInput for a reference to a record that is not there, Conflict for a second
    one of those.
    """
    fresh = noun.key if isinstance(noun, ONLY_ONE) else world.ids.fresh()
    return change_record(world, noun, id=fresh, expected_version=0)


def change_record(world: World, noun: Noun, *, id: str, expected_version: int) -> Stored:
    """Keep a record as it is now.

    Raises: BadInput for a reference to a record that is not there, Conflict if somebody changed
    it since that version.
    """
    with world.bench() as bench:
        for reference in references_in(noun):
            _check(bench, reference)
        kept = counted_by_hand(world, bench, noun, id)
        stored = bench.records.save(kept.key, id, kept, expected_version=expected_version)
        bench.commit()
    return stored


def retire_record(world: World, sort: str, id: str, *, expected_version: int) -> Stored:
    """Take a record off the lists.

    Raises: Conflict if a mold or a look still needs it, or somebody changed it meanwhile.
    """
    with world.bench() as bench:
        needed = users_of(bench, sort, id)
        if needed:
            names = ", ".join(s.noun.name for s in needed)
            raise Conflict(f"still needed by {names}; change that first")
        stored = bench.records.retire(sort, id, expected_version=expected_version)
        bench.commit()
    return stored


def users_of(bench: Bench, sort: str, id: str) -> tuple[Stored, ...]:
    """The molds, looks, baits and prices that refer to a record."""
    return tuple(
        holder
        for held_by in HOLDERS
        for holder in bench.records.all(held_by)
        if any(r.id == id and sort in sorts_of(r.sort) for r in references_in(holder.noun))
    )


def sorts_of(refers: str) -> tuple[str, ...]:
    """The sorts a reference may point to."""
    return FAMILIES.get(refers, (refers,))


def references_in(record: Record, prefix: str = "") -> Iterator[Reference]:
    """Every reference a record makes, by its path."""
    for field in fields_of(type(record)):
        value: Any = getattr(record, field.name)
        path = prefix + field.name
        if field.spec.refers and value:
            yield Reference(path, field.spec.refers, value)
        for i, part in enumerate(value if field.shape == "list" else ()):
            if isinstance(part, Record):
                yield from references_in(part, f"{path}[{i}].")
        if isinstance(value, Record):
            yield from references_in(value, f"{path}.")


def _check(bench: Bench, reference: Reference) -> None:
    for sort in sorts_of(reference.sort):
        try:
            bench.records.get(sort, reference.id)
        except NotFound:
            continue
        return
    raise BadInput(reference.path, reference.id, "is not on the bench: pick one from the list")


@dataclass(frozen=True, slots=True)
class Change:
    """A record was saved or taken off; `before` is none where it was added."""

    at: str
    retired: bool
    before: Noun | None
    after: Noun


def history_of(bench: Bench, sort: str, id: str) -> tuple[Change, ...]:
    """What happened to a record, oldest first."""
    changes: list[Change] = []
    before: Noun | None = None
    for recorded in bench.ledger.of(f"{sort}/{id}"):
        event = recorded.event
        after = noun_of(sort, event.body["content"])
        changes.append(Change(event.at, event.kind == RETIRED, before, after))
        before = after
    return tuple(changes)
