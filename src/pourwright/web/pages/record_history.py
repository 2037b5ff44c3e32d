"""What happened to a record: every change, oldest last."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.keep_record import Change, history_of, sort_named
from pourwright.web.difference import Difference, differences
from pourwright.web.local_time import dated
from pourwright.web.names import Names
from pourwright.web.page import Page, Show, Visit


@dataclass(frozen=True, slots=True)
class Happening:
    """One entry of the history."""

    at: str
    when: str
    what: str
    altered: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class HistoryContext:
    """The history of one record."""

    title: str
    address: str
    back: str
    retired: bool
    happenings: tuple[Happening, ...]


def history(visit: Visit) -> Show:
    """The history of a record, newest first."""
    sort, key = sort_named(visit.part("sort")), visit.part("id")
    with visit.world.reading() as bench:
        stored = bench.records.get(sort.key, key)
        changes = history_of(bench, sort.key, key)
        names = Names(bench)
        happenings = tuple(_happening(visit, change, names) for change in reversed(changes))
    context = HistoryContext(
        title=f"History: {stored.noun.name}",
        address=f"/records/{sort.key}/{key}",
        back=f"/{sort.place}",
        retired=stored.retired,
        happenings=happenings,
    )
    return Show("record/history.html", context)


def _happening(visit: Visit, change: Change, names: Names) -> Happening:
    if change.before is None:
        return Happening(change.at, readable(change.at), "Added", ())
    altered = differences(change.before, change.after, visit.settings, names.name_of)
    what = "Taken off" if change.retired else "Changed"
    return Happening(change.at, readable(change.at), what, altered)


def readable(at: str) -> str:
    """A stored time as people read it.

    >>> readable("2026-11-25T14:03:09Z")
    'Wed, Nov 25, 2026, 14:03 UTC'
    """
    return f"{dated(at[:10])}, {at[11:16]} UTC"


HISTORY_PAGES = (Page("/records/{sort}/{id}/history", history),)
