"""Post plastic of a lot that goes into a remelt pot."""

from __future__ import annotations

from pourwright.actions.port import Bench
from pourwright.actions.post_material import Deed, lots_of
from pourwright.actions.post_pour import open_poured, poured_lot
from pourwright.actions.stock_lot_opening import item_of, open_lot
from pourwright.shop.lot import MG
from pourwright.shop.material import RemeltPot
from pourwright.shop.money import Money, as_typed
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import Held

UNBOOKED = "left over by a batch that was counted before the books of the stock began"
MORE = "left over, though the books had no more in the lot"


def post_potted(bench: Bench, sheet: Sheet, pot_id: str, mg: int, deed: Deed) -> None:
    """Move so much out of the lot of a sheet into the pot, at what remelt is said to be worth.

    The pot keeps its lot until it is empty. Plastic that was made of that very lot begins a lot
    of its own in the same pot, so that nothing is its own ancestor.
    """
    source = _source(bench, sheet, mg, deed)
    target = _pot_lot(bench, sheet, pot_id, deed)
    cost = min(remelt_worth(sheet, mg), source.cost)
    bench.stock.post(Move(
        id=deed.next_id(), at=deed.at, kind=MoveKind.POTTED, source=sheet.code,
        target=target, mg=mg, cost=cost, cause=deed.cause,
    ))  # fmt: skip


def remelt_worth(sheet: Sheet, mg: int) -> int:
    """What so much remelt is worth by the sheet's own policy: nothing for mixed colors."""
    prices = [f["value"]["typical"] for f in sheet.plan["figures"]
              if f["key"] == "plastic_price_per_kg_money"]  # fmt: skip
    if not prices:
        return 0
    policy = as_typed(sheet.request["money"]["remelt_credit_share"])
    return (Money.of(prices[0]) * (policy * as_typed(mg) / MG / 1000)).ten_thousandths


def _source(bench: Bench, sheet: Sheet, mg: int, deed: Deed) -> Held:
    """The lot of the sheet with at least so much in it; what the books lack is found first."""
    note = MORE if poured_lot(bench, sheet) else UNBOOKED
    open_poured(bench, sheet, at=deed.at)
    held = bench.stock.lot(sheet.code)
    if held.mg < mg:
        bench.stock.post(Move(
            id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, target=sheet.code,
            mg=mg - held.mg, note=note,
        ))  # fmt: skip
    return bench.stock.lot(sheet.code)


def _pot_lot(bench: Bench, sheet: Sheet, pot_id: str, deed: Deed) -> str:
    """The code of the pot's lot that this plastic joins: one not empty and not its ancestor."""
    item = item_of(RemeltPot.key, pot_id)
    before = {m.source for m in bench.stock.came_from(sheet.code)}
    open_ones = [h for h in lots_of(bench, item, deed) if h.lot.code not in before]
    if open_ones:
        return open_ones[-1].lot.code
    name = bench.records.get(RemeltPot.key, pot_id).noun.name
    return open_lot(bench, item, name, at=deed.at).code
