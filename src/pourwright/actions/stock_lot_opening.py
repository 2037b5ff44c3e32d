"""Begin lots of materials and of remelt pots."""

from __future__ import annotations

from pourwright.actions.port import Bench
from pourwright.shop.code import BOUGHT, REMELT, lot_code, number_in
from pourwright.shop.material import RemeltPot
from pourwright.shop.stock_lot import LotSort, StockLot


def item_of(sort: str, id: str) -> str:
    """What a lot of a record on the shelf names as its item."""
    return f"{sort}/{id}"


def record_of(item: str) -> tuple[str, str]:
    """The sort and the id of the record that an item names."""
    sort, _, key = item.partition("/")
    return sort, key


def open_lot(bench: Bench, item: str, name: str, *, at: str) -> StockLot:
    """Begin an empty lot of a material or a pot, numbered on from the last of its letter."""
    is_pot = record_of(item)[0] == RemeltPot.key
    sort, letter = (LotSort.POT, REMELT) if is_pot else (LotSort.MATERIAL, BOUGHT)
    taken = [number_in(held.lot.code) for held in bench.stock.lots(sort)]
    code = lot_code(date=at[:10], number=1 + max(taken, default=0), letter=letter)
    lot = StockLot(code=code, sort=sort, item=item, opened_at=at, name=name)
    bench.stock.open(lot)
    return lot
