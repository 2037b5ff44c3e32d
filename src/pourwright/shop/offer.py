"""The price list: what is offered, in which pack and for how much."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import number, parts, reference, text
from pourwright.base.record import Record
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceStep(Record):
    """A price of one pack from so many packs on."""

    from_packs: int = number("From so many packs", low=2, high=100_000)
    price_money: float = number("Price of one pack", low=0, high=10_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer(Noun):
    """A bait, in one look or in any, that is sold in packs of so many."""

    key: ClassVar[str] = "offer"
    label: ClassVar[str] = "Price"
    plural: ClassVar[str] = "Price list"
    place: ClassVar[str] = "orders"

    bait: str = reference("Bait", refers="bait")
    look: str = reference("Look; left out, any", refers="look", default="")
    baits_each: int = number("Baits to a pack", low=1, high=200, default=8)
    packing: str = reference("Packing", refers="packing", default="")
    price_money: float = number("Price of one pack", low=0, high=10_000)
    steps: tuple[PriceStep, ...] = parts("Quantity prices", most=12)
    article_number: str = text("Article number you were issued, if any", most=20, default="")
    note: str = text("Note", most=500, default="")
