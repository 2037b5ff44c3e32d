"""A bench with lots and sales in its books, put there without the pages."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import uuid4

from pourwright.actions.port import Event, World
from pourwright.base.record import to_json
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind, contrary
from pourwright.shop.sale import SALE_TAKEN_BACK, SOLD, Sale, SaleLine
from pourwright.shop.stock_lot import LotSort, StockLot

LOT = "P260101001X"


def stocked(world: World, *, at: str = "2026-01-01T12:00:00Z", cost: str = "5000") -> None:
    """A lot of very many baits, worth so much."""
    with world.bench() as bench:
        bench.stock.open(StockLot(
            code=LOT, sort=LotSort.BAGGED, item="bait|look", opened_at=at, name="A large lot",
        ))  # fmt: skip
        bench.stock.post(_move(at, MoveKind.COUNTED, target=LOT, mg=10**9, pieces=10**6, cost=cost))
        bench.commit()


def bought(world: World, *, at: str, cost: str) -> str:
    """The id of the move of a purchase."""
    move = _move(at, MoveKind.BOUGHT, target=LOT, mg=1000, pieces=1, cost=cost)
    with world.bench() as bench:
        bench.stock.post(move)
        bench.commit()
    return move.id


def undone(world: World, id: str, *, at: str) -> None:
    """That move, taken back."""
    with world.bench() as bench:
        move = next(it for it in bench.stock.moves() if it.id == id)
        bench.stock.post(contrary(move, id=uuid4().hex, at=at))
        bench.commit()


def sold(world: World, sale: Sale, *, at: str, costs: Sequence[str]) -> str:
    """The id of a sale whose lines cost so much."""
    key = uuid4().hex
    with world.bench() as bench:
        bench.ledger.append(Event(key, f"sale/{key}", SOLD, at, to_json(sale)))
        for line, cost in zip(sale.lines, costs, strict=True):
            bench.stock.post(_move(
                at, MoveKind.SOLD, source=LOT, mg=line.baits, pieces=line.baits, cost=cost,
                cause=f"sale/{key}",
            ))  # fmt: skip
        bench.commit()
    return key


def taken_back(world: World, key: str, *, at: str, why: str = "sent to the wrong address") -> None:
    """A sale, taken back."""
    with world.bench() as bench:
        bench.ledger.append(
            Event(uuid4().hex, f"sale/{key}", SALE_TAKEN_BACK, at, {"sale": key, "why": why})
        )
        for move in bench.stock.moves(cause=f"sale/{key}"):
            bench.stock.post(contrary(move, id=uuid4().hex, at=at))
        bench.commit()


def line(price: float, *, packs: int = 1, **more: object) -> SaleLine:
    """Packs of one bait."""
    return SaleLine(lot=LOT, packs=packs, price_money=price, **more)  # type: ignore[arg-type]


def _move(
    at: str, kind: MoveKind, *, cost: str, source: str = "", target: str = "", mg: int,
    pieces: int, cause: str = "",
) -> Move:  # fmt: skip
    return Move(
        id=uuid4().hex, at=at, kind=kind, source=source, target=target, mg=mg, pieces=pieces,
        cost=Money.of(cost).ten_thousandths, cause=cause,
    )  # fmt: skip
