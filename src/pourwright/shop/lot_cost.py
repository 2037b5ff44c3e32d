"""What a counted lot really cost, by kind, and what one of its good baits did."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from pourwright.base.band import Band
from pourwright.shop.cost import CREDIT, LABOR, MATERIALS, OVERHEAD, PACKING, POWER, WEAR
from pourwright.shop.lot import LotEntry
from pourwright.shop.money import Money, as_typed
from pourwright.shop.sheet import Sheet

ORDER = (MATERIALS, POWER, WEAR, LABOR, PACKING, OVERHEAD, CREDIT)
PLANNED = "as planned"
NOTHING = Money(0)


@dataclass(frozen=True, slots=True)
class Taken:
    """What the books of the stock say of a lot; null where no move was kept."""

    used: Money | None = None
    potted: Money | None = None


NO_MOVES = Taken()


@dataclass(frozen=True, slots=True)
class KindCost:
    """One kind of cost of a lot; a credit is negative.

    `known` says where it comes from, `below` and `above` how far off it may be: not at all where
    it was entered or booked.
    """

    kind: str
    amount: Money
    known: str
    below: float = 0.0
    above: float = 0.0


@dataclass(frozen=True, slots=True)
class LotCost:
    """The cost of a lot by kind, adding up to the total, and the good baits that carry it."""

    kinds: tuple[KindCost, ...]
    good: int

    @property
    def total(self) -> Money:
        """The whole lot."""
        return sum((k.amount for k in self.kinds), NOTHING)

    @property
    def each(self) -> Money | None:
        """One good bait; none where no bait is good."""
        return self.total.shared(self.good) if self.good else None

    def band(self, *, without: tuple[str, ...] = ()) -> Band:
        """The whole lot, or what is left without some kinds, with the range of what was planned.

        What makes one kind dearer says nothing of another: their ranges add up in quadrature.
        """
        kept = [k for k in self.kinds if k.kind not in without]
        typical = sum((k.amount for k in kept), NOTHING).amount
        below = math.hypot(*(k.below for k in kept))
        above = math.hypot(*(k.above for k in kept))
        return Band(typical - below, typical, typical + above)

    def of(self, kind: str) -> Money:
        """One kind; nothing where the lot has none of it."""
        return next((k.amount for k in self.kinds if k.kind == kind), NOTHING)


def lot_cost(sheet: Sheet, entry: LotEntry, taken: Taken = NO_MOVES) -> LotCost:
    """A lot's cost from its sheet, from what was entered, and from what left and met the stock.

    What stays in cups and barrel was bought and is counted once, among the materials.
    """
    found = {c["kind"]: _planned(c["kind"], c["amount_money"]) for c in sheet.plan["costs"]}
    planned = {kind: it.amount for kind, it in found.items()}
    for known in (
        _materials(sheet, taken),
        _wear(sheet, entry, planned),
        _labor(sheet, entry, planned),
        _packing(sheet, entry, planned),
        _credit(sheet, entry, taken),
    ):
        if known is not None:
            found[known.kind] = known
    kinds = sorted(found.values(), key=lambda k: ORDER.index(k.kind))
    return LotCost(tuple(k for k in kinds if k.amount != NOTHING), entry.good)


def _planned(kind: str, amount: Mapping[str, float]) -> KindCost:
    low, typical, high = (float(amount[end]) for end in ("low", "typical", "high"))
    return KindCost(kind, Money.of(typical), PLANNED, typical - low, high - typical)


def _materials(sheet: Sheet, taken: Taken) -> KindCost | None:
    """What was booked, where the stock holds all of it at a price; else the plan stands."""
    if taken.used is None or not _all_priced(sheet):
        return None
    return KindCost(MATERIALS, taken.used, "from the lots that were used")


def _all_priced(sheet: Sheet) -> bool:
    """Whether everything that was poured stood on the shelf with what it had cost."""
    doses = (d for layer in sheet.request["layers"] for d in layer["doses"])
    priced = (sheet.request["plastic"], *doses)
    return all(it["material"] and it["price_per_kg_money"] is not None for it in priced)


def _wear(sheet: Sheet, entry: LotEntry, planned: dict[str, Money]) -> KindCost | None:
    shots = int(sheet.plan["shots"])
    if WEAR not in planned or not shots:
        return None
    return KindCost(WEAR, planned[WEAR] * Fraction(entry.shots, shots), "by the shots made")


def _labor(sheet: Sheet, entry: LotEntry, planned: dict[str, Money]) -> KindCost | None:
    if entry.minutes is None or LABOR not in planned:
        return None
    hour = as_typed(_money(sheet)["labor_per_h_money"])
    worked = Money.of(as_typed(entry.minutes) / 60 * hour)
    return KindCost(LABOR, worked, "from the minutes entered")


def _packing(sheet: Sheet, entry: LotEntry, planned: dict[str, Money]) -> KindCost | None:
    if PACKING not in planned:
        return None
    good = Fraction(entry.good, int(sheet.request["count"]))
    return KindCost(PACKING, planned[PACKING] * good, "for the good baits")


def _credit(sheet: Sheet, entry: LotEntry, taken: Taken) -> KindCost | None:
    if taken.potted is not None:
        return KindCost(CREDIT, -taken.potted, "as the pots were charged")
    if entry.remelt_g is None and entry.sprue_g is None:
        return None
    kept_kg = as_typed((entry.remelt_g or 0) + (entry.sprue_g or 0)) / 1000
    share = as_typed(_money(sheet)["remelt_credit_share"])
    return KindCost(CREDIT, -Money.of(kept_kg * _plastic_price(sheet) * share), "weighed back")


def _plastic_price(sheet: Sheet) -> Fraction:
    figures = {f["key"]: f for f in sheet.plan["figures"]}
    return as_typed(figures["plastic_price_per_kg_money"]["value"]["typical"])


def _money(sheet: Sheet) -> Any:
    return sheet.request["money"]
