"""What is taken out of a price: selling fees, and a tax that lies inside it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pourwright.base.field import flag, number
from pourwright.base.record import Record
from pourwright.shop.money import as_typed
from pourwright.shop.price_tax import share_inside


@dataclass(frozen=True, slots=True, kw_only=True)
class Selling(Record):
    """Fees and tax; each is none unless it is given."""

    fee_share: float = number("Selling fees as a share of the price", low=0, high=0.99, default=0)
    order_fee_money: float = number("Fixed fee of an order, once", low=0, high=1000, default=0)
    tax_rate: float = number("Tax rate, 0 for none", low=0, high=0.5, default=0)
    tax_base_share: float = number("Share of the price that is taxed", low=0, high=1, default=1)
    tax_added: bool = flag("The tax is added on top instead of lying in the price")

    @property
    def inside(self) -> Fraction:
        """Share of a price that is tax and lies in it."""
        return share_inside(self)

    @property
    def kept(self) -> Fraction:
        """Share of a price that fees and tax leave; negative where they take more than it."""
        return 1 - as_typed(self.fee_share) - self.inside
