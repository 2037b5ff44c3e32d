"""How the books of the stock stand with a batch that was counted."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.post_material import FOUND, Took
from pourwright.actions.post_pour import poured_lot, sheet_cause
from pourwright.shop.lot import LotEntry
from pourwright.shop.move import Move, MoveKind, standing
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class PourBooks:
    """`behind` where the stock does not hold the count; `found` is what the books had not had."""

    behind: bool
    found: tuple[Took, ...]


def pour_books(bench: Bench, sheet: Sheet, entry: LotEntry | None) -> PourBooks:
    """The stock beside what was counted."""
    moves = standing(bench.stock.moves(cause=sheet_cause(sheet.number)))
    made = sum(m.pieces for m in moves if m.kind is MoveKind.MADE)
    unknown = poured_lot(bench, sheet) is None
    used = [m for m in moves if m.kind is MoveKind.USED and m.target == sheet.code]
    return PourBooks(
        behind=entry is not None and (unknown or made != entry.good),
        found=tuple(_found(bench, move) for move in used if _was_found(bench, move)),
    )


def _was_found(bench: Bench, used: Move) -> bool:
    """Whether its lot began with what this very use had to find."""
    first, *after = bench.stock.moves(lot=used.source)
    return first.note == FOUND and after[0] == used


def _found(bench: Bench, used: Move) -> Took:
    return Took(bench.stock.lot(used.source).lot.name, used.mg, used.mg)
