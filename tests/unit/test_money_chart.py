"""Where bars and lines of money stand."""

from __future__ import annotations

from typing import Any

import pytest

from pourwright.actions.money_totals import MoneyMonth, MoneyTotals
from pourwright.shop.money import Money
from pourwright.web.money_chart import sales_chart, stock_chart
from pourwright.web.money_view import month_rows, months_of, quarter_cards
from pourwright.web.show import Settings

EURO = Settings(currency="€")


def year(**amounts: dict[str, float]) -> tuple[MoneyMonth, ...]:
    """2026 with amounts by month's number, as in m05={"goods": 3}."""
    found = []
    for month in months_of(2026):
        told = amounts.get(f"m{month[-2:]}", {})
        sums: dict[str, Any] = {name: Money.of(value) for name, value in told.items()}
        found.append(MoneyMonth(month, MoneyTotals(sales=int(bool(told)), **sums)))
    return tuple(found)


def test_what_is_left_stands_on_the_line_and_a_loss_hangs_from_it():
    chart = sales_chart(year(m02={"goods": 100, "cost": 50}, m03={"goods": 20, "cost": 60}), EURO)
    gain, loss = chart.inner
    assert not gain.below
    assert gain.y + gain.tall == pytest.approx(chart.zero_y)
    assert loss.below
    assert loss.y == chart.zero_y
    assert loss.tall / gain.tall == pytest.approx(40 / 50, rel=0.02)
    sold = chart.outer[0]
    assert sold.tall / gain.tall == pytest.approx(100 / 50, rel=0.02)
    assert (sold.x, sold.wide) == (gain.x, gain.wide)
    assert chart.words == ("2026-02: sold €100.00, left €50.00. 2026-03: sold €20.00, left −€40.00")


def test_the_stock_is_drawn_only_for_months_that_have_begun():
    months = year(m01={"stock_end": 10}, m02={"stock_end": 30, "bought": 20})
    chart = stock_chart(months, 2, EURO)
    (first, second), (bought,) = chart.dots, chart.outer
    assert second[1] < first[1] < chart.zero_y
    assert chart.zero_y - second[1] == pytest.approx(3 * (chart.zero_y - first[1]), abs=0.2)
    assert bought.tall == pytest.approx(2 * (chart.zero_y - first[1]), abs=0.2)
    assert chart.words.count("stock at its end") == 2


def test_a_year_of_nothing_has_a_scale_and_no_bars():
    chart = sales_chart(year(), EURO)
    assert chart.outer == chart.inner == ()
    assert len(chart.lines) >= 2
    assert [words for _, words in chart.months][::11] == ["Jan", "Dec"]


def test_rows_and_quarters_begin_with_the_newest_and_leave_out_what_has_not_begun():
    months = year(m02={"goods": 4}, m05={"goods": 6}, m12={"goods": 1})
    rows = month_rows(months, "2026-05-20")
    assert [row.name for row in rows] == ["Dec", "May", "Apr", "Mar", "Feb", "Jan"]
    cards = quarter_cards(months, "2026-05-20")
    assert [(it.quarter.name, it.totals.goods.amount, it.runs) for it in cards] == [
        ("2026-Q4", 1, True), ("2026-Q2", 6, True), ("2026-Q1", 4, False)
    ]  # fmt: skip
