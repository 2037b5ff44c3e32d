"""Laws of money: exact sums, costs that add up, prices that keep their margin."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.band import Band
from pourwright.base.errors import NoAnswer
from pourwright.shop.cost import BatchCostInput, CostItem, batch_cost
from pourwright.shop.money import Money, as_typed, ceiled_cent
from pourwright.shop.price import PriceInput, price

lawful = settings(derandomize=True, deadline=None, max_examples=200)
few = settings(derandomize=True, deadline=None, max_examples=40)

whole = st.integers(-(10**12), 10**12)
amounts = st.decimals(-(10**6), 10**6, places=6)
shares = st.integers(0, 99).map(lambda percent: percent / 100)


@lawful
@given(st.lists(whole, max_size=30))
def test_sums_are_exact(parts):
    total = sum((Money(p) for p in parts), Money(0))
    assert Fraction(total.decimal()) == sum((Fraction(p, 10_000) for p in parts), Fraction(0))
    assert total - total == Money(0)


@lawful
@given(amounts)
def test_rounding_is_to_the_nearest_and_knows_no_sign(amount):
    money = Money.of(amount)
    assert abs(money.decimal() - amount) <= Decimal("0.00005")
    assert Money.of(-amount) == -money
    assert abs(money.cents() - money.decimal()) <= Decimal("0.005")
    assert Money.of(str(money.decimal())) == money


@lawful
@given(whole, st.integers(1, 1000))
def test_shares_miss_by_less_than_half_a_part_each(parts, pieces):
    money = Money(parts)
    assert 2 * abs(money.shared(pieces).ten_thousandths * pieces - parts) <= pieces
    assert money * Fraction(1, pieces) == money.shared(pieces)


@lawful
@given(st.fractions(0, 1000))
def test_the_next_cent_is_the_least_that_suffices(amount):
    cents = as_typed(ceiled_cent(amount)) * 100
    assert cents.denominator == 1
    assert amount * 100 <= cents < amount * 100 + 1


def bands(most):
    return st.lists(st.floats(0, most), min_size=3, max_size=3).map(lambda v: Band(*sorted(v)))


@few
@given(
    st.lists(st.tuples(bands(3000), bands(80)), max_size=5),
    bands(3), bands(200), bands(500), st.integers(0, 400), st.integers(0, 60),
    st.integers(1, 400), st.floats(0, 1),
)  # fmt: skip
def test_kinds_add_up_to_the_total(materials, kwh, mold, minutes, shots, bags, good, credit):
    answer = batch_cost(
        BatchCostInput(
            items=tuple(
                CostItem(name=f"material {i}", used_g=used, price_per_kg_money=each)
                for i, (used, each) in enumerate(materials)
            ),
            power_kwh=kwh, price_per_kwh_money=Band(0.12, 0.18, 0.32), shots=shots,
            mold_price_money=mold, labor_min=minutes, labor_per_h_money=17.35,
            packing_pieces=bags, packing_each_money=Band(0.031, 0.047, 0.09), eyes=2 * good,
            eyes_each_money=Band(0.011, 0.013, 0.02), overhead_money=1.2345,
            remelt_out_g=minutes, remelt_price_per_kg_money=Band(9.99, 11.11, 14),
            remelt_credit_share=credit, good=Band(good, good, good),
        )
    )  # fmt: skip
    exact = sum((Money.of(k.amount_money.typical) for k in answer.kinds), Money(0))
    assert exact.amount == answer.total_money.typical
    for kind in answer.kinds:
        parts = as_typed(kind.amount_money.typical) * 10_000
        assert parts.denominator == 1
    assert answer.each_money.typical == pytest.approx(answer.total_money.typical / good)
    by_item = sum(i.amount_money.typical for i in answer.items)
    assert by_item == pytest.approx(answer.kinds[0].amount_money.typical, abs=5.1e-5)


@lawful
@given(
    st.integers(0, 10**6), shares, shares, st.integers(0, 500), st.integers(0, 50), shares,
    st.booleans(),
)  # fmt: skip
def test_a_price_keeps_its_margin_and_a_cent_less_does_not(
    cost, margin, fees, fixed, tax, base, added
):
    inputs = PriceInput(
        cost_money=cost / 100, margin=margin, fee_share=fees, fee_fixed_money=fixed / 100,
        tax_rate=tax / 100, tax_base_share=base, tax_added=added,
    )  # fmt: skip
    taxed = Fraction(tax, 100) * as_typed(base)
    inside = Fraction(0) if added else taxed / (1 + taxed)
    taken = as_typed(margin) + as_typed(fees) + inside
    if taken >= 1:
        with pytest.raises(NoAnswer, match="no price works"):
            price(inputs)
        return
    answer = price(inputs)
    asked = as_typed(answer.price_money.typical)
    assert asked * (1 - taken) >= Fraction(cost + fixed, 100)
    assert (asked - Fraction(1, 100)) * (1 - taken) < Fraction(cost + fixed, 100)
    spent = answer.fees_money + answer.left_money + cost / 100
    assert spent + (0 if added else answer.tax_money) == pytest.approx(float(asked), rel=1e-12)
    assert answer.margin_left >= margin - 1e-12 or asked == 0


@lawful
@given(st.floats(0, 1000), st.floats(0, 1000), shares)
def test_a_dearer_bait_never_sells_for_less(one, other, margin):
    low, high = sorted((one, other))
    cheap = price(PriceInput(cost_money=low, margin=margin))
    dear = price(PriceInput(cost_money=high, margin=margin))
    assert cheap.price_money.typical <= dear.price_money.typical
    both = price(PriceInput(cost_money=Band(low, low, high), margin=margin))
    assert (both.price_money.low, both.price_money.high) == (
        cheap.price_money.typical,
        dear.price_money.typical,
    )
