"""How the cost of a good bait went from lot to lot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from pourwright.actions.lot_cost import CountedLot
from pourwright.shop.sheet import Sheet

# Lots before the newest one that a word about a trend needs: estimate.
LEAST_BEFORE = 3
# A change smaller than this share is not worth a word: estimate.
WORTH_A_WORD = 0.1


@dataclass(frozen=True, slots=True)
class LotPoint:
    """The cost of a good bait of one lot."""

    number: int
    code: str
    day: str
    each_money: float


@dataclass(frozen=True, slots=True)
class CostTrend:
    """Lots, oldest first, and what may be said of them."""

    points: tuple[LotPoint, ...]
    words: str


def cost_trend(sheets: Sequence[Sheet], lots: Mapping[int, CountedLot]) -> CostTrend:
    """The trend over the counted ones of these sheets, which come newest first."""
    counted = [lots[s.number] for s in reversed(sheets) if s.number in lots]
    good = [lot for lot in counted if lot.cost.each is not None]
    return CostTrend(tuple(_point(lot) for lot in good), _words(good))


def _point(lot: CountedLot) -> LotPoint:
    sheet = lot.sheet
    return LotPoint(sheet.number, sheet.code, sheet.frozen_at[:10], _each(lot))


def _each(lot: CountedLot) -> float:
    return lot.cost.total.amount / lot.cost.good


def _words(lots: Sequence[CountedLot]) -> str:
    if len(lots) <= LEAST_BEFORE:
        counted = "one lot" if len(lots) == 1 else f"{len(lots) or 'no'} lots"
        return f"Too few to speak of a trend: {counted} counted, {LEAST_BEFORE + 1} needed."
    before = median(_each(lot) for lot in lots[:-1])
    change = _each(lots[-1]) / before - 1 if before > 0 else 0.0
    if abs(change) < WORTH_A_WORD:
        return f"The newest lot is within {WORTH_A_WORD:.0%} of the middle of those before it."
    dearer = "dearer" if change > 0 else "cheaper"
    moved = _moved_most(lots)
    return (
        f"The newest lot is {abs(change):.0%} {dearer} a bait than the middle of those before "
        f"it; {moved} moved most."
    )


def _moved_most(lots: Sequence[CountedLot]) -> str:
    """The kind that changed most, a bait, in the direction of the whole."""
    newest, before = lots[-1], lots[:-1]
    kinds = dict.fromkeys(k.kind for lot in lots for k in lot.cost.kinds)
    rising = _each(newest) > median(_each(lot) for lot in before)

    def moved(kind: str) -> float:
        change = _share(newest, kind) - median(_share(lot, kind) for lot in before)
        return change if rising else -change

    return max(kinds, key=moved)


def _share(lot: CountedLot, kind: str) -> float:
    return lot.cost.of(kind).amount / lot.cost.good
