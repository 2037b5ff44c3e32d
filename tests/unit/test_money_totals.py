"""Totals of months against a plain recomputation, and what they hold by definition."""

from __future__ import annotations

import random
from collections import defaultdict
from decimal import ROUND_HALF_UP, Decimal

import pytest

from pourwright.actions.excise_quarter import excise_quarter
from pourwright.actions.money_totals import joined, money_months
from pourwright.actions.tax_standing import choose_country
from pourwright.shop.sale import Sale, TaxWay
from pourwright.shop.tax.quarter import Quarter
from pourwright.shop.tax_profile import TaxCountry
from ready_store import empty_bench
from sold_bench import bought, line, sold, stocked, taken_back, undone

YEAR = tuple(f"2026-{month:02}" for month in range(1, 13))
FIRST_COST = Decimal(5000)


def utc_day(at: str) -> str:
    return at[:10]


@pytest.fixture
def world(tmp_path):
    made = empty_bench(tmp_path)
    stocked(made)
    return made


def months(world, which=YEAR, day=utc_day):
    with world.reading() as bench:
        return {it.month: it.totals for it in money_months(bench, which, day)}


class Ledger:
    """A year at random, told to a bench and kept in plain decimals beside it."""

    def __init__(self, world, seed: int) -> None:
        self.world, self.random = world, random.Random(seed)  # noqa: S311  a made-up year
        self.sums: dict[tuple[str, str], Decimal] = defaultdict(Decimal)
        self.stock: dict[str, Decimal] = defaultdict(Decimal)
        self.tax: dict[str, Decimal] = defaultdict(Decimal)

    def amount(self, most: int) -> Decimal:
        return Decimal(self.random.randrange(0, most * 100)) / 100

    def day(self) -> str:
        return f"2026-{self.random.randrange(1, 13):02}-{self.random.randrange(1, 29):02}"

    def buy(self) -> None:
        day, cost = self.day(), self.amount(90)
        key = bought(self.world, at=f"{day}T12:00:00Z", cost=str(cost))
        self.sums[day[:7], "bought"] += cost
        self.stock[day] += cost
        if self.random.random() < 0.2:
            undone(self.world, key, at=f"{day}T13:00:00Z")
            self.sums[day[:7], "bought"] -= cost
            self.stock[day] -= cost

    def sell(self) -> None:
        day, written, inside = self.day(), self.day(), self.random.random() < 0.5
        way = self.random.choice(list(TaxWay))
        told = [(self.amount(20), self.random.randrange(1, 9), self.amount(3)) for _ in "ab"]
        goods = sum((price * packs for price, packs, _ in told), Decimal(0))
        delivery = min(self.amount(9), goods)
        fees, cost = self.amount(2), sum(it[2] for it in told)
        sale = Sale(
            sold_on=day, delivery_money=float(delivery), delivery_inside=inside,
            delivery_proof="receipt", fees_money=float(fees),
            lines=tuple(line(float(p), packs=n, tax_way=way) for p, n, _ in told),
        )  # fmt: skip
        key = sold(self.world, sale, at=f"{written}T12:00:00Z", costs=[str(c) for *_, c in told])
        self.stock[written] -= cost
        if self.random.random() < 0.15:
            taken_back(self.world, key, at=f"{day[:7]}-28T23:00:00Z")
            self.stock[f"{day[:7]}-28"] += cost
            return
        net = goods - delivery if inside else goods
        for name, value in (
            ("sales", Decimal(1)), ("baits", sum(n for _, n, _ in told)), ("goods", net),
            ("delivery", delivery), ("fees", fees), ("cost", cost),
        ):  # fmt: skip
            self.sums[day[:7], name] += value
        self.tax[day[:7]] += net / 11 if way is TaxWay.INSIDE else net / 10

    def stock_end(self, month: str) -> Decimal:
        return sum((v for day, v in self.stock.items() if day[:7] <= month), FIRST_COST)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_year_at_random_equals_a_plain_recomputation(world, seed):
    choose_country(world, TaxCountry.US)
    told = Ledger(world, seed)
    for _ in range(40):
        told.sell()
        if told.random.random() < 0.4:
            told.buy()
    for month, it in months(world).items():
        for name in ("goods", "delivery", "fees", "cost", "bought"):
            assert getattr(it, name).decimal() == told.sums[month, name], (month, name)
        assert (it.sales, it.baits) == (told.sums[month, "sales"], told.sums[month, "baits"])
        assert it.stock_end.decimal() == told.stock_end(month)
        assert abs(it.tax.decimal() - told.tax[month]) <= Decimal("0.0001")
    for number in (1, 2, 3, 4):
        quarter = Quarter(2026, number)
        with world.reading() as bench:
            sheet = excise_quarter(bench, quarter).answer
            together = joined(money_months(bench, quarter.months, utc_day))
        exact = sum((told.tax[month] for month in quarter.months), Decimal(0))
        assert sheet is not None
        assert together.tax is not None
        assert Decimal(str(sheet.tax_money)) == exact.quantize(Decimal("0.01"), ROUND_HALF_UP)
        for name in ("goods", "delivery", "fees", "cost", "bought"):
            wanted = sum(told.sums[month, name] for month in quarter.months)
            assert getattr(together, name).decimal() == wanted
        assert together.stock_end.decimal() == told.stock_end(quarter.months[-1])
        assert abs(together.tax.decimal() - exact) <= Decimal("0.0004")


def test_what_is_left_of_a_sale(world):
    choose_country(world, TaxCountry.US)
    sale = Sale(
        sold_on="2026-05-10", fees_money=3, delivery_money=6, delivery_proof="receipt",
        lines=(line(110), line(100, tax_way=TaxWay.ADDED)),
    )  # fmt: skip
    sold(world, sale, at="2026-05-10T12:00:00Z", costs=["40", "30"])
    it = months(world)["2026-05"]
    # 10.00 of the 110.00 is tax (26 USC 4161(a)(1)(A), 4216(a)); 10.00 come on top of the 100.00.
    assert (it.tax_inside.amount, it.tax_added.amount, it.tax.amount) == (10, 10, 20)
    assert it.left.amount == 210 - 3 - 70 - 10


def test_without_a_country_no_tax_is_reckoned_and_all_else_is(world):
    sale = Sale(sold_on="2026-05-10", lines=(line(110),))
    sold(world, sale, at="2026-05-10T12:00:00Z", costs=["40"])
    it = months(world)["2026-05"]
    assert it.tax is None
    assert it.left.amount == 70
    with world.reading() as bench:
        assert joined(money_months(bench, YEAR, utc_day)).tax is None


def test_a_bench_without_books_has_months_of_nothing(tmp_path):
    found = months(empty_bench(tmp_path))
    assert list(found) == list(YEAR)
    assert {it.goods.amount + it.stock_end.amount + it.bought.amount for it in found.values()} == {
        0
    }


def test_a_sale_written_down_before_its_day_keeps_its_cost(world):
    sale = Sale(sold_on="2026-05-10", lines=(line(10),))
    sold(world, sale, at="2026-02-01T12:00:00Z", costs=["4"])
    assert months(world, ("2026-05",))["2026-05"].cost.amount == 4


def test_purchases_fall_on_the_makers_own_day(world):
    bought(world, at="2026-05-01T03:00:00Z", cost="7")
    assert months(world)["2026-05"].bought.amount == 7
    west = months(world, day=lambda at: "2026-04-30" if at.startswith("2026-05-01") else at[:10])
    assert west["2026-04"].bought.amount == 7
    assert west["2026-04"].stock_end.amount == 5007


def test_a_purchase_taken_back_a_year_later_is_known(world):
    key = bought(world, at="2026-05-01T12:00:00Z", cost="7")
    undone(world, key, at="2027-05-01T12:00:00Z")
    assert months(world, ("2027-05",))["2027-05"].bought.amount == -7
