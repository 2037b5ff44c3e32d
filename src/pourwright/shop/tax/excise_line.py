"""One line of the sheet: what was charged, what of it is taxed, and the tax, all exact."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, pick, text
from pourwright.base.record import Record
from pourwright.shop.day import DAY, refuse_no_day
from pourwright.shop.money import as_typed
from pourwright.shop.sale import Exempt, TaxWay


@dataclass(frozen=True, slots=True, kw_only=True)
class ExciseLine(Record):
    """Baits sold at one price; delivery is what was charged for it with this line."""

    name: str = text("What was sold", most=160, default="")
    sold_on: str = text(
        "Day of the sale; left out, it counts in the quarter", pattern=f"({DAY})?", most=10,
        default="",
    )  # fmt: skip
    quantity: int = number("How many were sold", low=1, high=1_000_000)
    price_money: float = number("Price of one, as charged", low=0, high=100_000)
    tax_way: TaxWay = pick("How the price holds the tax", default=TaxWay.INSIDE)
    base_share: float = number(
        "Share of the price that is taxed; less than 1 only as a licensed adviser told you",
        low=0.05, high=1, default=1,
    )  # fmt: skip
    delivery_money: float = number("Delivery charged", low=0, high=100_000, default=0)
    delivery_inside: bool = flag("The price above holds that delivery already")
    delivery_proof: str = text(
        "How the amount of delivery is established; without it, delivery is taxed with the price",
        most=200, default="",
    )  # fmt: skip
    exempt: Exempt = pick("Sold free of the tax", default=Exempt.NO)
    proof: str = text("Proof of that", most=200, default="")

    def check(self) -> None:
        """Refuse a day that does not exist, and more delivery inside than was charged."""
        refuse_no_day("sold_on", self.sold_on)
        if self.delivery_inside and as_typed(self.delivery_money) > self.asked:
            why = "is said to lie inside the price, which comes to less"
            raise BadInput("delivery_money", self.delivery_money, why)

    @property
    def asked(self) -> Fraction:
        """Price of all of them."""
        return self.quantity * as_typed(self.price_money)

    @property
    def charged(self) -> Fraction:
        """All that was charged: the price, and a delivery beside it."""
        return self.asked + (0 if self.delivery_inside else as_typed(self.delivery_money))

    @property
    def excluded(self) -> Fraction:
        """Delivery that is no part of the price, since its amount is established."""
        return as_typed(self.delivery_money) if self.delivery_proof.strip() else Fraction(0)

    @property
    def price(self) -> Fraction:
        """What was charged less what is excluded."""
        return self.charged - self.excluded
