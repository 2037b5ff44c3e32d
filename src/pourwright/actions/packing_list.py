"""What goes into a parcel, lot by lot."""

from __future__ import annotations

from pourwright.actions.packing_page import PackingLine, PackingList
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.see_orders import LineView, see_order
from pourwright.base.errors import NotFound
from pourwright.shop.order import Customer


def packing_list(bench: Bench, id: str, *, today: str) -> PackingList:
    """The list of an order. Raises: NotFound."""
    view = see_order(bench, id, today)
    return PackingList(
        customer=view.customer,
        ship_to=_ship_to(bench, view.order.customer),
        taken_on=view.order.taken_on,
        due_on=view.order.due_on,
        lines=tuple(_line(it) for it in view.lines if it.line.left or not view.order.open),
        demo=workplace(bench).demo,
    )


def _line(it: LineView) -> PackingLine:
    line = it.line
    return PackingLine(
        it.bait,
        it.look,
        line.left or line.packs,
        line.baits_each,
        line.set_aside,
        line.missing,
        line.picked,
        sent=line.sent if line.left else 0,
    )


def _ship_to(bench: Bench, id: str) -> str:
    try:
        found = bench.records.get(Customer.key, id).noun
    except NotFound:
        return ""
    return found.ship_to if isinstance(found, Customer) else ""
