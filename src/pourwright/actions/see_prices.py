"""The price list beside what its packs cost: what is left, what is lowest, what pays back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.actions.answered import answered
from pourwright.actions.cost_trend import CostTrend, cost_trend
from pourwright.actions.lot_cost import CountedLots
from pourwright.actions.offered import offers
from pourwright.actions.pack_cost import PackCost, lots_of_offers, pack_cost
from pourwright.actions.packs_sold import Sold, packs_sold
from pourwright.actions.port import Bench
from pourwright.actions.selling_terms import Terms, selling_terms
from pourwright.base.band import Band
from pourwright.base.errors import NotFound, PourwrightError
from pourwright.shop.mold import Mold
from pourwright.shop.offer import Offer
from pourwright.shop.payback import PaybackAnswer, PaybackInput
from pourwright.shop.price import PriceAnswer, PriceInput
from pourwright.shop.price_breaks import PriceBreaksAnswer, PriceBreaksInput
from pourwright.shop.sheet import Sheet

NO_TREND = CostTrend((), "")
NO_COST = "Nothing of it was planned yet, so nobody knows what a pack costs"


@dataclass(frozen=True, slots=True)
class Priced:
    """An entry of the price list with its cost, and its trend where it is opened.

    `refused` says what has no answer and why.
    """

    id: str
    offer: Offer
    cost: PackCost | None
    breaks: PriceBreaksAnswer | None
    lowest: PriceAnswer | None
    trend: CostTrend
    refused: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MoldPayback:
    """When one more of a mold would be paid back."""

    mold: str
    name: str
    price_money: float
    answer: PaybackAnswer | None
    refused: str
    sold_until: str


def see_prices(bench: Bench) -> tuple[Terms, tuple[Priced, ...]]:
    """The whole price list."""
    listed = offers(bench)
    return _priced(bench, listed, trend=False)


def see_price(bench: Bench, id: str) -> tuple[Terms, Priced]:
    """One entry. Raises: NotFound."""
    stored = bench.records.get(Offer.key, id)
    if stored.retired or not isinstance(stored.noun, Offer):
        raise NotFound("that entry was taken off the price list")
    terms, (found,) = _priced(bench, ((id, stored.noun),), trend=True)
    return terms, found


def mold_paybacks(bench: Bench, priced: Priced, terms: Terms) -> tuple[MoldPayback, ...]:
    """One more of each mold of the bait, paid back by packs at the present price."""
    if priced.cost is None:
        return ()
    sold = packs_sold(bench, priced.offer.bait, priced.offer.baits_each)
    molds = (s for s in bench.records.all(Mold.key) if isinstance(s.noun, Mold))
    return tuple(
        _payback(s.id, s.noun, priced, terms, sold)
        for s in molds
        if isinstance(s.noun, Mold) and s.noun.bait == priced.offer.bait and s.noun.price_money
    )


def _priced(
    bench: Bench, listed: Sequence[tuple[str, Offer]], *, trend: bool
) -> tuple[Terms, tuple[Priced, ...]]:
    terms = selling_terms(bench)
    poured, lots = lots_of_offers(bench, [offer for _, offer in listed])
    return terms, tuple(
        _one(bench, terms, key, offer, poured.sheets(offer), lots, trend=trend)
        for key, offer in listed
    )


def _one(
    bench: Bench, terms: Terms, key: str, offer: Offer, sheets: Sequence[Sheet],
    lots: CountedLots, *, trend: bool,
) -> Priced:  # fmt: skip
    told = _trend(sheets, lots) if trend else NO_TREND
    cost = pack_cost(bench, offer, sheets, lots)
    if cost is None:
        return Priced(key, offer, None, None, None, told, (NO_COST,))
    refused: list[str] = []
    breaks: PriceBreaksAnswer | None = None
    lowest: PriceAnswer | None = None
    try:
        lowest = answered("shop.price", _lowest_input(terms, offer, cost.money))
    except PourwrightError as error:
        refused.append(str(error))
    try:
        breaks = answered("shop.price_breaks", _breaks_input(terms, offer, cost.money))
    except PourwrightError as error:
        refused.append(str(error))
    return Priced(key, offer, cost, breaks, lowest, told, tuple(refused))


def _trend(sheets: Sequence[Sheet], lots: CountedLots) -> CostTrend:
    return cost_trend(sheets, {s.number: lot for s in sheets if (lot := lots.of(s))})


def _lowest_input(terms: Terms, offer: Offer, cost: Band) -> PriceInput:
    return PriceInput(
        cost_money=cost,
        margin=terms.margin,
        fee_share=terms.fee_share,
        fee_fixed_money=terms.bait_fee_money * offer.baits_each + terms.order_fee_money,
        tax_rate=terms.tax_rate,
        tax_added=terms.tax_added,
    )


def _breaks_input(terms: Terms, offer: Offer, cost: Band) -> PriceBreaksInput:
    return PriceBreaksInput(
        price_money=offer.price_money,
        breaks=offer.steps,
        cost_money=_with_fees(terms, offer, cost),
        floor_margin=terms.floor_margin,
        fee_share=terms.fee_share,
        order_fee_money=terms.order_fee_money,
        tax_rate=terms.tax_rate,
        tax_added=terms.tax_added,
    )


def _with_fees(terms: Terms, offer: Offer, cost: Band) -> Band:
    """Cost with the fees that every bait pays, whatever the order."""
    fees = terms.bait_fee_money * offer.baits_each
    return Band(cost.low + fees, cost.typical + fees, cost.high + fees)


def _payback(key: str, mold: Mold, priced: Priced, terms: Terms, sold: Sold) -> MoldPayback:
    offer, cost, price = priced.offer, priced.cost, mold.price_money or 0.0
    if cost is None:
        raise ValueError("a pack without a cost pays nothing back")
    try:
        answer: PaybackAnswer = answered(
            "shop.payback",
            PaybackInput(
                fixed_money=price,
                price_money=offer.price_money,
                cost_money=_with_fees(terms, offer, cost.without_wear),
                packs_per_month=sold.per_month,
                packs_per_order=sold.per_order,
                life_packs=max(mold.life_shots * mold.cavities / offer.baits_each, 1),
                fee_share=terms.fee_share,
                order_fee_money=terms.order_fee_money,
                tax_rate=terms.tax_rate,
                tax_added=terms.tax_added,
            ),
        )
    except PourwrightError as error:
        return MoldPayback(key, mold.name, price, None, str(error), sold.until)
    return MoldPayback(key, mold.name, price, answer, "", sold.until)
