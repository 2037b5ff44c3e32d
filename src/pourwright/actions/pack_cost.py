"""What a pack of the price list costs, from the newest lots or else from the newest plan."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import islice
from typing import Any

from pourwright.actions.answered import answered
from pourwright.actions.lot_cost import CountedLot, CountedLots
from pourwright.actions.plan_batch import picked
from pourwright.actions.port import Bench
from pourwright.base.band import Band
from pourwright.base.errors import NotFound, PourwrightError
from pourwright.base.record import to_json
from pourwright.forecast.request import BatchRequest
from pourwright.plan.resolve import request_of
from pourwright.shop.cost import PACKING, WEAR
from pourwright.shop.draft import Draft
from pourwright.shop.material import Packing
from pourwright.shop.mold import Mold
from pourwright.shop.offer import Offer
from pourwright.shop.sheet import Sheet

# So many lots together stand for what a bait costs now.
NEWEST = 3
# No sheet was frozen after this: nothing is read of lots where there are no sheets.
LATER = "9999"
# Lots of which a trend is drawn.
TREND = 24


@dataclass(frozen=True, slots=True)
class KindOfPack:
    """One kind of a pack's cost."""

    kind: str
    amount_money: float


class Basis(StrEnum):
    """Where the cost of a pack comes from."""

    LOTS = "lots that were counted"
    SHEET = "the newest batch sheet"
    DRAFT = "a plan"


@dataclass(frozen=True, slots=True)
class PackCost:
    """What one pack costs; `numbers` are those of the sheets it was taken from."""

    money: Band
    kinds: tuple[KindOfPack, ...]
    basis: Basis
    numbers: tuple[int, ...] = ()

    @property
    def without_wear(self) -> Band:
        """What one more pack costs beside the wear of its mold."""
        wear = sum(k.amount_money for k in self.kinds if k.kind == WEAR)
        ends = (self.money.low, self.money.typical, self.money.high)
        return Band(*(max(end - wear, 0.0) for end in ends))


class PouredOf:
    """The sheets of every bait in every look, newest first."""

    def __init__(self, bench: Bench) -> None:
        baits = {
            s.id: s.noun.bait
            for s in bench.records.all(Mold.key, retired=True)
            if isinstance(s.noun, Mold)
        }
        self._sheets: defaultdict[str, list[Sheet]] = defaultdict(list)
        for sheet in bench.sheets.all():
            bait = baits.get(str(sheet.draft.get("mold") or ""), "")
            if bait:
                self._sheets[bait].append(sheet)

    def sheets(self, offer: Offer) -> tuple[Sheet, ...]:
        """Those that an offer's baits may come from."""
        return tuple(
            s
            for s in self._sheets[offer.bait]
            if not offer.look or s.draft.get("look") == offer.look
        )[:TREND]


def lots_of_offers(bench: Bench, offers: Iterable[Offer]) -> tuple[PouredOf, CountedLots]:
    """The sheets by bait, and the lots of these offers."""
    poured = PouredOf(bench)
    begun = (s.frozen_at for offer in offers for s in poured.sheets(offer))
    return poured, CountedLots(bench, since=min(begun, default=LATER))


def pack_cost(
    bench: Bench, offer: Offer, sheets: Sequence[Sheet], lots: CountedLots
) -> PackCost | None:
    """The cost of a pack; none where nothing of it was ever planned.

    Bags come in by the piece, as the offer packs, and not again by the bait as the batch did.
    """
    found = (lots.of(sheet) for sheet in sheets)
    counted = list(islice((lot for lot in found if lot and lot.cost.good), NEWEST))
    if counted:
        return _of_lots(bench, offer, counted)
    if sheets:
        newest = sheets[0]
        planned = _of_plan(bench, offer, newest.plan, newest.request["money"])
        return replace(planned, basis=Basis.SHEET, numbers=(newest.number,))
    return _of_draft(bench, offer)


def _of_lots(bench: Bench, offer: Offer, lots: Sequence[CountedLot]) -> PackCost:
    good = sum(lot.cost.good for lot in lots)
    share = offer.baits_each / good
    kinds = {
        kind: share * sum(lot.cost.of(kind).amount for lot in lots)
        for kind in dict.fromkeys(k.kind for lot in lots for k in lot.cost.kinds)
    }
    bands = [lot.cost.band(without=(PACKING,)) for lot in lots]
    typical, low, high = (
        share * sum(getattr(band, end) for band in bands) for end in ("typical", "low", "high")
    )
    packed = _packed(bench, offer, lots[0].sheet.request["money"])
    found = _pack(Band(low, typical, high), kinds, packed)
    return replace(found, basis=Basis.LOTS, numbers=tuple(lot.sheet.number for lot in lots))


def _of_draft(bench: Bench, offer: Offer) -> PackCost | None:
    """From the first stored plan of it that can be reckoned."""
    for stored in bench.records.all(Draft.key):
        draft = stored.noun
        if not isinstance(draft, Draft) or not _makes(bench, draft, offer):
            continue
        try:
            request = _unpriced(request_of(draft, picked(bench, draft)))
            plan = answered("plan.batch", request)
        except PourwrightError:
            continue
        return _of_plan(bench, offer, to_json(plan), to_json(request.money))
    return None


def _unpriced(request: BatchRequest) -> BatchRequest:
    """The same at a price without margin and fees: one that does not exist hides no cost."""
    return replace(request, money=replace(request.money, margin=0.0, fee_share=0.0))


def _makes(bench: Bench, draft: Draft, offer: Offer) -> bool:
    if not draft.mold or (offer.look and draft.look != offer.look):
        return False
    mold = bench.records.get(Mold.key, draft.mold).noun
    return isinstance(mold, Mold) and mold.bait == offer.bait


def _of_plan(
    bench: Bench, offer: Offer, plan: Mapping[str, Any], money: Mapping[str, Any]
) -> PackCost:
    figures = {f["key"]: f["value"] for f in plan["figures"]}
    good = max(float(figures["good"]["typical"]), 1.0)
    kinds = {
        c["kind"]: float(c["amount_money"]["typical"]) / good * offer.baits_each
        for c in plan["costs"]
    }
    each, bagged = figures["cost_each_money"], kinds.get(PACKING, 0.0)
    low, typical, high = (
        float(each[end]) * offer.baits_each - bagged for end in ("low", "typical", "high")
    )
    return _pack(Band(low, typical, high), kinds, _packed(bench, offer, money))


def _pack(bare: Band, kinds: Mapping[str, float], packed: float) -> PackCost:
    told = {k: v for k, v in kinds.items() if k != PACKING} | ({PACKING: packed} if packed else {})
    return PackCost(
        Band(bare.low + packed, bare.typical + packed, bare.high + packed),
        tuple(KindOfPack(kind, amount) for kind, amount in told.items()),
        Basis.DRAFT,
    )


def _packed(bench: Bench, offer: Offer, money: Mapping[str, Any]) -> float:
    """Bag and eyes of a pack: the offer's bag where it names one, else the batch's."""
    eyes = offer.baits_each * float(money["eyes_per_bait_money"])
    bag = _bag(bench, offer.packing)
    if bag is None:
        bag = offer.baits_each * float(money["packing_per_bait_money"])
    return bag + eyes


def _bag(bench: Bench, packing: str) -> float | None:
    try:
        noun = bench.records.get(Packing.key, packing).noun if packing else None
    except NotFound:
        return None
    return noun.package_price_money / noun.pieces if isinstance(noun, Packing) else None
