"""What part of a lot leaves it: its baits, with their share of mass and cost."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import Conflict
from pourwright.shop.stock_lot import Held


@dataclass(frozen=True, slots=True)
class Share:
    """Baits of a lot, with the mass and the cost that go with them."""

    pieces: int
    mg: int
    cost: int


def share_of(held: Held, pieces: int) -> Share:
    """So many baits of a lot; the last ones take all that is left, so that nothing stays behind.

    Raises: Conflict for more than it holds.
    """
    if pieces > held.pieces:
        raise Conflict(f"{held.lot.name}, {held.lot.code}, holds {held.pieces} baits, not {pieces}")
    if pieces == held.pieces:
        return Share(pieces, held.mg, held.cost)
    return Share(pieces, held.mg * pieces // held.pieces, held.cost * pieces // held.pieces)
