"""Pick an order's lines into a parcel, close it, open it again, or call the order off."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from pourwright.actions.kept_order import keep_order, open_order_at, order_at
from pourwright.actions.port import World
from pourwright.base.errors import BadInput, Conflict
from pourwright.shop.order import Order, OrderState


def confirm_order(world: World, id: str) -> Order:
    """An order that was only asked about is taken. Raises: NotFound, Conflict."""
    return _changed(world, id, lambda order: replace(order, state=OrderState.TAKEN))


def pick_line(world: World, id: str, line: int, *, picked: bool) -> Order:
    """A line lies in the parcel, or was taken out of it again.

    Raises: NotFound; BadInput for a line it does not have; Conflict for packs that are not set
    aside.
    """

    def change(order: Order) -> Order:
        if not 0 <= line < len(order.lines):
            raise BadInput("line", line + 1, f"the order has {len(order.lines)} lines")
        missing = order.lines[line].missing
        if picked and missing:
            raise Conflict(f"{missing} packs of that line are not set aside yet")
        lines = tuple(
            replace(it, picked=picked) if i == line else it for i, it in enumerate(order.lines)
        )
        packed = order.state is OrderState.PACKED
        return replace(order, lines=lines, state=order.unpacked if packed else order.state)

    return _changed(world, id, change)


def pack_order(world: World, id: str) -> Order:
    """The parcel is closed. Raises: NotFound, Conflict for lines that do not lie in it."""

    def change(order: Order) -> Order:
        left = sum(not line.picked for line in order.lines if line.left)
        if left or not order.left:
            lines = "1 line is" if left == 1 else f"{left} lines are"
            raise Conflict(f"{lines} not picked yet" if left else "the order is empty")
        return replace(order, state=OrderState.PACKED)

    return _changed(world, id, change)


def call_off(world: World, id: str) -> Order:
    """Nothing more comes of it; what was set aside is free again. Raises: NotFound, Conflict."""

    def change(order: Order) -> Order:
        lines = tuple(replace(line, set_aside=(), picked=False) for line in order.lines)
        return replace(order, lines=lines, state=OrderState.CALLED_OFF)

    return _changed(world, id, change)


def take_up_again(world: World, id: str) -> Order:
    """An order that was called off is open again. Raises: NotFound, Conflict."""
    with world.bench() as bench:
        stored, order = order_at(bench, id)
        if stored.retired or order.state is not OrderState.CALLED_OFF:
            raise Conflict(f"the order is {order.state.value}, not called off")
        kept = keep_order(bench, stored, replace(order, state=order.unpacked))
        bench.commit()
    return kept


def _changed(world: World, id: str, change: Callable[[Order], Order]) -> Order:
    with world.bench() as bench:
        stored, order = open_order_at(bench, id)
        kept = keep_order(bench, stored, change(order))
        bench.commit()
    return kept
