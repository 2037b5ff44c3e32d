"""Lots of stock, and what is in them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class LotSort(StrEnum):
    """What a lot holds; `item` of a lot names it more closely."""

    MATERIAL = "material"
    """Something bought; `item` is the record on the shelf, `sort/id`."""
    POT = "pot"
    """What is in a remelt pot from one emptying to the next; `item` is `remelt_pot/id`."""
    POURED = "poured"
    """What one batch sheet gave; `item` is `sheet/number`, the code that of the sheet."""
    BAGGED = "bagged"
    """Baits in bags; `item` is `bait_id|look_id`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLot:
    """A physical lot; `name` is what stands on lists and labels."""

    code: str
    sort: LotSort
    item: str
    opened_at: str
    name: str
    baits_each: int = 1


@dataclass(frozen=True, slots=True)
class Held:
    """A lot with what its moves have left in it."""

    lot: StockLot
    mg: int
    pieces: int
    cost: int

    def cost_of(self, *, mg: int = 0, pieces: int = 0) -> int:
        """The cost that goes with part of it, by its mass where that is said, else by pieces.

        The last of it takes all that is left.
        """
        part, whole = (mg, self.mg) if mg else (pieces, self.pieces)
        return self.cost * part // whole if whole else 0
