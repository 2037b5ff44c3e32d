"""Take finished baits out of a lot without a sale, say why, and take that back."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.port import Bench, World
from pourwright.actions.stock_share import share_of
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.field import number, pick, text
from pourwright.base.record import Record
from pourwright.shop.move import Move, MoveKind, standing
from pourwright.shop.stock_lot import LotSort

GIVEN_AWAY = (
    "Gifts, samples and prizes may be taxed as a sale: ask a licensed adviser. The note is kept "
    "for that."
)


class Gone(StrEnum):
    """Why baits are gone."""

    THROWN_AWAY = "thrown away"
    OWN_USE = "kept for own use"
    GIVEN_AWAY = "given away"


@dataclass(frozen=True, slots=True, kw_only=True)
class TakingOut(Record):
    """Baits that leave without a sale."""

    lot: str = text("Lot", most=24)
    baits: int = number("Baits", low=1, high=100_000)
    why: Gone = pick("Why", default=Gone.THROWN_AWAY)
    note: str = text("Note", most=200, default="")


def take_out(world: World, taking: TakingOut, *, key: str) -> None:
    """Book them out of the lot. The same `key` a second time changes nothing.

    Raises: NotFound; BadInput for a lot that holds no baits; Conflict for more than is there and
    free.
    """
    with world.bench() as bench:
        if bench.stock.moves(cause=out_cause(key)):
            return
        held = bench.stock.lot(taking.lot)
        if held.lot.sort not in {LotSort.POURED, LotSort.BAGGED}:
            raise BadInput("lot", taking.lot, "holds no baits")
        aside = baits_set_aside(bench).get(taking.lot, 0)
        share = share_of(bench, held, taking.baits)
        if taking.baits > held.pieces - aside:
            raise Conflict(f"{aside} of the {held.pieces} baits are set aside for orders")
        note = f"{taking.why.value}: {taking.note}" if taking.note else taking.why.value
        bench.stock.post(Move(
            id=key, at=world.clock.now(), kind=MoveKind.SCRAPPED, source=taking.lot,
            mg=share.mg, pieces=share.pieces, cost=share.cost, cause=out_cause(key), note=note,
        ))  # fmt: skip
        bench.commit()


def taken_out(bench: Bench, key: str) -> Move | None:
    """What a taking out moved; none where nothing did, or it was taken back since."""
    return next(iter(standing(bench.stock.moves(cause=out_cause(key)))), None)


def out_cause(key: str) -> str:
    """What the move of a taking out belongs to."""
    return f"out/{key}"
