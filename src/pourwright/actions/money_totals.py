"""What came in, what it cost and what is left, month by month."""

from __future__ import annotations

import datetime as dt
import functools
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from pourwright.actions.excise_lines import KEPT, taxes_of
from pourwright.actions.excise_quarter import counts
from pourwright.actions.port import Bench
from pourwright.actions.sales_of import KeptSale, sales_of
from pourwright.actions.stock_flows import Day, bought_by_month, cost_of_causes, stock_ends
from pourwright.actions.tax_standing import tax_standing
from pourwright.shop.money import Money
from pourwright.shop.sale import Sale, TaxWay

NOTHING = Money(0)
_MONTH = len("2026-04")
# No calendar on earth is further from UTC than this.
_NEAR = dt.timedelta(days=2)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoneyTotals:
    """A month, or several together; taxes are none where no rules are reckoned by.

    `goods` is without any delivery; `cost` is what the stock of the baits sold was worth;
    `stock_end` is what all lots are worth at the end.
    """

    sales: int = 0
    baits: int = 0
    goods: Money = NOTHING
    delivery: Money = NOTHING
    fees: Money = NOTHING
    cost: Money = NOTHING
    bought: Money = NOTHING
    stock_end: Money = NOTHING
    tax_inside: Money | None = None
    tax_added: Money | None = None

    @property
    def left(self) -> Money:
        """Goods less fees, what they cost, and the tax inside; delivery is taken as spent."""
        return self.goods - self.fees - self.cost - (self.tax_inside or NOTHING)

    @property
    def tax(self) -> Money | None:
        """What to set aside for the tax, inside and on top."""
        if self.tax_inside is None or self.tax_added is None:
            return None
        return self.tax_inside + self.tax_added


@dataclass(frozen=True, slots=True)
class MoneyMonth:
    """The totals of one month, such as 2026-04."""

    month: str
    totals: MoneyTotals


def money_months(bench: Bench, months: Sequence[str], day: Day) -> tuple[MoneyMonth, ...]:
    """Months such as 2026-04 that follow one another; `day` says on which day a time falls.

    Sales go by the day they carry, and take what their baits cost with them; one that was taken
    back is gone, though its tax stays where the quarter's sheet holds it. Purchases and the worth
    of the stock go by the time of their moves.
    """
    sales = sales_of(bench, f"{months[0]}-01", _first_after(months[-1]))
    moves = bench.stock.moves(since=_since(months[0], sales))
    cost, taxes = cost_of_causes(moves), _taxes(bench, sales)
    bought, stock = bought_by_month(bench, moves, day), stock_ends(bench, moves, months, day)
    standing: dict[str, list[KeptSale]] = defaultdict(list)
    for it in sales:
        if it.stands:
            standing[it.sale.sold_on[:_MONTH]].append(it)
    return tuple(
        MoneyMonth(month, replace(
            _sold(standing[month], cost),
            bought=Money(bought[month]),
            stock_end=stock[month],
            tax_inside=_tax(taxes, month, TaxWay.INSIDE),
            tax_added=_tax(taxes, month, TaxWay.ADDED),
        ))
        for month in months
    )  # fmt: skip


def joined(months: Sequence[MoneyMonth]) -> MoneyTotals:
    """Months that follow one another, together. Raises: ValueError for none."""
    if not months:
        raise ValueError("no month to join")
    totals = [it.totals for it in months]
    known = [it for it in totals if it.tax is not None]
    return MoneyTotals(
        sales=sum(it.sales for it in totals),
        baits=sum(it.baits for it in totals),
        goods=_sum(it.goods for it in totals),
        delivery=_sum(it.delivery for it in totals),
        fees=_sum(it.fees for it in totals),
        cost=_sum(it.cost for it in totals),
        bought=_sum(it.bought for it in totals),
        stock_end=totals[-1].stock_end,
        tax_inside=_sum(it.tax_inside or NOTHING for it in known) if known else None,
        tax_added=_sum(it.tax_added or NOTHING for it in known) if known else None,
    )


def _sold(sales: Sequence[KeptSale], cost: Mapping[str, int]) -> MoneyTotals:
    sums = [_sums(it.sale) for it in sales]
    return MoneyTotals(
        sales=len(sales),
        baits=sum(it.baits for it in sums),
        goods=_sum(it.goods for it in sums),
        delivery=_sum(it.delivery for it in sums),
        fees=_sum(it.fees for it in sums),
        cost=Money(sum(cost[f"sale/{it.id}"] for it in sales)),
    )


@functools.lru_cache(maxsize=KEPT)
def _sums(sale: Sale) -> MoneyTotals:
    """What a sale itself says."""
    delivery = Money.of(sale.delivery_money)
    return MoneyTotals(
        baits=sum(line.baits for line in sale.lines),
        goods=sale.received - delivery,
        delivery=delivery,
        fees=Money.of(sale.fees_money),
    )


_Taxes = Mapping[tuple[str, TaxWay], Fraction]


def _taxes(bench: Bench, sales: Iterable[KeptSale]) -> _Taxes | None:
    profile = tax_standing(bench)
    if profile is None or not profile.reckons:
        return None
    found: dict[tuple[str, TaxWay], Fraction] = defaultdict(Fraction)
    for kept in filter(counts, sales):
        for way, tax in taxes_of(kept.sale, profile):
            found[kept.sale.sold_on[:_MONTH], way] += tax
    return found


def _tax(taxes: _Taxes | None, month: str, way: TaxWay) -> Money | None:
    return None if taxes is None else Money.of(taxes[month, way])


def _first_after(month: str) -> str:
    """The first day of the next month."""
    return (dt.date.fromisoformat(f"{month}-28") + dt.timedelta(days=4)).replace(day=1).isoformat()


def _since(month: str, sales: Iterable[KeptSale]) -> str:
    """A time before which nothing moved that counts: sales may be written down before their day."""
    first = dt.datetime.fromisoformat(f"{month}-01T00:00:00+00:00") - _NEAR
    return min((first.strftime("%Y-%m-%dT%H:%M:%SZ"), *(it.at for it in sales)))


def _sum(amounts: Iterable[Money]) -> Money:
    return sum(amounts, NOTHING)
