"""The counted lots of a mold, a bait or the whole bench, charted: flash, short, weight."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from pourwright.actions.lot_told import Count, counts_told
from pourwright.actions.port import Bench
from pourwright.shop.chart.mass import MassAnswer, mass_chart
from pourwright.shop.chart.mass_input import MassInput, Subgroup
from pourwright.shop.chart.share import ShareAnswer, ShareInput, ShareLot, share_chart
from pourwright.shop.lot import BAITS_WEIGHED, LotEntry
from pourwright.shop.mold import Mold
from pourwright.shop.sheet import Sheet

FLASH, SHORT = "flash", "short"
# Older lots than these say little of today's mold.
MOST_LOTS = 60
# Digits shown of a weight that is a mean of five.
_PLACES = 3


@dataclass(frozen=True, slots=True)
class CountedLot:
    """A lot that was counted: its sheet, the mold and bait it came from, the count that stands."""

    sheet: int
    code: str
    mold: str
    bait: str
    count: Count

    @property
    def day(self) -> str:
        """The day it was counted."""
        return self.count.at[:10]


@dataclass(frozen=True, slots=True)
class LotCharts:
    """Charts of some lots, oldest first; one is none where no lot can stand in it."""

    lots: tuple[CountedLot, ...]
    flash: ShareAnswer | None
    short: ShareAnswer | None
    mass: MassAnswer | None


def counted_lots(bench: Bench) -> tuple[CountedLot, ...]:
    """Every lot that was counted and not taken back, in the order of the sheets."""
    counts = counts_told(bench)
    if not counts:
        return ()
    baits = {m.id: m.noun.bait for m in bench.records.all(Mold.key, retired=True)
             if isinstance(m.noun, Mold)}  # fmt: skip
    sheets = sorted(bench.sheets.all(), key=lambda sheet: sheet.number)
    return tuple(
        _counted(sheet, counts[sheet.code], baits) for sheet in sheets if sheet.code in counts
    )


def lot_charts(lots: Iterable[CountedLot], *, pool_days: bool = False) -> LotCharts:
    """The charts of those lots, the newest of them."""
    kept = tuple(lots)[-MOST_LOTS:]
    read = tuple((it, it.count.entry) for it in kept)
    return LotCharts(
        lots=kept,
        flash=_shares(read, lambda entry: entry.flash, pool_days=pool_days),
        short=_shares(read, lambda entry: entry.short, pool_days=pool_days),
        mass=_masses(read),
    )


def _counted(sheet: Sheet, count: Count, baits: Mapping[str, str]) -> CountedLot:
    mold = str(sheet.draft.get("mold") or "")
    return CountedLot(sheet.number, sheet.code, mold, baits.get(mold, ""), count)


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
        Subgroup(lot=it.code, masses_g=(round(entry.bait_g, _PLACES),))
        for it, entry in read
        if entry.bait_g is not None
    )
    if not charted:
        return None
    return mass_chart(MassInput(subgroups=charted, mean_of=BAITS_WEIGHED))
