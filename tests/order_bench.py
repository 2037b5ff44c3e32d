"""A bench with finished stock, customers and orders of a test's own."""

from __future__ import annotations

import dataclasses
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from pourwright import wire
from pourwright.actions.demo import demo_nouns
from pourwright.actions.demo_cups import fill_demo_lot
from pourwright.actions.port import World
from pourwright.shop.code import lot_code
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.offer import Offer
from pourwright.shop.order import Customer, Order, OrderLine, OrderState
from pourwright.shop.stock_lot import LotSort, StockLot

EACH_MG, EACH_COST = 10_001, 3_333
ADA = "ada"
# The demo bench's own bait and looks.
SHAD, WORM = "demo-bait-paddle", "demo-bait-worm"
BROWN, MARSH = "demo-look-shad", "demo-look-marsh"


def order_bench(folder: Path) -> World:
    """The demo bench's tools, baits and looks with its one sheet: no order, price, sale or lot."""
    store = folder / "bench.db"
    store.write_bytes(_store())
    return wire.world(store)


@cache
def _store() -> bytes:
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        made, copy = Path(folder) / "made.db", Path(folder) / "copy.db"
        world = wire.world(made)
        with world.bench() as bench:
            for key, noun in demo_nouns().items():
                if not isinstance(noun, (Offer, Order, Customer)):
                    bench.records.save(noun.key, key, noun, expected_version=0)
            fill_demo_lot(bench, world.ids)
            bench.commit()
        wire.back_up(made, copy)
        return copy.read_bytes()


def poured(world: World, number: int, baits: int, *, look: str = BROWN, day: int = 1) -> str:
    """The code of a lot of loose shads."""
    at = f"2026-02-{day:02}T10:00:00Z"
    with world.bench() as bench:
        sheet = dataclasses.replace(
            (first := bench.sheets.get(1)), number=number, frozen_at=at,
            code=lot_code(date=at[:10], number=number), draft={**first.draft, "look": look},
        )  # fmt: skip
        bench.sheets.add(sheet)
        lot = StockLot(
            code=sheet.code, sort=LotSort.POURED, item=f"sheet/{number}", opened_at=at,
            name=f"Sheet {number}",
        )  # fmt: skip
        bench.stock.open(lot)
        bench.stock.post(_filled(world, lot.code, baits, at))
        bench.commit()
    return sheet.code


def bagged(
    world: World, code: str, bags: int, *, each: int = 8, bait: str = SHAD, look: str = BROWN,
    day: int = 2,
) -> str:  # fmt: skip
    """The code of a lot of bags."""
    at = f"2026-02-{day:02}T10:00:00Z"
    lot = StockLot(
        code=code, sort=LotSort.BAGGED, item=f"{bait}|{look}", opened_at=at, name=f"Bags {code}",
        baits_each=each,
    )  # fmt: skip
    with world.bench() as bench:
        bench.stock.open(lot)
        bench.stock.post(_filled(world, code, bags * each, at))
        bench.commit()
    return code


def order(
    world: World, key: str, *lines: OrderLine, due: str = "", state: OrderState = OrderState.TAKEN
) -> str:
    """The id of an order of Ada's."""
    with world.bench() as bench:
        if not any(s.id == ADA for s in bench.records.all(Customer.key)):
            bench.records.save(Customer.key, ADA, Customer(name="Ada Reed"), expected_version=0)
        it = Order(customer=ADA, taken_on="2026-02-10", due_on=due, lines=lines, state=state)
        bench.records.save(Order.key, key, it, expected_version=0)
        bench.commit()
    return key


def line(
    packs: int, *, each: int = 8, bait: str = SHAD, look: str = BROWN, price: float = 6.5
) -> OrderLine:
    """A line of shads."""
    return OrderLine(bait=bait, look=look, packs=packs, baits_each=each, price_money=price)


def priced(world: World, price: float, *, each: int = 8, bait: str = SHAD) -> None:
    """Put a pack on the price list."""
    with world.bench() as bench:
        offer = Offer(name=f"Pack of {each}", bait=bait, baits_each=each, price_money=price)
        bench.records.save(Offer.key, f"offer-{bait}-{each}", offer, expected_version=0)
        bench.commit()


def _filled(world: World, code: str, baits: int, at: str) -> Move:
    return Move(
        id=world.ids.fresh(), at=at, kind=MoveKind.COUNTED, target=code, mg=baits * EACH_MG,
        pieces=baits, cost=baits * EACH_COST,
    )  # fmt: skip
