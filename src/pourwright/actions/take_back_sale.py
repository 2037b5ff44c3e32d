"""Take a sale back: everything it moved goes back into its lots, and the books keep both."""

from __future__ import annotations

from dataclasses import replace

from pourwright.actions.kept_order import keep_order, order_at
from pourwright.actions.moved_id import moved_id
from pourwright.actions.order_parcel import after_return
from pourwright.actions.port import Bench, Event, World
from pourwright.actions.sales_of import KeptSale, sale_of
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.move import MoveKind, contrary
from pourwright.shop.sale import SALE_TAKEN_BACK, Sale

MOST_WORDS = 300


def take_back_sale(world: World, id: str, *, why: str, key: str) -> KeptSale:
    """The sale, taken back; the same `key` a second time changes nothing.

    Its order is open again, with the packs set aside as they were. Raises: NotFound; BadInput
    without a reason; Conflict for a sale that was taken back before.
    """
    with world.bench() as bench:
        kept = sale_of(bench, id)
        if any(it.event.id == key for it in bench.ledger.of(f"sale/{id}")):
            return kept
        words = _reason(why)
        if kept.taken_back:
            raise Conflict(f"the sale was taken back before, on {kept.taken_back[:10]}")
        now = world.clock.now()
        bench.ledger.append(
            Event(key, f"sale/{id}", SALE_TAKEN_BACK, now, {"sale": id, "why": words})
        )
        sold = [m for m in bench.stock.moves(cause=f"sale/{id}") if m.kind is MoveKind.SOLD]
        bench.stock.post(*(
            contrary(move, id=moved_id(key, i), at=now, note=words)
            for i, move in enumerate(sold, start=1)
        ))  # fmt: skip
        _reopen(bench, kept.sale)
        bench.commit()
    return replace(kept, taken_back=now, why=words)


def _reason(why: str) -> str:
    words = why.strip()
    if not 1 <= len(words) <= MOST_WORDS:
        raise BadInput("why", why, f"say why, in 1 to {MOST_WORDS} characters")
    return words


def _reopen(bench: Bench, sale: Sale) -> None:
    """The order waits again for what the sale had sent of it, its parcel still packed."""
    if not sale.order:
        return
    try:
        stored, order = order_at(bench, sale.order)
    except NotFound:
        return
    keep_order(bench, stored, after_return(order, sale))
