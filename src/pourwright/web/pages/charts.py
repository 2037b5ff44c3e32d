"""Charts of the counted lots: flash, short and weight, by mold or by bait."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.lot_charts import (
    FLASH,
    SHORT,
    CountedLot,
    LotCharts,
    counted_lots,
    lot_charts,
)
from pourwright.actions.port import Bench
from pourwright.base.errors import BadInput
from pourwright.shop.mold import Bait, Mold
from pourwright.web.mass_chart import MassChart, mass_chart_view
from pourwright.web.page import Page, Show, Visit
from pourwright.web.share_chart import ShareChart, share_chart_view

ADDRESS = "/book/charts"
_MOLD, _BAIT = "mold-", "bait-"


@dataclass(frozen=True, slots=True)
class Whose:
    """A mold or a bait to pick, with how many of its lots were counted."""

    value: str
    label: str
    picked: bool


@dataclass(frozen=True, slots=True)
class ChartsContext:
    """The charts of what was picked; each is none where no lot stands in it."""

    title: str
    whose: tuple[Whose, ...]
    pooled: bool
    lots: int
    shares: tuple[ShareChart, ...]
    mass: MassChart | None
    mixed: bool


def charts(visit: Visit) -> Show:
    """The charts of one mold, one bait, or the mold that has most counted lots."""
    asked = visit.request.query_params
    with visit.world.reading() as bench:
        lots = counted_lots(bench)
        names = _names(bench)
    picks = _picks(lots, names)
    picked = asked.get("of", "") or (picks[0][0] if picks else "")
    if picked and picked not in dict(picks) and not _known(picked, names):
        raise BadInput("of", picked, "must be a mold or a bait of this bench")
    kept = tuple(it for it in lots if picked in {_MOLD + it.mold, _BAIT + it.bait})
    pooled = asked.get("pool", "") == "1"
    shown = lot_charts(kept, pool_days=pooled)
    context = ChartsContext(
        title="Charts",
        whose=tuple(Whose(value, label, value == picked) for value, label in picks),
        pooled=pooled,
        lots=len(shown.lots),
        shares=_shares(shown),
        mass=mass_chart_view(shown.mass, _addresses(shown), visit.settings) if shown.mass else None,
        mixed=len({it.mold for it in shown.lots}) > 1,
    )
    return Show("charts/charts.html", context)


def _shares(shown: LotCharts) -> tuple[ShareChart, ...]:
    addresses = _addresses(shown)
    newest = f"?for=lot-{shown.lots[-1].sheet}" if shown.lots else ""
    return tuple(
        share_chart_view(name, it, addresses, guide=f"/defects/{key}{newest}")
        for name, key, it in (("Flash", FLASH, shown.flash), ("Short", SHORT, shown.short))
        if it
    )


def _addresses(shown: LotCharts) -> dict[str, str]:
    return {it.code: f"/sheets/{it.sheet}" for it in shown.lots}


def _names(bench: Bench) -> dict[str, str]:
    molds, baits = (bench.records.all(sort, retired=True) for sort in (Mold.key, Bait.key))
    return {_MOLD + it.id: it.noun.name for it in molds} | {
        _BAIT + it.id: it.noun.name for it in baits
    }


def _known(picked: str, names: dict[str, str]) -> bool:
    return picked in names


def _picks(lots: tuple[CountedLot, ...], names: dict[str, str]) -> tuple[tuple[str, str], ...]:
    """Molds, then baits that more than one mold makes, those with most lots first."""
    count: dict[str, int] = {}
    molds: dict[str, set[str]] = {}
    for it in lots:
        for value in (_MOLD + it.mold, _BAIT + it.bait):
            if value in names:
                count[value] = count.get(value, 0) + 1
                molds.setdefault(value, set()).add(it.mold)
    kept = [v for v in count if v.startswith(_MOLD) or len(molds[v]) > 1]
    ordered = sorted(kept, key=lambda v: (v.startswith(_BAIT), -count[v], names[v]))
    return tuple((v, f"{names[v]}: {count[v]} counted") for v in ordered)


CHART_PAGES = (Page(ADDRESS, charts),)
