"""What open orders and sheets not yet poured will take from the shelf."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import PourStanding, Standing
from pourwright.actions.see_orders import Wanted
from pourwright.shop.lot import MG
from pourwright.shop.mold import Mold
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Needs:
    """Milligrams wanted by the id of a material; `unknown` are kinds no sheet tells of yet."""

    mg: Counter[str]
    unknown: tuple[str, ...]


def stock_needs(bench: Bench, standings: Sequence[PourStanding], wanted: Iterable[Wanted]) -> Needs:
    """By the frozen sheets themselves, and for orders by the newest sheet of the same kind."""
    found: Counter[str] = Counter()
    for standing in standings:
        if standing.standing is Standing.FROZEN:
            found.update(_shelf_mg(standing.sheet, 1.0))
    newest = _newest_by_kind(bench, [it.sheet for it in standings])
    unknown = []
    for it in wanted:
        known = newest.get((it.kind.bait, it.kind.look))
        if known is None:
            unknown.append(_named(it))
        else:
            found.update(_shelf_mg(known, it.baits / int(known.request["count"])))
    return Needs(found, tuple(dict.fromkeys(unknown)))


def _newest_by_kind(bench: Bench, sheets: Iterable[Sheet]) -> dict[tuple[str, str], Sheet]:
    molds = {s.id: s.noun for s in bench.records.all(Mold.key, retired=True)}
    found: dict[tuple[str, str], Sheet] = {}
    for sheet in sheets:
        mold = molds.get(sheet.draft.get("mold") or "")
        if isinstance(mold, Mold):
            found.setdefault((mold.bait, sheet.draft.get("look") or ""), sheet)
    return found


def _shelf_mg(sheet: Sheet, share: float) -> dict[str, int]:
    return {
        line["material"]: round(line["need_g"] * share * MG)
        for line in sheet.plan.get("shelf", ())
        if line["material"]
    }


def _named(wanted: Wanted) -> str:
    return f"{wanted.bait}, {wanted.look}"
