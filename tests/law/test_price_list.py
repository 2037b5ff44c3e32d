"""Laws of the price list: margins that add up, floors that hold, paybacks that grow."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.base.band import Band
from pourwright.base.errors import NoAnswer
from pourwright.shop.money import as_typed
from pourwright.shop.offer import PriceStep
from pourwright.shop.payback import PaybackInput, payback
from pourwright.shop.price_breaks import PriceBreaksInput, price_breaks

cents = st.integers(1, 4000).map(lambda c: c / 100)
costs = st.lists(cents, min_size=3, max_size=3).map(lambda v: Band(*sorted(v)))
shares = st.integers(0, 45).map(lambda percent: percent / 100)


@st.composite
def lists(draw) -> PriceBreaksInput:
    packs = sorted(draw(st.sets(st.integers(2, 60), max_size=4)))
    asked = sorted((draw(cents) for _ in range(len(packs) + 1)), reverse=True)
    return PriceBreaksInput(
        price_money=asked[0],
        breaks=tuple(
            PriceStep(from_packs=n, price_money=p) for n, p in zip(packs, asked[1:], strict=True)
        ),
        cost_money=draw(costs), fee_share=draw(shares), order_fee_money=draw(cents),
        tax_rate=draw(shares), tax_base_share=draw(shares), tax_added=draw(st.booleans()),
        floor_margin=draw(shares),
    )  # fmt: skip


def order(inputs: PriceBreaksInput, packs: int, price: Fraction, cost: float) -> Fraction:
    """What a whole order leaves, reckoned from the customer's money down."""
    taken = price * packs
    rate = as_typed(inputs.tax_rate) * as_typed(inputs.tax_base_share)
    net = taken if inputs.tax_added else taken / (1 + rate)
    fees = taken * as_typed(inputs.fee_share) + as_typed(inputs.order_fee_money)
    return net - fees - packs * as_typed(cost)


@given(lists())
def test_a_row_is_what_an_order_of_so_many_leaves(inputs):
    if inputs.kept <= as_typed(inputs.floor_margin):
        with pytest.raises(NoAnswer, match="no price keeps a floor"):
            price_breaks(inputs)
        return
    answer = price_breaks(inputs)
    floor, single = as_typed(inputs.floor_margin), as_typed(inputs.price_money)
    for row in answer.rows:
        price = as_typed(row.price_money)
        cost = inputs.cost_money
        left = order(inputs, row.from_packs, price, cost.typical)
        assert row.left_each_money.typical == pytest.approx(float(left / row.from_packs))
        assert row.margin.low == pytest.approx(
            float(order(inputs, row.from_packs, price, cost.high) / price / row.from_packs)
        )
        assert row.below == (left / (price * row.from_packs) < floor)
        if row.most_discount is None:
            assert order(inputs, row.from_packs, single, cost.typical) < (
                floor * single * row.from_packs
            )
            continue
        lowest = Fraction(round(float(single) * (1 - row.most_discount) * 100), 100)
        kept = order(inputs, row.from_packs, lowest, cost.typical)
        assert kept >= floor * lowest * row.from_packs
        cent_less = lowest - Fraction(1, 100)
        less = order(inputs, row.from_packs, cent_less, cost.typical)
        assert less < floor * cent_less * row.from_packs


@given(lists())
def test_the_first_below_is_named(inputs):
    if inputs.kept <= as_typed(inputs.floor_margin):
        return
    answer = price_breaks(inputs)
    below = [r.from_packs for r in answer.rows if r.below]
    if not below:
        assert answer.first_below.startswith("No price falls under")
    elif below[0] == 1:
        assert answer.first_below.startswith("Even a single pack")
    else:
        assert f"from {below[0]} packs" in answer.first_below


@given(cents, costs, st.integers(1, 5000), st.integers(1, 400))
def test_so_many_packs_pay_and_one_less_does_not(price, cost, fixed, sold):
    inputs = PaybackInput(
        fixed_money=fixed, price_money=price, cost_money=cost,
        packs_per_month=Band(sold / 2, sold, sold * 2),
    )  # fmt: skip
    each = as_typed(price) - as_typed(cost.typical)
    if each <= 0:
        with pytest.raises(NoAnswer, match="no quantity breaks even"):
            payback(inputs)
        return
    answer = payback(inputs)
    packs = int(answer.packs.typical)
    assert packs * each >= fixed > (packs - 1) * each
    assert answer.months is not None
    assert answer.months.typical == pytest.approx(packs / sold)
    for it in (answer.packs, answer.months):
        assert it.low <= it.typical
        assert it.high is None or it.typical <= it.high
    assert answer.packs.high is None or answer.packs.high <= max(
        packs, -(-fixed // max(as_typed(price) - as_typed(cost.high), Fraction(1, 10**6))) * 1.2
    )
