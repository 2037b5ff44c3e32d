"""How the books of the stock stand with a batch that was counted."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.post_material import FOUND, Took
from pourwright.actions.post_pour import eyes_cause, poured_lot, sheet_cause
from pourwright.actions.stock_lot_opening import item_of
from pourwright.shop.lot import LotEntry
from pourwright.shop.material import EYES_A_BAIT, Eyes
from pourwright.shop.move import Move, MoveKind, standing
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class PourBooks:
    """`behind` where the stock does not hold the count; `found` is what the books had not had.

    `eyes_short` are the eyes that the good baits carry and the books had not.
    """

    behind: bool
    found: tuple[Took, ...]
    eyes_short: int = 0

    @property
    def eyes_words(self) -> str:
        """The eyes that were short, as it is said."""
        return f"the books had {self.eyes_short} eyes fewer than the good baits carry: count them"


def pour_books(bench: Bench, sheet: Sheet, entry: LotEntry | None) -> PourBooks:
    """The stock beside what was counted."""
    moves = standing(bench.stock.moves(cause=sheet_cause(sheet.number)))
    made = sum(m.pieces for m in moves if m.kind is MoveKind.MADE)
    unknown = poured_lot(bench, sheet) is None
    used = [m for m in moves if m.kind is MoveKind.USED and m.target == sheet.code]
    return PourBooks(
        behind=entry is not None and (unknown or made != entry.good),
        found=tuple(_found(bench, move) for move in used if _was_found(bench, move)),
        eyes_short=_eyes_short(bench, sheet, made),
    )


def _eyes_short(bench: Bench, sheet: Sheet, baits: int) -> int:
    """None short where the books never had any of them."""
    eyes = sheet.draft.get("eyes")
    if not eyes or not bench.stock.lots(item=item_of(Eyes.key, eyes)):
        return 0
    taken = standing(bench.stock.moves(cause=eyes_cause(sheet_cause(sheet.number))))
    return EYES_A_BAIT * baits - sum(m.pieces for m in taken)


def _was_found(bench: Bench, used: Move) -> bool:
    """Whether its lot began with what this very use had to find."""
    first, *after = bench.stock.moves(lot=used.source)
    return first.note == FOUND and after[0] == used


def _found(bench: Bench, used: Move) -> Took:
    return Took(bench.stock.lot(used.source).lot.name, used.mg, used.mg)
