"""The day by which an order is poured, as far as frozen pour days tell."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.actions.bait_kind import BaitKind
from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import pour_standing
from pourwright.actions.see_orders import OrderView, see_orders
from pourwright.shop.lot import COUNTED
from pourwright.shop.mold import Mold
from pourwright.shop.pour_day import PourDay


def ready_by(bench: Bench, view: OrderView, today: str) -> str:
    """The first day by which frozen pour days pour all that an order lacks; empty for none.

    What orders before it lack is poured first.
    """
    planned = sorted(_planned(bench, today), key=lambda it: it[0])
    lacking = _lacking(bench, view, today) if planned else {}
    days = [_first_day(planned, kind, baits) for kind, baits in lacking.items()]
    return max(days) if days and all(days) else ""


def _lacking(bench: Bench, view: OrderView, today: str) -> dict[BaitKind, int]:
    """Baits of its own kinds that it lacks, with those that orders before it lack."""
    found = {line.kind: 0 for line in view.lines if line.short}
    for order in see_orders(bench, today).open:
        for line in order.lines:
            if line.kind in found:
                found[line.kind] += line.short * line.line.baits_each
        if order.id == view.id:
            break
    return found


def _planned(bench: Bench, today: str) -> Iterator[tuple[str, BaitKind, int]]:
    """Day, kind and count of every frozen batch whose baits are not counted yet."""
    for stored in bench.records.all(PourDay.key):
        day = stored.noun
        if not isinstance(day, PourDay) or not day.frozen or day.day < today:
            continue
        for batch in day.batches:
            mold = bench.records.get(Mold.key, batch.mold).noun
            told = pour_standing(bench, bench.sheets.get(batch.sheet))
            if isinstance(mold, Mold) and told.last(COUNTED) is None:
                yield day.day, BaitKind(mold.bait, batch.look), batch.count


def _first_day(planned: list[tuple[str, BaitKind, int]], kind: BaitKind, baits: int) -> str:
    for day, poured, count in planned:
        if poured == kind:
            baits -= count
            if baits <= 0:
                return day
    return ""
