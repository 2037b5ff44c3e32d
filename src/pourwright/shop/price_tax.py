"""A tax on a price: on top of it, or lying in it, and what to know of either."""

from __future__ import annotations

from fractions import Fraction
from typing import Protocol

from pourwright.shop.money import as_typed

NOT_ADVICE = (
    "Not tax advice: whether a tax applies, at which rate and on which base, is for a licensed "
    "adviser where you live."
)
NO_TAX = "tax_rate is 0: no tax is reckoned."


class PriceTax(Protocol):
    """A rate, the share of the price it goes on, and whether it is added on top."""

    @property
    def tax_rate(self) -> float:
        """Rate of the tax, 0 for none."""

    @property
    def tax_base_share(self) -> float:
        """Share of the price it goes on."""

    @property
    def tax_added(self) -> bool:
        """Whether it comes on top of the price."""


def inside_share(rate: Fraction, base_share: Fraction) -> Fraction:
    """Share of a price that is tax where a tax at that rate on a share of the price lies in it.

    The tax T of a price P is r f (P - T), so T = P r f / (1 + r f).
    Source: Rev. Rul. 65-41 (a tax lies in the price unless it is stated beside it).
    """
    added = rate * base_share
    return added / (1 + added)


def tax_share(it: PriceTax) -> Fraction:
    """Tax as a share of the price asked, on top of it or in it."""
    rate, base = as_typed(it.tax_rate), as_typed(it.tax_base_share)
    return rate * base if it.tax_added else inside_share(rate, base)


def share_inside(it: PriceTax) -> Fraction:
    """Share of the price asked that is tax; none where the tax is added on top."""
    return Fraction(0) if it.tax_added else tax_share(it)


def tax_notes(it: PriceTax) -> tuple[str, ...]:
    """The caution where anything of a tax was typed, and a word where it comes to none."""
    if it.tax_rate == 0 and not it.tax_added and it.tax_base_share == 1:
        return ()
    return (*((NO_TAX,) if it.tax_rate == 0 else ()), NOT_ADVICE)
