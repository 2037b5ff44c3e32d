"""The counted lots of a mold, a bait or the whole bench, charted: flash, short, weight."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.actions.port import Bench
from pourwright.bench.cup_story import UNDONE, Happening, taken_back
from pourwright.bench.tap_kind import TAKEN_BACK
from pourwright.shop.chart.mass import MassAnswer, mass_chart
from pourwright.shop.chart.mass_input import MassInput, Subgroup
from pourwright.shop.chart.share import ShareAnswer, ShareInput, ShareLot, share_chart
from pourwright.shop.lot import COUNTED, LotEntry, entry_of
from pourwright.shop.mold import Mold
from pourwright.shop.sheet import Sheet

FLASH, SHORT = "flash", "short"
# Older lots than these say little of today's mold.
MOST_LOTS = 60
_WEIGHED = 5
# Digits shown of a weight that is a mean of five.
_PLACES = 3


@dataclass(frozen=True, slots=True)
class CountedLot:
    """A lot that was counted: its sheet, the day, the mold and bait it came from.

    `body` is the newest count as the ledger has it; reading it takes a while.
    """

    sheet: int
    code: str
    day: str
    mold: str
    bait: str
    body: Mapping[str, Any]

    @property
    def entry(self) -> LotEntry:
        """What came out."""
        return entry_of(self.body)


@dataclass(frozen=True, slots=True)
class LotCharts:
    """Charts of some lots, oldest first; one is none where no lot can stand in it."""

    lots: tuple[CountedLot, ...]
    flash: ShareAnswer | None
    short: ShareAnswer | None
    mass: MassAnswer | None


def counted_lots(bench: Bench) -> tuple[CountedLot, ...]:
    """Every lot that was counted and not taken back, in the order of the sheets."""
    entries = _entries(bench)
    if not entries:
        return ()
    baits = {m.id: m.noun.bait for m in bench.records.all(Mold.key, retired=True)
             if isinstance(m.noun, Mold)}  # fmt: skip
    sheets = sorted(bench.sheets.all(), key=lambda sheet: sheet.number)
    return tuple(
        _counted(sheet, *entries[sheet.code], baits) for sheet in sheets if sheet.code in entries
    )


def lot_charts(lots: Iterable[CountedLot], *, pool_days: bool = False) -> LotCharts:
    """The charts of those lots, the newest of them."""
    kept = tuple(lots)[-MOST_LOTS:]
    read = tuple((it, it.entry) for it in kept)
    return LotCharts(
        lots=kept,
        flash=_shares(read, lambda entry: entry.flash, pool_days=pool_days),
        short=_shares(read, lambda entry: entry.short, pool_days=pool_days),
        mass=_masses(read),
    )


def _entries(bench: Bench) -> dict[str, tuple[str, Mapping[str, Any]]]:
    """The latest count of each lot with its time, by code."""
    told = bench.ledger.of_kind(COUNTED, TAKEN_BACK, UNDONE)
    events = [it.event for it in told]
    gone = taken_back(Happening(e.id, e.kind, e.at, e.body) for e in events)
    stand = [e for e in events if e.kind == COUNTED and e.id not in gone]
    return {e.subject.removeprefix("lot/"): (e.at, e.body) for e in stand}


def _counted(
    sheet: Sheet, at: str, body: Mapping[str, Any], baits: Mapping[str, str]
) -> CountedLot:  # fmt: skip
    mold = str(sheet.draft.get("mold") or "")
    return CountedLot(sheet.number, sheet.code, at[:10], mold, baits.get(mold, ""), body)


_Read = tuple[tuple[CountedLot, LotEntry], ...]


def _shares(
    read: _Read, bad: Callable[[LotEntry], int], *, pool_days: bool
) -> ShareAnswer | None:  # fmt: skip
    charted = tuple(
        ShareLot(lot=it.code, day=it.day, bad=bad(entry), n=count)
        for it, entry in read
        if (count := entry.good + entry.rejected)
    )
    return share_chart(ShareInput(lots=charted, pool_days=pool_days)) if charted else None


def _masses(read: _Read) -> MassAnswer | None:
    """Five baits were weighed at once: a mean without its range, so lots are charted singly."""
    charted = tuple(
        Subgroup(lot=it.code, masses_g=(round(entry.five_g / _WEIGHED, _PLACES),))
        for it, entry in read
        if entry.five_g is not None
    )
    if not charted:
        return None
    return mass_chart(MassInput(subgroups=charted, mean_of=_WEIGHED))
