"""The folded card over the mouth of a bag, by its dimensions."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.field import number, pick
from pourwright.base.record import Record


class Hole(StrEnum):
    """What the card hangs by."""

    ROUND = "round, 6 mm (1/4 in)"
    SLOT = "slot, 30 × 6 mm (1.2 × 1/4 in)"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class CardShape(Record):
    """A card that is cut out, folded once and stapled over a bag."""

    wide_mm: float = number("Width of the card: that of the bag", low=60, high=200, default=101.6)
    folded_mm: float = number("Height once it is folded", low=40, high=120, default=50.8)
    hole: Hole = pick("Hole to hang it by", default=Hole.ROUND)
