"""Timetables against printed results of scheduling theory.

A day whose hold, molds and kits do not bind is a textbook problem: one microwave and one person
are a flow shop of two machines; many people leave microwaves alone.
"""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.plan.day.day import best_day
from pourwright.plan.day.day_input import DayCup, DayFill, DayInput, DayMold

MINUTE = 60


def day(heats, pours, *, hold_s=3600, due=None, **more) -> DayInput:
    cups = tuple(
        DayCup(
            name=f"cup {i}", heat_s=heat * MINUTE, due_min=due[i] if due else None,
            fills=(DayFill(mold="mold", shots=1, pour_s=pour * MINUTE),),
        )
        for i, (heat, pour) in enumerate(zip(heats, pours, strict=True))
    )  # fmt: skip
    return DayInput(
        cups=cups, molds=(DayMold(name="mold", count=50, cool_s=0),), kits=20,
        hold_s=hold_s, effort=10, **more,
    )  # fmt: skip


def johnson(heats, pours) -> int:
    """Span of two machines in Johnson's order."""
    order = sorted(
        range(len(heats)),
        key=lambda i: (0, heats[i]) if heats[i] < pours[i] else (1, -pours[i]),
    )
    first = second = 0
    for i in order:
        first += heats[i]
        second = max(first, second) + pours[i]
    return second


def test_johnsons_two_machines():
    """Johnson (1954), Optimal two- and three-stage production schedules with setup times
    included, Naval Research Logistics Quarterly 1: five items, 47 (from memory; his rule agrees).
    """
    heats, pours = (4, 4, 30, 6, 2), (5, 1, 4, 30, 3)
    answer = best_day(day(heats, pours))
    assert johnson(heats, pours) == 47
    assert answer.proven
    assert answer.totals.span_s == 47 * MINUTE


@given(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), min_size=1, max_size=6))
@settings(max_examples=15)
def test_any_two_machine_flow_shop_is_as_good_as_johnsons_rule(pairs):
    """Johnson (1954), theorem 1."""
    heats, pours = zip(*pairs, strict=True)
    answer = best_day(day(heats, pours))
    assert answer.proven
    assert answer.totals.span_s == johnson(heats, pours) * MINUTE


def test_grahams_five_jobs_on_two_machines():
    """Graham (1969), Bounds on multiprocessing timing anomalies, SIAM Journal on Applied
    Mathematics 17: 3, 3, 2, 2, 2 on two machines take 6, where the longest first take 7. The
    shortest pour, a minute, comes on top.
    """
    answer = best_day(day((3, 3, 2, 2, 2), (1, 1, 1, 1, 1), microwaves=2, hands=5))
    assert answer.proven
    assert answer.totals.span_s == (6 + 1) * MINUTE


def test_least_lateness_over_every_order_without_waiting():
    """No hold at all is a flow shop without waiting: Wismer (1972), Solution of the flowshop
    scheduling problem with no intermediate queues, Operations Research 20, equation of delays.
    Every order is tried by that equation.
    """
    heats, pours, due = (3, 5, 2, 4), (4, 2, 6, 1), (9, 12, 11, 8)

    def late(order) -> int:
        start, total, before = 0, 0, None
        for i in order:
            if before is not None:
                start += max(heats[before], heats[before] + pours[before] - heats[i])
            total += max(0, start + heats[i] + pours[i] - due[i])
            before = i
        return total

    least = min(late(order) for order in itertools.permutations(range(4)))
    answer = best_day(day(heats, pours, hold_s=0, due=due, span_weight=0))
    assert answer.proven
    assert answer.totals.late_s == least * MINUTE


def test_least_span_without_waiting_is_longer_than_with():
    """By the same equation of Wismer (1972); Johnson (1954) for the span with waiting."""
    heats, pours = (5, 4, 2, 6), (1, 1, 1, 9)

    def span(order) -> int:
        start = 0
        for before, i in itertools.pairwise(order):
            start += max(heats[before], heats[before] + pours[before] - heats[i])
        return start + heats[order[-1]] + pours[order[-1]]

    least = min(span(order) for order in itertools.permutations(range(4)))
    assert least > johnson(heats, pours)
    answer = best_day(day(heats, pours, hold_s=0))
    assert answer.proven
    assert answer.totals.span_s == least * MINUTE


@pytest.mark.parametrize(("count", "span_min"), [(4, 18), (2, 28), (1, 48)])
def test_molds_that_cool_hold_a_cup_up(count, span_min):
    """Arithmetic: four minutes to heat; then as often as there are waves, a minute a shot and ten
    to cool, while the cup is rewarmed.
    """
    one = DayCup(name="one", heat_s=4 * MINUTE, fills=(DayFill(mold="m", shots=4, pour_s=MINUTE),))
    molds = (DayMold(name="m", count=count, cool_s=10 * MINUTE),)
    answer = best_day(DayInput(cups=(one,), molds=molds, effort=5))
    assert answer.totals.span_s == span_min * MINUTE
    assert answer.proven
