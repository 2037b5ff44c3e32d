"""What goes into a parcel, lot by lot."""

from __future__ import annotations

from pourwright.actions.order_parcel import Sort, sort_of
from pourwright.actions.packing_page import PackingLine, PackingList
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.sales_of import sales_of
from pourwright.actions.see_orders import LineView, see_order
from pourwright.base.errors import NotFound
from pourwright.shop.allot import beyond, joined, trimmed
from pourwright.shop.order import Customer, SetAside


def packing_list(bench: Bench, id: str, *, today: str) -> PackingList:
    """The list of an order. Raises: NotFound."""
    view = see_order(bench, id, today)
    gone = {} if view.order.left else _gone(bench, id)
    return PackingList(
        customer=view.customer,
        ship_to=_ship_to(bench, view.order.customer),
        taken_on=view.order.taken_on,
        due_on=view.order.due_on,
        lines=tuple(_line(it, gone) for it in view.lines if it.line.left or gone),
        demo=workplace(bench).demo,
    )


def _gone(bench: Bench, id: str) -> dict[Sort, tuple[SetAside, ...]]:
    """The lots out of which an order was sent."""
    found: dict[Sort, tuple[SetAside, ...]] = {}
    for kept in sales_of(bench):
        if kept.sale.order == id and kept.stands:
            for line in kept.sale.lines:
                before = found.get(sort_of(line), ())
                found[sort_of(line)] = joined(before, (SetAside(lot=line.lot, packs=line.packs),))
    return found


def _line(it: LineView, gone: dict[Sort, tuple[SetAside, ...]]) -> PackingLine:
    """What is left of a line; of an order that left as a whole, what it was packed from."""
    line, sort = it.line, sort_of(it.line)
    if gone:
        lots = trimmed(gone.get(sort, ()), line.packs)
        gone[sort] = beyond(gone.get(sort, ()), line.packs)
        return PackingLine(it.bait, it.look, line.packs, line.baits_each, lots, 0, picked=True)
    return PackingLine(
        it.bait, it.look, line.left, line.baits_each, line.set_aside, line.missing, line.picked,
        sent=line.sent,
    )  # fmt: skip


def _ship_to(bench: Bench, id: str) -> str:
    try:
        found = bench.records.get(Customer.key, id).noun
    except NotFound:
        return ""
    return found.ship_to if isinstance(found, Customer) else ""
