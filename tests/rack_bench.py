"""A demo bench with finished baits on its rack."""

from __future__ import annotations

import dataclasses

from pourwright.actions.port import Event, World
from pourwright.bench.clock import before
from pourwright.bench.tap_kind import HUNG
from pourwright.shop.code import lot_code
from pourwright.shop.lot import SENT_BY
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import LotSort, StockLot

EACH_MG, EACH_COST = 11_480, 3_001


def frozen(world: World, number: int, *, look: str = "", days_ago: int = 3) -> Sheet:
    """A sheet like that of the demo bench, poured by nobody yet."""
    with world.bench() as bench:
        first = bench.sheets.get(1)
        at = before(world.clock.now(), days_ago * 86_400)
        sheet = dataclasses.replace(
            first, number=number, code=lot_code(date=at[:10], number=number), frozen_at=at,
            draft={**first.draft, **({"look": look} if look else {})},
        )  # fmt: skip
        bench.sheets.add(sheet)
        bench.commit()
    return sheet


def poured(world: World, number: int, baits: int, *, look: str = "", days_ago: int = 3) -> str:
    """The code of a lot of such a sheet, with so many good baits in it."""
    sheet = frozen(world, number, look=look, days_ago=days_ago)
    with world.bench() as bench:
        bench.stock.open(StockLot(
            code=sheet.code, sort=LotSort.POURED, item=f"sheet/{number}",
            opened_at=sheet.frozen_at, name=f"Lot {number}",
        ))  # fmt: skip
        bench.stock.post(Move(
            id=world.ids.fresh(), at=sheet.frozen_at, kind=MoveKind.COUNTED, target=sheet.code,
            mg=baits * EACH_MG, pieces=baits, cost=baits * EACH_COST, cause=f"sheet/{number}",
        ))  # fmt: skip
        bench.commit()
    return sheet.code


def hung(world: World, code: str, *, hours_ago: float, for_h: float = 24) -> None:
    """Hang a lot on the rack."""
    with world.bench() as bench:
        at = before(world.clock.now(), round(hours_ago * 3600))
        body = {"place": "rack", "for_h": for_h, SENT_BY: "laptop"}
        bench.ledger.append(Event(world.ids.fresh(), f"lot/{code}", HUNG, at, body))
        bench.commit()
