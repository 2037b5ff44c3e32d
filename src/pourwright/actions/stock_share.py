"""What part of a lot leaves it: its baits, with their mass and their share of the cost."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.enter_lot import lot_view
from pourwright.actions.port import Bench
from pourwright.actions.post_pour import bait_mg
from pourwright.base.errors import Conflict
from pourwright.shop.stock_lot import Held, LotSort


@dataclass(frozen=True, slots=True)
class Share:
    """Baits of a lot, with the mass and the cost that go with them."""

    pieces: int
    mg: int
    cost: int


def share_of(bench: Bench, held: Held, pieces: int) -> Share:
    """So many pieces of a lot; the last ones take all the cost, so that none stays behind.

    Out of a poured lot goes what its baits weigh: plastic kept for remelt is no bait, and stays.
    Raises: Conflict for more than it holds.
    """
    if pieces > held.pieces:
        raise Conflict(f"{held.lot.name}, {held.lot.code}, holds {held.pieces} baits, not {pieces}")
    cost = held.cost_of(pieces=pieces)
    each = _weighed(bench, held)
    if each is not None:
        mg = round(held.pieces * each) - round((held.pieces - pieces) * each)
        return Share(pieces, min(mg, held.mg), cost)
    mg = held.mg if pieces == held.pieces else held.mg * pieces // held.pieces
    return Share(pieces, mg, cost)


def _weighed(bench: Bench, held: Held) -> float | None:
    """What a bait of a counted batch weighs, in mg; none for other lots."""
    if held.lot.sort is not LotSort.POURED:
        return None
    view = lot_view(bench, int(held.lot.item.removeprefix("sheet/")))
    entry = view.lot.entry
    return bait_mg(view.sheet, entry) if entry else None
