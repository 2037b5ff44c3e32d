"""Set finished packs aside for an order, and give them back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pourwright.actions.bait_kind import BaitKind
from pourwright.actions.finished_stock import Shelves, free_stock
from pourwright.actions.kept_order import keep_order, open_order_at
from pourwright.actions.port import World
from pourwright.base.errors import BadInput, Conflict
from pourwright.shop.allot import Shelf, allotted, joined
from pourwright.shop.order import Order, OrderLine, OrderState


def set_aside(world: World, id: str) -> Order:
    """The order with every pack set aside that is free.

    Bags go before loose baits, the oldest first; what another open order has set aside stays
    with it. Raises: NotFound; Conflict for an order that is over, and where nothing is free.
    """
    with world.bench() as bench:
        stored, order = open_order_at(bench, id)
        filled = replace(order, lines=filled_lines(order.lines, free_stock(bench)))
        if filled == order and order.missing:
            raise Conflict("nothing that this order still lacks is free: it must be poured")
        kept = keep_order(bench, stored, filled)
        bench.commit()
    return kept


def give_back(world: World, id: str, *, line: int | None = None) -> Order:
    """The order with a line's packs, or all, free for other orders again.

    Raises: NotFound; BadInput for a line it does not have; Conflict for one that is over.
    """
    with world.bench() as bench:
        stored, order = open_order_at(bench, id)
        if line is not None and not 0 <= line < len(order.lines):
            raise BadInput("line", line + 1, f"the order has {len(order.lines)} lines")
        lines = tuple(
            replace(it, set_aside=(), picked=False) if line in {None, i} else it
            for i, it in enumerate(order.lines)
        )
        state = order.unpacked if order.state is OrderState.PACKED else order.state
        kept = keep_order(bench, stored, replace(order, lines=lines, state=state))
        bench.commit()
    return kept


def filled_lines(lines: Sequence[OrderLine], stock: Shelves) -> tuple[OrderLine, ...]:
    """Lines with all that is free set aside, one after the other."""
    left = {kind: list(shelves) for kind, shelves in stock.items()}
    return tuple(_filled(line, left) for line in lines)


def _filled(line: OrderLine, left: dict[BaitKind, list[Shelf]]) -> OrderLine:
    shelves = left.get(BaitKind(line.bait, line.look), [])
    more = allotted(line.missing, line.baits_each, shelves)
    if not more:
        return line
    gone = {it.lot: it.packs * line.baits_each for it in more}
    left[BaitKind(line.bait, line.look)] = [
        replace(it, free=it.free - gone[it.lot]) if it.lot in gone else it for it in shelves
    ]
    return replace(line, set_aside=joined(line.set_aside, more))
