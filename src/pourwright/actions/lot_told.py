"""What the ledger tells of a poured lot: the count that stands, corrected or taken back since."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.actions.oven_history import LOTS
from pourwright.actions.port import Bench
from pourwright.bench.cup_story import UNDONE, Happening, taken_back
from pourwright.bench.tap_kind import TAKEN_BACK
from pourwright.shop.lot import COUNTED, Lot, LotEntry, entry_of, folded


@dataclass(frozen=True, slots=True)
class Count:
    """The newest count of a lot that stands; reading its entry takes a while."""

    at: str
    body: Mapping[str, Any]

    @property
    def entry(self) -> LotEntry:
        """What came out."""
        return entry_of(self.body)


def lot_told(code: str, told: Iterable[Happening]) -> Lot:
    """The lot that its happenings tell, oldest first; what was taken back does not count."""
    kept = list(told)
    gone = taken_back(kept)
    return folded(code, [(h.kind, h.at, h.body) for h in kept if h.id not in gone])


def counts_told(bench: Bench, *, since: str = "") -> dict[str, Count]:
    """The count that stands of each lot counted at that time or later, by its code."""
    events = [it.event for it in bench.ledger.of_kind(COUNTED, UNDONE, TAKEN_BACK, since=since)]
    gone = taken_back(Happening(e.id, e.kind, e.at, e.body) for e in events)
    return {
        e.subject.removeprefix(LOTS): Count(e.at, e.body)
        for e in events
        if e.kind == COUNTED and e.id not in gone
    }
