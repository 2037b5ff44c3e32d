"""Post what a count or a weighing found beside the books."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.actions.port import Bench
from pourwright.actions.post_material import Deed, worth_like
from pourwright.actions.stock_lot_opening import open_lot
from pourwright.shop.material import Material
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.stock_lot import Held

BY_HAND = "counted"


def count_item(bench: Bench, item: str, mg: int, noun: Material, deed: Deed) -> None:
    """All lots of a material together hold so much: what is missing leaves the oldest first.

    What is more than the books say joins the newest lot, at the average worth of what is there;
    at the price of the package where nothing is.
    """
    lots = bench.stock.lots(item=item)
    more = mg - sum(h.mg for h in lots)
    if more < 0:
        bench.stock.post(*_missing(lots, -more, deed))
    elif more:
        code = lots[-1].lot.code if lots else open_lot(bench, item, noun.name, at=deed.at).code
        bench.stock.post(_found_move(code, more, worth_like(lots, noun, more), deed))


def count_lot(bench: Bench, held: Held, mg: int, pieces: int, deed: Deed) -> None:
    """One lot holds so much; a difference carries its share of the cost, none in an empty lot."""
    more, more_pieces = mg - held.mg, pieces - held.pieces
    base, off = (held.mg, more) if held.mg else (held.pieces, more_pieces)
    cost = abs(held.cost * off // base) if base else 0
    if more > 0 or more_pieces > 0:
        bench.stock.post(Move(
            id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, target=held.lot.code,
            mg=max(more, 0), pieces=max(more_pieces, 0), cost=cost if off > 0 else 0,
            cause=deed.cause, note=BY_HAND,
        ))  # fmt: skip
    if more < 0 or more_pieces < 0:
        bench.stock.post(Move(
            id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, source=held.lot.code,
            mg=max(-more, 0), pieces=max(-more_pieces, 0), cost=cost if off < 0 else 0,
            cause=deed.cause, note=BY_HAND,
        ))  # fmt: skip


def _found_move(code: str, mg: int, cost: int, deed: Deed) -> Move:
    """What a count found more than the books say."""
    return Move(
        id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, target=code, mg=mg, cost=cost,
        cause=deed.cause, note=BY_HAND,
    )  # fmt: skip


def _missing(lots: tuple[Held, ...], mg: int, deed: Deed) -> Iterator[Move]:
    for held in lots:
        part = min(mg, held.mg)
        if part:
            mg -= part
            yield Move(
                id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, source=held.lot.code,
                mg=part, cost=held.cost_of(mg=part), cause=deed.cause, note=BY_HAND,
            )  # fmt: skip
