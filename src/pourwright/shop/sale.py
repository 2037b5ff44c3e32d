"""Sales: what left for whom at which price; never edited but taken back."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, parts, pick, text
from pourwright.base.record import Record
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.money import Money

SOLD, SALE_TAKEN_BACK = "sold", "sale_taken_back"


class TaxWay(StrEnum):
    """How the maker's tax stands to the price that was asked."""

    INSIDE = "inside the price"
    ADDED = "added on top"


class Exempt(StrEnum):
    """Why no tax is reckoned on a line; each needs its proof."""

    NO = "no"
    EXPORT = "export"
    FURTHER_MAKING = "for further manufacture"


@dataclass(frozen=True, slots=True, kw_only=True)
class SaleLine(Record):
    """Packs of one bait in one look that left one lot."""

    bait: str = text("Bait, as its record's id", most=64, default="")
    look: str = text("Look, as its record's id", most=64, default="")
    lot: str = text("Lot it came from", most=24)
    packs: int = number("Packs", low=1, high=20_000)
    baits_each: int = number("Baits to a pack", low=1, high=200, default=1)
    price_money: float = number("Price of a pack, as asked", low=0, high=10_000)
    tax_way: TaxWay = pick("Maker's tax", default=TaxWay.INSIDE)
    exempt: Exempt = pick("Free of the maker's tax", default=Exempt.NO)
    proof: str = text("Registration and proof of that", most=200, default="")

    @property
    def baits(self) -> int:
        """Baits in all its packs."""
        return self.packs * self.baits_each

    @property
    def asked(self) -> Money:
        """The price of all its packs."""
        return Money.of(self.price_money) * self.packs


@dataclass(frozen=True, slots=True, kw_only=True)
class Sale(Record):
    """One sale; `delivery_money` is what the customer paid for delivery beside the goods."""

    sold_on: str = text("Day of the sale", pattern=DAY, most=10)
    order: str = text("Order, as its record's id", most=64, default="")
    customer: str = text("Customer, as the record's id", most=64, default="")
    channel: str = text("How it was sold", most=40, default="")
    lines: tuple[SaleLine, ...] = parts("What was sold", most=60)
    delivery_money: float = number("Delivery charged", low=0, high=10_000, default=0)
    delivery_inside: bool = flag("The prices above hold that delivery already")
    delivery_proof: str = text("How the amount of delivery is established", most=200, default="")
    fees_money: float = number("Selling fees that were kept back", low=0, high=10_000, default=0)
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse a day that does not exist, and more delivery inside than the goods cost."""
        refuse_no_day("sold_on", self.sold_on)
        if self.delivery_inside and Money.of(self.delivery_money) > self.goods:
            why = "is said to lie inside the prices, and they come to less"
            raise BadInput("delivery_money", self.delivery_money, why)

    @property
    def goods(self) -> Money:
        """What was asked for the goods, with a delivery that lies inside the prices."""
        return sum((line.asked for line in self.lines), Money(0))

    @property
    def received(self) -> Money:
        """What the customer paid; a maker's tax added on top is not in it."""
        delivery = Money(0) if self.delivery_inside else Money.of(self.delivery_money)
        return self.goods + delivery
