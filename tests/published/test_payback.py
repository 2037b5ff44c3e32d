"""Payback of a purchase against printed break-even and depreciation examples."""

from __future__ import annotations

from pourwright.base.band import exact
from pourwright.shop.payback import PaybackInput, payback
from pourwright.shop.price_breaks import PriceBreaksInput, price_breaks


def test_break_even_of_a_course():
    # Open course ACCTG 211, sec. 7.2, after OpenStax (read): fixed costs 20,000, price 400,
    # variable 250, contribution 150, 133.3 units.
    answer = payback(PaybackInput(fixed_money=20_000, price_money=400, cost_money=exact(250)))
    assert (answer.left_each_money.typical, answer.packs.typical) == (150, 134)
    assert answer.verdict == "Pays back after 134 packs."


def test_break_even_of_a_textbook():
    # OpenStax, Principles of Accounting 2 (2019), sec. 3.2 (from memory): 18,000 / (100 - 20).
    answer = payback(PaybackInput(fixed_money=18_000, price_money=100, cost_money=exact(20)))
    assert answer.packs.typical == 225


def test_straight_line_of_a_textbook():
    # OpenStax, Principles of Accounting 1 (2019), sec. 11.3 (from memory): 58,000 less 10,000
    # over 5 years is 9,600 a year; at 100 packs a month that is 8 a pack.
    answer = payback(
        PaybackInput(
            fixed_money=50_000, salvage_money=2_000, years=5, price_money=400,
            cost_money=exact(250), packs_per_month=exact(100),
        )
    )  # fmt: skip
    assert (answer.yearly_money, answer.yearly_each_money) == (9600, 8)


def test_contribution_margin_ratio_of_a_textbook():
    # The same sec. 3.2 (from memory): 100 - 20 leaves a contribution margin ratio of 80 %.
    answer = price_breaks(PriceBreaksInput(price_money=100, cost_money=exact(20), floor_margin=0.8))
    assert answer.rows[0].margin.typical == 0.8
    assert not answer.rows[0].below


def test_tax_inside_takes_its_share_before_the_margin():
    # 26 USC 4161(a)(1)(A), 4216(a) (read): of 110.00 asked, 10.00 is tax; 60 of the 100 left is
    # cost, so 40 is left of 110.
    answer = price_breaks(
        PriceBreaksInput(price_money=110, cost_money=exact(60), tax_rate=0.1, floor_margin=0)
    )
    assert answer.rows[0].left_each_money.typical == 40
