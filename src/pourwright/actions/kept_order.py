"""One order, read and kept in a unit of work."""

from __future__ import annotations

from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.order import Order


def order_at(bench: Bench, id: str) -> tuple[Stored, Order]:
    """A stored order. Raises: NotFound."""
    stored = bench.records.get(Order.key, id)
    if not isinstance(stored.noun, Order):
        raise NotFound(f"there is no order {id!r}")
    return stored, stored.noun


def open_order_at(bench: Bench, id: str) -> tuple[Stored, Order]:
    """The same. Raises: NotFound, Conflict for one that is over or was taken off."""
    stored, order = order_at(bench, id)
    if stored.retired or not order.open:
        state = "taken off the books" if stored.retired else order.state.value
        raise Conflict(f"the order is {state}: nothing can be done for it any more")
    return stored, order


def keep_order(bench: Bench, stored: Stored, order: Order) -> Order:
    """Keep it as it is now."""
    if order != stored.noun:
        bench.records.save(Order.key, stored.id, order, expected_version=stored.version)
    return order
