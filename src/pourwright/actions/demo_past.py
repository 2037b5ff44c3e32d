"""Invented lots of the demo bench's past: enough to chart flaws, too few to chart weight."""

from __future__ import annotations

import dataclasses

from pourwright.actions.invented import INVENTED
from pourwright.actions.port import Bench, Event, Ids
from pourwright.actions.post_pour import sheet_cause
from pourwright.shop.code import lot_code
from pourwright.shop.lot import COUNTED, LotEntry, body_of
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import LotSort, StockLot

_SHEET = 1
# Day poured, good, flash, short, and what five good ones weighed if somebody weighed them: one lot
# flashed badly, after which the clamps were seen to.
_POURED = (
    ("2026-01-24", 31, 1, 2, None), ("2026-01-31", 31, 2, 0, 57.0), ("2026-02-07", 32, 0, 1, None),
    ("2026-02-08", 24, 9, 1, None), ("2026-02-14", 33, 0, 1, 57.3), ("2026-02-15", 32, 1, 0, None),
    ("2026-02-21", 31, 1, 2, 57.8), ("2026-02-28", 33, 1, 0, None),
)  # fmt: skip


def fill_demo_past(bench: Bench, ids: Ids) -> None:
    """Pour the sheet of the demo lot on more days, count what came of it, and sell all of it."""
    sheet = bench.sheets.get(_SHEET)
    first = bench.sheets.next_number()
    for number, (day, good, flash, short, five_g) in enumerate(_POURED, start=first):
        entry = LotEntry(
            shots=18, good=good, flash=flash, short=short, five_g=five_g, minutes=150,
            note=INVENTED,
        )  # fmt: skip
        _lot(bench, ids, _again(sheet, number, day), entry, day)


def _again(sheet: Sheet, number: int, day: str) -> Sheet:
    code = lot_code(date=day, number=number)
    return dataclasses.replace(sheet, number=number, code=code, frozen_at=f"{day}T14:00:00Z")


def _lot(bench: Bench, ids: Ids, sheet: Sheet, entry: LotEntry, day: str) -> None:
    at = f"{day}T16:30:00Z"
    bench.sheets.add(sheet)
    bench.ledger.append(Event(ids.fresh(), f"lot/{sheet.code}", COUNTED, at, body_of(entry)))
    bench.stock.open(StockLot(
        code=sheet.code, sort=LotSort.POURED, item=sheet_cause(sheet.number), opened_at=at,
        name=sheet.title,
    ))  # fmt: skip
    bench.stock.post(
        Move(
            id=ids.fresh(), at=at, kind=MoveKind.MADE, target=sheet.code, pieces=entry.good,
            cause=sheet_cause(sheet.number), note=INVENTED,
        ),
        Move(
            id=ids.fresh(), at=f"{day}T20:00:00Z", kind=MoveKind.SOLD, source=sheet.code,
            pieces=entry.good, note="Invented: gone before this bench kept orders.",
        ),
    )  # fmt: skip
