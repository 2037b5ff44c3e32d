"""Sell: packs leave their lots for a price, and the books keep it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.kept_order import keep_order, open_order_at
from pourwright.actions.moved_id import moved_id
from pourwright.actions.order_parcel import after_sending, beyond_order
from pourwright.actions.port import Bench, Event, Stored, World
from pourwright.actions.sales_of import KeptSale, sale_of
from pourwright.actions.stock_share import share_of
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.record import to_json
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.order import Order
from pourwright.shop.sale import SOLD, Sale, SaleLine
from pourwright.shop.stock_lot import Held, LotSort


def sell(world: World, sale: Sale, *, key: str) -> KeptSale:
    """The sale, kept under `key`; the same key a second time changes nothing.

    What it holds of an order is sent by it; the order stays open for the rest. Raises: NotFound;
    BadInput for a sale of nothing and for a lot that holds something else; Conflict for more than
    is there and free, for an order that is over and for more than is left of one.
    """
    with world.bench() as bench:
        if bench.ledger.of(_subject(key)):
            return sale_of(bench, key)
        fulfilled = _fulfilled(bench, sale)
        if not sale.lines:
            raise BadInput("lines", 0, "nothing is sold by this: give one line at least")
        _refuse_missing(bench, sale, _aside(bench, fulfilled))
        now = world.clock.now()
        bench.ledger.append(Event(key, _subject(key), SOLD, now, to_json(sale)))
        bench.stock.post(*_moves(bench, sale, key=key, at=now))
        if fulfilled is not None:
            stored, _, after = fulfilled
            keep_order(bench, stored, after)
        bench.commit()
    return KeptSale(key, now, sale)


def _subject(key: str) -> str:
    return f"sale/{key}"


def _fulfilled(bench: Bench, sale: Sale) -> tuple[Stored, Order, Order] | None:
    """The order that is sent by a sale, and the same once it has left."""
    if not sale.order:
        return None
    stored, order = open_order_at(bench, sale.order)
    over = beyond_order(order, sale)
    if over:
        kinds = BaitKinds(bench)
        many = ", ".join(
            f"{packs} of {kinds.bait_name(BaitKind(bait, look))} in "
            f"{kinds.look_name(BaitKind(bait, look))}"
            for (bait, look, _), packs in over.items()
        )
        raise Conflict(
            f"the sale holds more than is left of the order: {many}. Sell it apart, or change the "
            "order first"
        )
    return stored, order, after_sending(order, sale)


def _aside(bench: Bench, fulfilled: tuple[Stored, Order, Order] | None) -> Counter[str]:
    """Baits by lot that are set aside once the sale's order has what it gets."""
    aside = Counter(baits_set_aside(bench))
    return aside if fulfilled is None else aside - _own(fulfilled[1]) + _own(fulfilled[2])


def _refuse_missing(bench: Bench, sale: Sale, aside: Counter[str]) -> None:
    """Refuse what is not there, what is set aside, and what the lot does not hold."""
    kinds = BaitKinds(bench)
    wanted: Counter[str] = Counter()
    for line in sale.lines:
        held = bench.stock.lot(line.lot)
        _refuse_other(kinds, held, line)
        wanted[line.lot] += line.baits
        free = held.pieces - aside[line.lot]
        if wanted[line.lot] > free:
            kept = (
                f", {aside[line.lot]} of them set aside for other orders" if aside[line.lot] else ""
            )
            raise Conflict(
                f"lot {line.lot}, {held.lot.name}, holds {held.pieces} baits{kept}: "
                f"{wanted[line.lot]} cannot be sold from it"
            )


def _refuse_other(kinds: BaitKinds, held: Held, line: SaleLine) -> None:
    lot = held.lot
    if lot.sort not in {LotSort.POURED, LotSort.BAGGED}:
        raise BadInput("lot", lot.code, "holds no finished baits")
    if kinds.of(lot) != BaitKind(line.bait, line.look):
        raise BadInput("lot", lot.code, f"holds another bait or look: {lot.name}")
    if lot.sort is LotSort.BAGGED and lot.baits_each != line.baits_each:
        why = f"is bagged by {lot.baits_each}, not by {line.baits_each}"
        raise BadInput("lot", lot.code, why)


def _own(order: Order) -> Counter[str]:
    found: Counter[str] = Counter()
    for line in order.lines:
        for it in line.set_aside:
            found[it.lot] += it.packs * line.baits_each
    return found


def _moves(bench: Bench, sale: Sale, *, key: str, at: str) -> Iterator[Move]:
    left: dict[str, Held] = {}
    for i, line in enumerate(sale.lines, start=1):
        held = left.get(line.lot) or bench.stock.lot(line.lot)
        share = share_of(bench, held, line.baits)
        left[line.lot] = replace(
            held, pieces=held.pieces - share.pieces, mg=held.mg - share.mg,
            cost=held.cost - share.cost,
        )  # fmt: skip
        yield Move(
            id=moved_id(key, i), at=at, kind=MoveKind.SOLD, source=line.lot, mg=share.mg,
            pieces=share.pieces, cost=share.cost, cause=_subject(key),
        )  # fmt: skip
