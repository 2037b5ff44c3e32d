"""The lowest price that leaves a margin."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.errors import NoAnswer
from pourwright.base.field import band, flag, number, out
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE
from pourwright.shop.money import as_typed, ceiled_cent
from pourwright.shop.price_tax import share_inside, tax_notes, tax_share


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceInput(Record):
    """A cost and what the price must carry besides."""

    cost_money: Band = band("Cost of one", low=0, high=1e5)
    margin: float = number("Margin of the price, 0 to 1", low=0, high=0.99, default=0.4)
    fee_share: float = number("Selling fees as a share of the price", low=0, high=0.99, default=0)
    fee_fixed_money: float = number("Selling fee of one", low=0, high=1000, default=0)
    tax_rate: float = number("Tax rate, 0 for none", low=0, high=0.5, default=0)
    tax_base_share: float = number("Share of the price that is taxed", low=0, high=1, default=1)
    tax_added: bool = flag("The tax is added on top instead of lying in the price")


@dataclass(frozen=True, slots=True)
class PriceAnswer:
    """A price and where it goes."""

    price_money: Band = out("Lowest price, in whole cents; tax on top not included")
    tax_money: float = out("Tax of one")
    fees_money: float = out("Fees of one")
    left_money: float = out("What is left of one")
    margin_left: float = out("What is left as a share of the price, 0 to 1")
    notes: tuple[str, ...] = out("Cautions")


@calculation(
    "shop.price",
    purpose="lowest price for a margin",
    sources=(PRACTICE,),
    example={"cost_money": {"low": 0.55, "typical": 0.64, "high": 0.78}, "margin": 0.4},
)
def price(inputs: PriceInput) -> PriceAnswer:
    """Price = (cost + fixed fee) / (1 - margin - fees - tax inside), up to the next cent.

    Raises: NoAnswer where margin, fees and tax together leave nothing.
    """
    inside = share_inside(inputs)
    fee_share, fixed = as_typed(inputs.fee_share), as_typed(inputs.fee_fixed_money)
    keeps = 1 - as_typed(inputs.margin) - fee_share - inside
    if keeps <= 0:
        raise NoAnswer(
            f"no price works: margin {inputs.margin:.1%}, fees {inputs.fee_share:.1%} and tax "
            f"{float(inside):.1%} of the price leave nothing for the cost"
        )
    cost = inputs.cost_money
    low, typical, high = (
        ceiled_cent((as_typed(c) + fixed) / keeps) for c in (cost.low, cost.typical, cost.high)
    )
    asked = as_typed(typical)
    tax = asked * tax_share(inputs)
    fees = asked * fee_share + fixed
    left = asked - fees - asked * inside - as_typed(cost.typical)
    return PriceAnswer(
        Band(low, typical, high),
        float(tax),
        float(fees),
        float(left),
        float(left / asked) if asked else 0.0,
        tax_notes(inputs),
    )
