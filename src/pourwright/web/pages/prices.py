"""The price list: each look with its price, its cost and what is left; one entry opened."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.see_prices import MoldPayback, Priced, mold_paybacks, see_price, see_prices
from pourwright.actions.selling_terms import Terms
from pourwright.base.errors import NotFound
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.shop.offer import Offer
from pourwright.web.look_form import baits_with_shape
from pourwright.web.names import Names
from pourwright.web.page import Page, Show, Visit
from pourwright.web.price_view import (
    CostBar,
    MarginBar,
    TrendChart,
    cost_bars,
    cost_source,
    margin_bar,
    terms_words,
    trend_chart,
)
from pourwright.web.thumb import Thumb, look_thumb
from pourwright.web.widget import Choice


@dataclass(frozen=True, slots=True)
class PriceCard:
    """An entry of the list."""

    priced: Priced
    bait: str
    look: str
    thumb: Thumb | None
    bar: MarginBar | None
    source: str
    saved: bool


@dataclass(frozen=True, slots=True)
class PricesContext:
    """The whole list, and what holds for every price on it."""

    title: str
    cards: tuple[PriceCard, ...]
    terms: Terms
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PriceContext:
    """One entry opened."""

    title: str
    card: PriceCard
    bars: tuple[MarginBar, ...]
    costs: tuple[CostBar, ...]
    trend: TrendChart
    paybacks: tuple[MoldPayback, ...]
    terms: Terms
    words: tuple[str, ...]


def prices(visit: Visit) -> Show:
    """The price list."""
    saved = visit.request.query_params.get("saved", "")
    with visit.world.reading() as bench:
        terms, listed = see_prices(bench)
        names, shaped = Names(bench), baits_with_shape(bench)
        cards = tuple(_card(bench, names, shaped, terms, it, saved) for it in listed)
    words = terms_words(terms, visit.settings.currency)
    return Show("prices/prices.html", PricesContext("Price list", cards, terms, words))


def one_price(visit: Visit) -> Show:
    """One entry with its cost by kind, its quantity prices, its lots and what pays back."""
    with visit.world.reading() as bench:
        terms, priced = see_price(bench, visit.part("id"))
        card = _card(bench, Names(bench), baits_with_shape(bench), terms, priced, "")
        paybacks = mold_paybacks(bench, priced, terms)
    context = PriceContext(
        title=priced.offer.name,
        card=card,
        bars=_bars(priced, terms),
        costs=cost_bars(priced.cost) if priced.cost else (),
        trend=trend_chart(priced.trend),
        paybacks=paybacks,
        terms=terms,
        words=terms_words(terms, visit.settings.currency),
    )
    return Show("prices/price.html", context)


def _card(
    bench: Bench, names: Names, shaped: tuple[Choice, ...], terms: Terms, priced: Priced,
    saved: str,
) -> PriceCard:  # fmt: skip
    offer = priced.offer
    bars = _bars(priced, terms)
    return PriceCard(
        priced,
        names.name_of(Bait.key, offer.bait),
        names.name_of(Look.key, offer.look) if offer.look else "any look",
        _thumb(bench, offer, shaped),
        bars[0] if bars else None,
        cost_source(priced),
        priced.id == saved,
    )


def _bars(priced: Priced, terms: Terms) -> tuple[MarginBar, ...]:
    rows = priced.breaks.rows if priced.breaks else ()
    return tuple(
        margin_bar(r.margin.low, r.margin.typical, r.margin.high, terms.floor_margin) for r in rows
    )


def _thumb(bench: Bench, offer: Offer, shaped: tuple[Choice, ...]) -> Thumb | None:
    bait = next((c for c in shaped if c.value == offer.bait), None)
    if bait is None or not offer.look:
        return None
    try:
        look = bench.records.get(Look.key, offer.look).noun
    except NotFound:
        return None
    return look_thumb(offer.look, look.name, bait)


PRICES_PAGES = (
    Page("/prices", prices),
    Page("/prices/{id}", one_price),
)
