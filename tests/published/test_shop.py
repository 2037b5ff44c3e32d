"""Costs, prices and codes against printed examples."""

from __future__ import annotations

import pytest

from pourwright.base.band import exact
from pourwright.shop.check_scheme import check_character
from pourwright.shop.cost import break_even_units, straight_line
from pourwright.shop.price import PriceInput, price


def test_straight_line_depreciation():
    # OpenStax, Principles of Accounting 1 (2019), sec. 11.3: 58,000 less 10,000 over 5 years
    # (from memory, recomputed).
    assert straight_line(58_000, 10_000, 5) == 9600


def test_break_even_units():
    # OpenStax, Principles of Accounting 2 (2019), sec. 3.2 (from memory, recomputed).
    assert break_even_units(18_000, 100, 20) == 225


def test_break_even_takes_the_next_whole_unit():
    # Open course ACCTG 211, sec. 7.2, after OpenStax: 400 - 250 contributes 150 a unit, and
    # 20,000 / 150 = 133.3 (read).
    assert break_even_units(20_000, 400, 250) == 134


@pytest.mark.parametrize(
    ("body", "check"),
    [
        # ISO/IEC 7064:2003 MOD 37,36. The second is the printed example of the Global Release
        # Identifier standard; the others come from a vendor's paper on ISO 7064 (read).
        ("123AB", "X"),
        ("A12425GABC1234002", "M"),
        ("DADPIDA3897722461", "J"),
    ],
)
def test_check_characters(body, check):
    assert check_character(body) == check


def test_tax_inside_the_price():
    # 26 USC 4161(a)(1)(A), 4216(a) (read): 10 % of the price without the tax itself; of 110.00
    # asked, 10.00 is tax.
    answer = price(PriceInput(cost_money=exact(100), margin=0, tax_rate=0.1))
    assert answer.price_money.typical == 110.00
    assert answer.tax_money == 10.00
    assert answer.left_money == 0


def test_tax_on_three_quarters_of_the_price_added_on_top():
    # Rev. Rul. 80-273, 1980-2 C.B. 315 (read): a base of 75 % of the selling price; at the
    # 10 % of 26 USC 4161 that is 7.50 on 100.
    answer = price(
        PriceInput(
            cost_money=exact(100), margin=0, tax_rate=0.1, tax_base_share=0.75, tax_added=True
        )
    )
    assert answer.price_money.typical == 100.00
    assert answer.tax_money == 7.50
