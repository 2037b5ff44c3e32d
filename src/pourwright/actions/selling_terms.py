"""What a sale gives away: fees, and the maker's tax once a profile is chosen."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.tax_standing import tax_standing
from pourwright.shop.sale import TaxWay
from pourwright.shop.tax.excise import RATE
from pourwright.shop.tax_profile import TaxCountry, TaxProfile


@dataclass(frozen=True, slots=True)
class Terms:
    """The fees of a price list, the margins wanted, and how the tax stands to its prices.

    `tax_country` is empty where no country was chosen; the rate is then 0, as it is for countries
    whose rules this program does not hold.
    """

    margin: float
    floor_margin: float
    fee_share: float
    bait_fee_money: float
    order_fee_money: float
    remelt_credit_share: float
    tax_country: str
    tax_rate: float
    tax_added: bool


def selling_terms(bench: Bench) -> Terms:
    """The terms of the bench. The whole price is taken as the base of the tax."""
    place, profile = workplace(bench), tax_standing(bench)
    return Terms(
        margin=place.margin,
        floor_margin=place.floor_margin,
        fee_share=place.fee_share,
        bait_fee_money=place.fee_fixed_money,
        order_fee_money=place.order_fee_money,
        remelt_credit_share=place.remelt_credit_share,
        tax_country=profile.country.value if profile else "",
        tax_rate=_rate(profile),
        tax_added=profile is not None and profile.tax_way is TaxWay.ADDED,
    )


def _rate(profile: TaxProfile | None) -> float:
    return RATE if profile and profile.country is TaxCountry.US else 0.0
