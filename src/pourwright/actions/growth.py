"""What the next purchase does best, by the shop's own batches, prices and sales."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.actions.answered import answered
from pourwright.actions.packs_sold import packs_sold
from pourwright.actions.plan_batch import picked
from pourwright.actions.port import Bench
from pourwright.actions.see_prices import Priced, see_prices
from pourwright.actions.selling_terms import Terms
from pourwright.base.band import Band, exact
from pourwright.base.errors import NoAnswer, PourwrightError
from pourwright.base.record import from_json
from pourwright.forecast.request import BatchRequest, InjectorPart
from pourwright.plan.batch_plan import BatchPlan
from pourwright.plan.kit.growth import GrowthAnswer, Ranked
from pourwright.plan.kit.growth_input import GrowthInput, Purchase
from pourwright.plan.resolve import request_of
from pourwright.shop.cost import LABOR
from pourwright.shop.draft import Draft
from pourwright.shop.mold import Mold
from pourwright.shop.wish import Wish

TIME_IT = "time a batch with a borrowed one and write the share of the minutes into the wish"
POUR_IT = "plan a batch with that mold first"
SELL_IT = "sell some of that mold's bait first, so that its part of the sales is known"


@dataclass(frozen=True, slots=True)
class NextDollar:
    """The ranking, and the batch, price and sales it rests on."""

    answer: GrowthAnswer
    offer: str
    batch: str
    sold_until: str

    def percent_of_longest(self, it: Ranked) -> float:
        """The months a wish takes to pay back, against those of the one that takes longest."""
        return 100 * it.months.typical / max(r.months.typical for r in self.answer.ranked)


@dataclass(frozen=True, slots=True)
class _Base:
    """A batch as it would be planned today."""

    draft: Draft
    request: BatchRequest
    minutes: Band
    good: float


def next_dollar(
    bench: Bench, listed: dict[str, Wish], wanted_packs_per_month: float | None
) -> NextDollar:
    """The wishes ranked.

    Raises: NoAnswer naming the record that is missing: a price with its cost, a batch, a sale.
    """
    terms, priced = see_prices(bench)
    one = _most_sold(bench, priced)
    sold = packs_sold(bench, baits_each=one.offer.baits_each)
    if sold.per_month is None:
        raise NoAnswer("nothing was sold yet: write down your sales, and this list can be ranked")
    base = next(_bases(bench), None)
    if base is None:
        raise NoAnswer("no batch can be planned yet: plan one, so that its minutes are known")
    wanted = None if wanted_packs_per_month is None else exact(wanted_packs_per_month)
    answer: GrowthAnswer = answered(
        "shop.growth",
        GrowthInput(
            purchases=tuple(
                _purchase(bench, w, base, one.offer.baits_each) for w in listed.values()
            ),
            packs_per_month=sold.per_month,
            wanted_packs_per_month=wanted,
            baits_each=one.offer.baits_each,
            minutes_each=base.minutes.scaled(1 / base.good),
            labor_per_h_money=base.request.money.labor_per_h_money,
            left_each_money=_before_labor(terms, one, sold.per_order),
        ),
    )
    return NextDollar(answer, one.offer.name, base.draft.name or "the newest batch", sold.until)


def _most_sold(bench: Bench, priced: tuple[Priced, ...]) -> Priced:
    """The entry of the price list with a cost whose bait sells most."""
    costed = [p for p in priced if p.cost is not None]
    if not costed:
        raise NoAnswer("no entry of the price list has a cost yet: plan a batch of one")

    sold = {bait: packs_sold(bench, bait).per_month for bait in {p.offer.bait for p in costed}}

    def packs(it: Priced) -> float:
        month = sold[it.offer.bait]
        return month.typical if month else 0.0

    return max(costed, key=packs)


def _before_labor(terms: Terms, it: Priced, packs_per_order: float) -> Band:
    """What a pack leaves before the work is paid."""
    if it.breaks is None or it.cost is None:
        raise NoAnswer(f"{it.offer.name}: {'; '.join(it.refused)}")
    labor = sum(k.amount_money for k in it.cost.kinds if k.kind == LABOR)
    # The single price's row carries the whole fee of an order.
    shared = terms.order_fee_money * (1 - 1 / packs_per_order)
    left = it.breaks.rows[0].left_each_money
    return Band(*(end + labor + shared for end in (left.low, left.typical, left.high)))


def _purchase(bench: Bench, wish: Wish, base: _Base, baits_each: int) -> Purchase:
    share, measure = _share(bench, wish, base, baits_each)
    return Purchase(
        name=wish.name,
        cost_money=wish.price_money,
        minutes_share=share,
        saved_each_money=None if wish.saved_each_money is None else exact(wish.saved_each_money),
        measure=measure,
    )


def _share(bench: Bench, wish: Wish, base: _Base, baits_each: int) -> tuple[Band | None, str]:
    """Minutes of a bait with it as a share of now, or which record would tell."""
    if wish.minutes_share is not None:
        return exact(wish.minutes_share), ""
    if wish.mold:
        return _with_mold(bench, wish, baits_each)
    request = base.request
    if wish.cup_ml is not None:
        changed = dataclasses.replace(request.cup, brim_ml=wish.cup_ml)
        return _against(base, dataclasses.replace(request, cup=changed)), TIME_IT
    if wish.injector_ml is not None:
        injector = dataclasses.replace(
            request.injector or InjectorPart(), volume_ml=wish.injector_ml
        )
        return _against(base, dataclasses.replace(request, injector=injector)), TIME_IT
    return None, TIME_IT


def _with_mold(bench: Bench, wish: Wish, baits_each: int) -> tuple[Band | None, str]:
    """One more mold saves time on the baits it makes; the rest of the sales it leaves alone."""
    base = next(_bases(bench, wish.mold), None)
    if base is None:
        return None, POUR_IT
    mold = bench.records.get(Mold.key, wish.mold).noun
    of_it = packs_sold(bench, mold.bait, baits_each).per_month if isinstance(mold, Mold) else None
    of_all = packs_sold(bench, baits_each=baits_each).per_month
    if not of_it or not of_all or not of_it.typical:
        return None, SELL_IT
    more = dataclasses.replace(base.request.mold, owned=base.request.mold.owned + 1)
    share = _against(base, dataclasses.replace(base.request, mold=more))
    if share is None:
        return None, TIME_IT
    part = of_it.typical / of_all.typical
    return Band(*(1 - part * (1 - end) for end in (share.low, share.typical, share.high))), ""


def _against(base: _Base, request: BatchRequest) -> Band | None:
    """The same batch planned the other way; both plans draw the same hands and heat."""
    try:
        other = _minutes(answered("plan.batch", request))
    except PourwrightError:
        return None
    ends = sorted(
        getattr(other, end) / getattr(base.minutes, end) for end in ("low", "typical", "high")
    )
    typical = other.typical / base.minutes.typical
    return Band(ends[0], typical, ends[2])


def _bases(bench: Bench, mold: str = "") -> Iterator[_Base]:
    """Batches that can be planned today, the newest sheet first; with one mold where named."""
    sheets = (s.draft for s in bench.sheets.all() if not mold or s.draft.get("mold") == mold)
    drafts = (s.noun for s in bench.records.all(Draft.key))
    for told in sheets:
        yield from _base(bench, from_json(Draft, {k: v for k, v in told.items() if k != "kind"}))
    for draft in drafts:
        if isinstance(draft, Draft) and (not mold or draft.mold == mold):
            yield from _base(bench, draft)


def _base(bench: Bench, draft: Draft) -> Iterator[_Base]:
    try:
        request = request_of(draft, picked(bench, draft))
        plan: BatchPlan = answered("plan.batch", request)
    except PourwrightError:
        return
    good = next(f.value.typical for f in plan.figures if f.key == "good")
    if good >= 1:
        yield _Base(draft, request, _minutes(plan), good)


def _minutes(plan: BatchPlan) -> Band:
    return next(f.value for f in plan.figures if f.key == "minutes")
