"""Sell: packs leave their lots for a price, and the books keep it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.kept_order import keep_order, open_order_at
from pourwright.actions.moved_id import moved_id
from pourwright.actions.port import Bench, Event, Stored, World
from pourwright.actions.sales_of import KeptSale, sale_of
from pourwright.actions.stock_share import share_of
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.record import to_json
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.order import Order, OrderLine, OrderState
from pourwright.shop.sale import SOLD, Sale, SaleLine
from pourwright.shop.stock_lot import Held, LotSort


def sell(world: World, sale: Sale, *, key: str) -> KeptSale:
    """The sale, kept under `key`; the same key a second time changes nothing.

    An order that it fulfils is sent by it. Raises: NotFound; BadInput for a sale of nothing and
    for a lot that holds something else; Conflict for more than is there and free, for an order
    that is over and for one that the sale does not cover.
    """
    with world.bench() as bench:
        if bench.ledger.of(_subject(key)):
            return sale_of(bench, key)
        fulfilled = _fulfilled(bench, sale)
        if not sale.lines:
            raise BadInput("lines", 0, "nothing is sold by this: give one line at least")
        _refuse_missing(bench, sale)
        now = world.clock.now()
        bench.ledger.append(Event(key, _subject(key), SOLD, now, to_json(sale)))
        bench.stock.post(*_moves(bench, sale, key=key, at=now))
        if fulfilled is not None:
            stored, order = fulfilled
            keep_order(bench, stored, replace(order, state=OrderState.SENT))
        bench.commit()
    return KeptSale(key, now, sale)


def sale_lines(line: OrderLine) -> Iterator[SaleLine]:
    """What is set aside for a line, lot by lot; the price is for later."""
    for it in line.set_aside:
        yield SaleLine(
            bait=line.bait, look=line.look, lot=it.lot, packs=it.packs,
            baits_each=line.baits_each, price_money=0,
        )  # fmt: skip


def _subject(key: str) -> str:
    return f"sale/{key}"


def _fulfilled(bench: Bench, sale: Sale) -> tuple[Stored, Order] | None:
    """The order that is sent by a sale."""
    if not sale.order:
        return None
    stored, order = open_order_at(bench, sale.order)
    wanted, sold = _packs(order.lines), _packs(sale.lines)
    if wanted != sold:
        kinds = BaitKinds(bench)
        short = [
            f"{n - sold[what]} of {kinds.bait_name(what[0])} in {kinds.look_name(what[0])}"
            for what, n in wanted.items()
            if sold[what] < n
        ]
        said = f"it leaves out {', '.join(short)}" if short else "it holds more than was ordered"
        raise Conflict(
            f"the sale does not cover the order: {said}. Set aside what is missing, or change "
            "the order first"
        )
    return stored, order


def _packs(lines: Iterable[OrderLine | SaleLine]) -> Counter[tuple[BaitKind, int]]:
    found: Counter[tuple[BaitKind, int]] = Counter()
    for line in lines:
        found[BaitKind(line.bait, line.look), line.baits_each] += line.packs
    return found


def _refuse_missing(bench: Bench, sale: Sale) -> None:
    """Refuse what is not there, what others have set aside, and what the lot does not hold."""
    kinds, aside = BaitKinds(bench), Counter(baits_set_aside(bench))
    if sale.order:
        aside -= _own(open_order_at(bench, sale.order)[1])
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
