"""The price list laid out: bars of margin and of cost, and the line of its lots."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.cost_trend import CostTrend, LotPoint
from pourwright.actions.pack_cost import Basis, PackCost
from pourwright.actions.see_prices import Priced
from pourwright.actions.selling_terms import Terms
from pourwright.web.show import percent

WIDE, TALL, EDGE = 640, 200, 40
# A line needs this many lots.
LEAST_LINE = 2
_HEADROOM = 1.15


@dataclass(frozen=True, slots=True)
class MarginBar:
    """A margin as a bar from 0 to 100; a loss has no length."""

    typical: float
    low: float
    high: float
    floor: float


@dataclass(frozen=True, slots=True)
class CostBar:
    """One kind of cost; `long` is its share of the largest."""

    kind: str
    amount_money: float
    long: float


@dataclass(frozen=True, slots=True)
class Dot:
    """One lot in the drawing."""

    x: float
    y: float
    lot: LotPoint


@dataclass(frozen=True, slots=True)
class TrendChart:
    """Lots in the order they were poured; `top_money` is the height of the upper line."""

    dots: tuple[Dot, ...]
    path: str
    top_y: float
    top_money: float
    words: str


def margin_bar(low: float, typical: float, high: float, floor: float) -> MarginBar:
    """A margin drawn between nothing and the whole price."""
    typical, low, high, floor = (100 * min(max(v, 0.0), 1.0) for v in (typical, low, high, floor))
    return MarginBar(typical, low, high, floor)


def cost_bars(cost: PackCost) -> tuple[CostBar, ...]:
    """The kinds of a pack's cost, the longest bar the largest."""
    most = max((abs(k.amount_money) for k in cost.kinds), default=0.0) or 1.0
    return tuple(
        CostBar(k.kind, k.amount_money, 100 * abs(k.amount_money) / most) for k in cost.kinds
    )


def trend_chart(trend: CostTrend) -> TrendChart:
    """The trend as dots on a line."""
    top = max((p.each_money for p in trend.points), default=1.0) * _HEADROOM
    step = (WIDE - 2 * EDGE) / max(len(trend.points) - 1, 1)
    dots = tuple(
        Dot(EDGE + i * step, _height(p.each_money, top), p) for i, p in enumerate(trend.points)
    )
    path = " ".join(f"{'L' if i else 'M'}{d.x:.1f} {d.y:.1f}" for i, d in enumerate(dots))
    highest = top / _HEADROOM
    return TrendChart(dots, path, _height(highest, top), highest, trend.words)


def _height(value: float, top: float) -> float:
    return TALL - EDGE - value / top * (TALL - 2 * EDGE)


def cost_source(priced: Priced) -> str:
    """Where the cost comes from, in words."""
    cost = priced.cost
    if cost is None:
        return ""
    match cost.basis:
        case Basis.LOTS if len(cost.numbers) > 1:
            return f"from the newest {len(cost.numbers)} counted lots together"
        case Basis.LOTS:
            return "from the one lot that was counted"
        case Basis.SHEET:
            return "from the newest batch sheet, not counted yet"
        case Basis.DRAFT:
            return "from a plan, nothing poured yet"


def terms_words(terms: Terms, currency: str) -> tuple[str, ...]:
    """Fees, remelt and tax, each in a sentence."""
    return (_fees(terms, currency), _remelt(terms), _tax(terms))


def _fees(terms: Terms, currency: str) -> str:
    taken = [
        *([f"{percent(terms.fee_share, 1)} of a price"] if terms.fee_share else []),
        *([f"{currency}{terms.bait_fee_money:.2f} of a bait"] if terms.bait_fee_money else []),
        *([f"{currency}{terms.order_fee_money:.2f} of an order, once"]
          if terms.order_fee_money else []),
    ]  # fmt: skip
    return f"Selling fees: {', '.join(taken)}." if taken else "No selling fees are set."


def _remelt(terms: Terms) -> str:
    return (
        f"Remelt of one color is credited at {percent(terms.remelt_credit_share)} of fresh "
        "plastic, mixed colors at nothing."
    )


def _tax(terms: Terms) -> str:
    if not terms.tax_country:
        return "No tax is reckoned: no country was chosen yet."
    if not terms.tax_rate:
        return "No tax is reckoned for the country you chose: check locally."
    lies = "added on top of these prices" if terms.tax_added else "inside these prices"
    return (
        f"Maker's tax reckoned at {percent(terms.tax_rate)}, {lies}, on the whole price. Not tax "
        "advice: whether it applies, and on which base, is for a licensed adviser."
    )
