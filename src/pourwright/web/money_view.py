"""A year of money in words: months, quarters, and what each comes to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.actions.money_totals import MoneyMonth, MoneyTotals, joined
from pourwright.shop.tax.quarter import Quarter
from pourwright.web.money_chart import NAMES

_MONTHS = 12


@dataclass(frozen=True, slots=True)
class MonthRow:
    """A month of the table."""

    name: str
    totals: MoneyTotals


@dataclass(frozen=True, slots=True)
class QuarterCard:
    """A quarter with its sums; `runs` until it is over."""

    quarter: Quarter
    totals: MoneyTotals
    runs: bool


def months_of(year: int) -> tuple[str, ...]:
    """The months of a year, such as 2026-01."""
    return tuple(f"{year}-{month:02}" for month in range(1, _MONTHS + 1))


def begun(months: Sequence[MoneyMonth], today: str) -> tuple[MoneyMonth, ...]:
    """Those that have begun."""
    return tuple(it for it in months if it.month <= today)


def month_rows(months: Sequence[MoneyMonth], today: str) -> tuple[MonthRow, ...]:
    """Months that have begun or hold a sale, the newest first."""
    shown = [it for it in months if it.month <= today or it.totals.sales]
    return tuple(MonthRow(NAMES[int(it.month[-2:]) - 1], it.totals) for it in reversed(shown))


def quarter_cards(months: Sequence[MoneyMonth], today: str) -> tuple[QuarterCard, ...]:
    """The quarters that have begun or hold a sale, the newest first."""
    cards = []
    for first in range(0, len(months), 3):
        three = months[first : first + 3]
        totals = joined(three)
        quarter = Quarter.of(f"{three[0].month}-01")
        if quarter.first <= today or totals.sales:
            cards.append(QuarterCard(quarter, totals, quarter.last >= today))
    return tuple(reversed(cards))
