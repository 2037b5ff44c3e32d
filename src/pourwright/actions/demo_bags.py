"""Invented bags on the rack of the demo bench, out of its one poured lot."""

from __future__ import annotations

from pourwright.actions.bag_baits import Bagging, Taken, bag_in
from pourwright.actions.demo_cups import COUNTED_AT
from pourwright.actions.enter_lot import lot_view
from pourwright.actions.invented import INVENTED
from pourwright.actions.port import Bench, Ids
from pourwright.actions.post_pour import bait_mg, poured_lot, sheet_cause
from pourwright.shop.lot import LotEntry
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import LotSort, StockLot

BAGGED_AT = "2026-01-19T18:20:00Z"
_SHEET, _EACH, _BAGS = 1, 8, 3
# What a bait of the demo lot cost, in ten-thousandths: invented.
_COST = 3_200


def fill_demo_bags(bench: Bench, ids: Ids) -> None:
    """Put the good baits of the demo lot into stock, and most of them into bags."""
    view = lot_view(bench, _SHEET)
    if view.lot.entry is None:
        return
    if poured_lot(bench, view.sheet) is None:
        _stand(bench, ids, view.sheet, view.lot.entry)
    taken = (Taken(lot=view.sheet.code, baits=_BAGS * _EACH),)
    bag_in(bench, Bagging(taken=taken, baits_each=_EACH), key=ids.fresh(), at=BAGGED_AT)


def _stand(bench: Bench, ids: Ids, sheet: Sheet, entry: LotEntry) -> None:
    bench.stock.open(StockLot(
        code=sheet.code, sort=LotSort.POURED, item=sheet_cause(sheet.number),
        opened_at=COUNTED_AT, name=sheet.title,
    ))  # fmt: skip
    plastic, baits = (ids.fresh() for _ in range(2))
    bench.stock.post(
        Move(
            id=plastic, at=COUNTED_AT, kind=MoveKind.COUNTED, target=sheet.code,
            mg=round(entry.good * bait_mg(sheet, entry)), cost=entry.good * _COST, note=INVENTED,
        ),
        Move(
            id=baits, at=COUNTED_AT, kind=MoveKind.MADE, target=sheet.code, pieces=entry.good,
            cause=sheet_cause(sheet.number), note=INVENTED,
        ),
    )  # fmt: skip
