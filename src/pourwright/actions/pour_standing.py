"""How far the pour of a sheet has come, by the kinds of its events: quick for every sheet there is.

What a pour is in, cup by cup, takes its fold; where it stands is told by a few kinds alone.
"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from pourwright.actions.oven_history import LOTS, happened, lot_subject
from pourwright.actions.port import Bench, Recorded
from pourwright.actions.pour_setup import pour_setup
from pourwright.base.errors import Conflict
from pourwright.bench.cup_story import POURED, UNDONE, WORKED, Happening, taken_back
from pourwright.bench.tap_kind import HUNG, PUT_AWAY, TAKEN_BACK, TAKEN_OFF, TAKEN_UP
from pourwright.shop.lot import COUNTED, SENT_BY
from pourwright.shop.sheet import Sheet

BACK = frozenset({TAKEN_BACK, UNDONE})
# Lots whose fold is kept, some years of a small shop.
KEPT = 4000


class Standing(StrEnum):
    """Where the pour of a sheet stands."""

    FROZEN = "frozen"
    BY_HAND = "by hand"
    RUNNING = "running"
    AWAY = "away"
    HUNG = "hung"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class PourStanding:
    """A sheet, all that was told of its lot, and of that what still holds, oldest first."""

    sheet: Sheet
    standing: Standing
    happenings: tuple[Happening, ...]
    kept: tuple[Happening, ...]

    @property
    def guided(self) -> bool:
        """Whether anything of it came through the bench."""
        return _through_bench(self.kept)

    @property
    def since(self) -> str:
        """When its newest event happened, or its sheet was frozen."""
        return self.kept[-1].at if self.kept else self.sheet.frozen_at

    def last(self, *kinds: str) -> Happening | None:
        """The newest event of some kinds that still holds."""
        return next((h for h in reversed(self.kept) if h.kind in kinds), None)


def pour_standing(bench: Bench, sheet: Sheet) -> PourStanding:
    """Where a sheet stands."""
    return _standing_of(sheet, bench.ledger.of(lot_subject(sheet.code)))


def pour_standings(bench: Bench) -> tuple[PourStanding, ...]:
    """Where every sheet stands, newest first."""
    told = bench.ledger.of_each(LOTS)
    return tuple(
        _standing_of(sheet, told.get(lot_subject(sheet.code), ())) for sheet in bench.sheets.all()
    )


@dataclass(frozen=True, slots=True)
class _Told:
    """All that was told of a lot; the hash of its newest event vouches for what came before."""

    newest: str
    events: tuple[Recorded, ...] = field(compare=False)


def _standing_of(sheet: Sheet, events: tuple[Recorded, ...]) -> PourStanding:
    return PourStanding(sheet, *_folded(_Told(events[-1].hash if events else "", events)))


@functools.lru_cache(maxsize=KEPT)
def _folded(told: _Told) -> tuple[Standing, tuple[Happening, ...], tuple[Happening, ...]]:
    """Where it stands, all that happened, and what of it still holds."""
    happenings = happened(told.events)
    gone = taken_back(happenings)
    kept = tuple(h for h in happenings if h.id not in gone and h.kind not in BACK)
    return _standing(kept), happenings, kept


def why_unguided(bench: Bench, sheet: Sheet) -> str:
    """Why this program cannot guide the pour of a sheet; empty where it can."""
    try:
        pour_setup(bench, sheet)
    except Conflict as error:
        return str(error)
    return ""


def _standing(kept: Sequence[Happening]) -> Standing:
    kinds = [h.kind for h in kept]
    if not _through_bench(kept):
        if COUNTED in kinds:
            return Standing.OVER
        return Standing.BY_HAND if {WORKED, POURED} & set(kinds) else Standing.FROZEN
    if HUNG in kinds:
        return Standing.OVER if TAKEN_OFF in kinds[kinds.index(HUNG) :] else Standing.HUNG
    if _counted_on_a_page_last(kept):
        return Standing.OVER
    away = next((k for k in reversed(kinds) if k in {PUT_AWAY, TAKEN_UP}), "")
    return Standing.AWAY if away == PUT_AWAY else Standing.RUNNING


def _through_bench(kept: Iterable[Happening]) -> bool:
    return any(SENT_BY in h.body for h in kept)


def _counted_on_a_page_last(kept: Sequence[Happening]) -> bool:
    """A count entered on the lot's page after the last tap ends a pour as well."""
    telling = (h for h in reversed(kept) if h.kind == COUNTED or SENT_BY in h.body)
    newest = next(telling, None)
    return newest is not None and newest.kind == COUNTED and SENT_BY not in newest.body
