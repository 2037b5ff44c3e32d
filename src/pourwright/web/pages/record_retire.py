"""Take a record off the lists, after asking."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.keep_record import retire_record, sort_named, users_of
from pourwright.web.page import Go, Page, Show, Visit


@dataclass(frozen=True, slots=True)
class RetireContext:
    """The question before a record is taken off."""

    title: str
    name: str
    address: str
    back: str
    version: int
    needed_by: tuple[str, ...]


def retire(visit: Visit) -> Show | Go:
    """Ask, and on the answer take the record off."""
    sort, key = sort_named(visit.part("sort")), visit.part("id")
    if visit.posted:
        retire_record(visit.world, sort.key, key, expected_version=visit.whole("@version"))
        return Go(f"/{sort.place}")
    with visit.world.reading() as bench:
        stored = bench.records.get(sort.key, key)
        needed_by = tuple(s.noun.name for s in users_of(bench, sort.key, key))
    context = RetireContext(
        f"Take off the bench: {stored.noun.name}",
        stored.noun.name,
        f"/records/{sort.key}/{key}",
        f"/{sort.place}",
        stored.version,
        needed_by,
    )
    return Show("record/retire.html", context)


RETIRE_PAGES = (Page("/records/{sort}/{id}/retire", retire, ("GET", "POST")),)
