"""What holds for any quarter's sheet."""

from __future__ import annotations

import dataclasses
from decimal import ROUND_HALF_UP, Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.shop.sale import Exempt, TaxWay
from pourwright.shop.tax.excise import ExciseInput, excise
from pourwright.shop.tax.excise_line import ExciseLine

CENTS = st.integers(0, 50_000).map(lambda n: n / 100)


@st.composite
def lines(draw):
    inside = draw(st.booleans())
    quantity, price = draw(st.integers(1, 40)), draw(CENTS)
    most = quantity * price if inside else 50
    return ExciseLine(
        quantity=quantity, price_money=price, tax_way=draw(st.sampled_from(TaxWay)),
        base_share=draw(st.sampled_from([1, 0.75, 0.6])),
        delivery_money=draw(st.integers(0, int(most * 100)).map(lambda n: n / 100)),
        delivery_inside=inside, delivery_proof=draw(st.sampled_from(["", "receipt"])),
        exempt=draw(st.sampled_from(Exempt)), proof=draw(st.sampled_from(["", "bill"])),
    )  # fmt: skip


def sheet(found, registration="A1"):
    return excise(ExciseInput(
        year=2026, quarter=1, lines=tuple(found), registration=registration,
        base_adviser="invented", base_since="2026-01-01",
    ))  # fmt: skip


def by_hand(found, registration) -> Decimal:
    """The same by another road: decimals of 60 digits, the base found from the gross price."""
    with localcontext() as context:
        context.prec = 60
        total = Decimal(0)
        for it in found:
            if it.exempt is not Exempt.NO and it.proof and registration:
                continue
            price = Decimal(str(it.price_money)) * it.quantity
            delivery = Decimal(str(it.delivery_money))
            if it.delivery_proof and it.delivery_inside:
                price -= delivery
            if not it.delivery_proof and not it.delivery_inside:
                price += delivery
            percent = Decimal(str(it.base_share)) * 10
            whole = 100 + percent if it.tax_way is TaxWay.INSIDE else 100
            total += price * percent / whole
        return total.quantize(Decimal("0.01"), ROUND_HALF_UP)


@given(st.lists(lines(), max_size=8), st.sampled_from(["", "A1"]))
def test_decimals_by_another_road_agree(found, registration):
    assert Decimal(str(sheet(found, registration).tax_money)) == by_hand(found, registration)


@given(st.lists(lines(), max_size=6), st.randoms(use_true_random=False))
def test_the_order_of_lines_changes_nothing(found, random):
    mixed = list(found)
    random.shuffle(mixed)
    one, other = sheet(found), sheet(mixed)
    assert (one.tax_money, one.base_money, one.free_money) == (
        other.tax_money, other.base_money, other.free_money
    )  # fmt: skip


@given(lines())
def test_a_line_split_in_two_changes_nothing(drawn):
    it = dataclasses.replace(drawn, quantity=drawn.quantity + 1, delivery_money=0)
    first = dataclasses.replace(it, quantity=1)
    rest = dataclasses.replace(it, quantity=it.quantity - 1)
    assert sheet([it]).exact_money == sheet([first, rest]).exact_money
    assert sheet([it]).tax_money == sheet([first, rest]).tax_money


@given(lines().map(lambda it: dataclasses.replace(it, tax_way=TaxWay.ADDED, exempt=Exempt.NO)))
def test_a_tax_on_top_of_a_price_lies_inside_both(it):
    on_top = sheet([it])
    taxed = on_top.lines[0]
    gross = taxed.charged_money - taxed.excluded_money + taxed.tax_money
    inside = ExciseLine(
        quantity=1, price_money=gross, tax_way=TaxWay.INSIDE, base_share=it.base_share
    )
    assert sheet([inside]).exact_money == pytest.approx(on_top.exact_money, abs=1e-9)
    assert (on_top.inside_money, on_top.added_money) == (0, on_top.exact_money)


@given(lines(), CENTS)
def test_a_smaller_share_and_a_proof_never_raise_the_tax(it, more):
    whole = dataclasses.replace(it, base_share=1)
    assert sheet([it]).exact_money <= sheet([whole]).exact_money
    assert sheet([it], "A1").exact_money <= sheet([it], "").exact_money
    dearer = dataclasses.replace(it, price_money=it.price_money + more)
    assert sheet([it]).exact_money <= sheet([dearer]).exact_money


def test_cents_are_rounded_once_for_the_quarter():
    # 40 lines of 0.055 on top of 0.55 are 2.20; each rounded alone they would be 2.40.
    each = ExciseLine(quantity=1, price_money=0.55, tax_way=TaxWay.ADDED)
    assert sheet([each] * 40).tax_money == 2.2
