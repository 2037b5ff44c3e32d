"""Moves of stock: what went from which lot to which, never edited but reversed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum


class MoveKind(StrEnum):
    """Why something moved; an end that is no lot is empty."""

    BOUGHT = "bought"
    """From a seller into a lot of a material."""
    USED = "used"
    """From a lot of a material or a remelt pot into a poured lot."""
    MADE = "made"
    """The good baits of a batch, counted into its poured lot; their mass came with the uses."""
    POTTED = "potted"
    """From a poured lot into a remelt pot's lot."""
    MIXED = "mixed"
    """From one remelt pot's lot into another's."""
    BAGGED = "bagged"
    """From a poured lot into a bagged lot."""
    SOLD = "sold"
    """From a poured or bagged lot to a customer."""
    RETURNED = "returned"
    """Back from a customer, at the cost it left with."""
    COUNTED = "counted"
    """The difference a count or a weighing found, in or out."""
    SCRAPPED = "scrapped"
    """Out of a lot and gone: thrown away, given away, kept for own use."""
    REVERSED = "reversed"
    """The contrary of an earlier move, which `reverses` names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One transfer between two lots, or between a lot and the world outside.

    `id` has 32 hex digits and is made by whoever saw it happen; `at` is UTC, ISO 8601; `source`
    and `target` are lot codes, one of which may be empty; `mg` and `pieces` are what moved, 0
    where that is not how it is counted (baits carry both); `cost` is what it carries, in whole
    ten-thousandths of the currency unit; `cause` is the sheet, order or sale it belongs to, such
    as `sheet/12`.
    """

    id: str
    at: str
    kind: MoveKind
    source: str = ""
    target: str = ""
    mg: int = 0
    pieces: int = 0
    cost: int = 0
    cause: str = ""
    reverses: str = ""
    note: str = ""


def contrary(move: Move, *, id: str, at: str, note: str = "") -> Move:
    """The move that takes another back, at the cost it went with."""
    return Move(
        id=id, at=at, kind=MoveKind.REVERSED, source=move.target, target=move.source,
        mg=move.mg, pieces=move.pieces, cost=move.cost, cause=move.cause, reverses=move.id,
        note=note,
    )  # fmt: skip


def standing(moves: Sequence[Move]) -> list[Move]:
    """Those that were not taken back, by any of the same moves."""
    back = {m.reverses for m in moves}
    return [m for m in moves if m.kind is not MoveKind.REVERSED and m.id not in back]
