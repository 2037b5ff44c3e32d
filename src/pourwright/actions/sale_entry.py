"""What a person enters of any sale beside its lines, and of the tax on each line."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import flag, number, pick, text
from pourwright.base.record import Record
from pourwright.shop.day import DAY
from pourwright.shop.sale import Exempt, TaxWay


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTax(Record):
    """How the maker's tax stands to a line."""

    tax_way: TaxWay = pick("Maker's tax", default=TaxWay.INSIDE)
    exempt: Exempt = pick("Free of the maker's tax", default=Exempt.NO)
    proof: str = text("Registration and proof of that", most=120, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class SaleEntry(Record):
    """Day, way, delivery and fees of a sale."""

    sold_on: str = text("Day of the sale (year-month-day)", pattern=DAY, most=10)
    channel: str = text("How it was sold: message, market, shop", most=40, default="")
    delivery_money: float = number("Delivery charged", low=0, high=10_000, default=0)
    delivery_inside: bool = flag("The prices above hold that delivery already")
    delivery_proof: str = text(
        "How the amount of delivery is established, such as the receipt of the post",
        most=120, default="",
    )  # fmt: skip
    fees_money: float = number("Selling fees that were kept back", low=0, high=10_000, default=0)
    note: str = text("Note", most=500, default="")
