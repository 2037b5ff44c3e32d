"""Laws of the timetable of a pour day."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pour_day_cut import stopped
from pourwright.plan.day.bound import least_points
from pourwright.plan.day.day import best_day
from pourwright.plan.day.day_input import DayCup, DayFill, DayInput, DayMold
from pourwright.plan.day.day_step import DayStep, DayTotals, StepSort
from pourwright.plan.day.greedy import Rule, greedy
from pourwright.plan.day.left_to_plan import left_to_plan
from pourwright.plan.day.load import points
from pourwright.plan.day.multistart import shaken
from pourwright.plan.day.tighten import tightened
from pourwright.plan.day.timetable import timetable
from pourwright.plan.day.verify import broken_rules

MOLDS = ("stick", "craw")


@st.composite
def days(draw: st.DrawFn, most_cups: int = 7) -> DayInput:
    whole = st.integers
    molds = tuple(
        DayMold(name=name, count=draw(whole(1, 3)), cool_s=draw(whole(0, 9)) * 47) for name in MOLDS
    )
    cups = tuple(
        DayCup(
            name=f"cup {i}", heat_s=draw(whole(1, 9)) * 31, shade=draw(whole(0, 4)),
            due_min=draw(st.none() | whole(0, 40)),
            fills=tuple(
                DayFill(mold=name, shots=draw(whole(1, 4)), pour_s=draw(whole(1, 3)) * 29)
                for name in draw(st.sampled_from([MOLDS, MOLDS[:1], MOLDS[1:]]))
            ),
        )
        for i in range(draw(whole(1, most_cups)))
    )  # fmt: skip
    return DayInput(
        cups=cups, molds=molds,
        microwaves=draw(whole(1, 2)), hands=draw(whole(1, 2)), kits=draw(whole(1, 3)),
        hold_s=draw(whole(0, 5)) * 60, rewarm_s=draw(whole(0, 2)) * 30,
        clean_s=draw(whole(0, 6)) * 60, pour_most_s=draw(st.none() | st.just(90)),
        effort=0,
    )  # fmt: skip


def kept(inputs: DayInput) -> None:
    """Every rule's timetable, and the best of the shaken ones, keeps every rule of the day."""
    left = left_to_plan(inputs)
    plans = {rule: greedy(left.load, rule) for rule in Rule}
    for plan in (*plans.values(), shaken(left.load, plans[Rule.BALANCE], starts=4, seed=1)):
        steps = timetable(inputs, left, plan)
        assert not [b for b in broken_rules(inputs, steps, NO_TOTALS) if b != SUMS]
        assert points(left.load, tightened(left.load, plan)) <= points(left.load, plan)
        assert points(left.load, plan) >= least_points(left.load)


NO_TOTALS = DayTotals(-1, -1, -1, -1.0)
SUMS = "span, lateness, clean-ups or points are not those of the steps"


@given(days())
@settings(max_examples=80)
def test_the_timetable_of_any_rule_keeps_every_rule_of_the_day(inputs):
    kept(inputs)
    answer = best_day(inputs)
    assert answer.verified
    assert answer.bound <= answer.totals.objective
    assert answer.totals.objective == min(tried.totals.objective for tried in answer.rules)


@given(days(), st.integers(0, 3000), st.sampled_from([0, 47, 600]))
@settings(max_examples=30)
def test_what_is_left_of_a_day_that_slips_can_be_planned_from_any_moment(inputs, now_s, slip_s):
    slipped = stopped(inputs, best_day(inputs).steps, now_s, slip_s)
    kept(slipped)
    assert best_day(slipped).verified


@given(days(most_cups=4))
@settings(max_examples=12)
def test_the_search_is_never_worse_than_a_rule_nor_better_than_the_bound(inputs):
    rules = best_day(inputs)
    found = best_day(dataclasses.replace(inputs, effort=2))
    assert found.totals.objective <= rules.totals.objective
    assert rules.bound <= found.bound <= found.totals.objective


@given(days(most_cups=3))
@settings(max_examples=10)
def test_one_more_of_anything_never_makes_the_best_worse(inputs):
    best = best_day(dataclasses.replace(inputs, effort=5))
    assert best.proven
    for more in ("microwaves", "hands", "kits"):
        one_more: dict[str, Any] = {more: getattr(inputs, more) + 1}
        richer = dataclasses.replace(inputs, effort=5, **one_more)
        assert best_day(richer).totals.objective <= best.totals.objective


@given(days(most_cups=3), st.integers(0, 1500))
@settings(max_examples=10)
def test_a_day_that_goes_as_planned_stays_the_best(inputs, now_s):
    """What is left of the best plan is open to the new one; what has begun cannot be bettered."""
    best = best_day(dataclasses.replace(inputs, effort=5))
    assert best.proven
    again = best_day(stopped(dataclasses.replace(inputs, effort=5), best.steps, now_s))
    assert again.totals.objective == best.totals.objective


DAY = DayInput(
    cups=(
        DayCup(name="pale", heat_s=240, shade=1,
               fills=(DayFill(mold="stick", shots=3, pour_s=60),)),
        DayCup(name="dark", heat_s=300, shade=9, due_min=12,
               fills=(DayFill(mold="stick", shots=2, pour_s=60),)),
        DayCup(name="mid", heat_s=180, shade=5, due_min=8,
               fills=(DayFill(mold="craw", shots=1, pour_s=60),)),
    ),
    molds=(DayMold(name="stick", count=2, cool_s=300), DayMold(name="craw", cool_s=120)),
    kits=2, effort=0, pour_most_s=120, late_weight=1000,
)  # fmt: skip
PLANNED = best_day(DAY)
HEATS = (StepSort.HEAT, StepSort.REWARM)


def first(sort: StepSort, cup: str) -> DayStep:
    return next(s for s in PLANNED.steps if s.sort is sort and s.cup == cup)


def with_step(old: DayStep, **changes: object) -> tuple[DayStep, ...]:
    new = dataclasses.replace(old, **changes)  # type: ignore[arg-type]
    return tuple(new if s == old else s for s in PLANNED.steps)


def moved(
    cup: str, by_s: int, sorts: tuple[StepSort, ...] = tuple(StepSort)
) -> tuple[DayStep, ...]:
    return tuple(
        dataclasses.replace(s, start_s=s.start_s + by_s, end_s=s.end_s + by_s)
        if s.cup == cup and s.sort in sorts else s
        for s in PLANNED.steps
    )  # fmt: skip


def told(steps: tuple[DayStep, ...], inputs: DayInput = DAY) -> str:
    return "; ".join(broken_rules(inputs, steps, PLANNED.totals))


def test_the_sound_timetable_breaks_nothing_and_cleans_once():
    assert told(PLANNED.steps) == ""
    assert PLANNED.totals.clean_ups == 1


@pytest.mark.parametrize("sort", list(StepSort))
def test_a_step_left_out_is_seen(sort):
    for step in (s for s in PLANNED.steps if s.sort is sort):
        assert told(tuple(s for s in PLANNED.steps if s != step)) != ""


@pytest.mark.parametrize(
    ("broken", "words"),
    [
        (moved("pale", -36_000), "begins before now"),
        (moved("mid", 36_000, (StepSort.POUR, StepSort.COOL)), "waits hot"),
        (moved("mid", -400, (StepSort.POUR, StepSort.COOL)), "before the step before it has ended"),
        (moved("mid", 36_000, (StepSort.COOL,)), "does not cool 120 s after its pour"),
        (with_step(first(StepSort.HEAT, "mid"), lane=2), "by microwave 2 of 1"),
        (with_step(first(StepSort.POUR, "mid"), lane=0), "by person 0 of 1"),
        (with_step(first(StepSort.HEAT, "mid"), end_s=first(StepSort.HEAT, "mid").end_s - 1),
         "does not take 180 s"),
        (with_step(first(StepSort.REWARM, "pale"), sort=StepSort.HEAT), "heating 2"),
        (with_step(first(StepSort.POUR, "dark"), end_s=first(StepSort.POUR, "dark").end_s - 1),
         "pour 1 does not take 120 s"),
        (with_step(first(StepSort.POUR, "dark"), wave=2), "has not been heated"),
        (with_step(first(StepSort.COOL, "dark"), molds=1), "instead of"),
        (with_step(first(StepSort.COOL, "dark"), mold="craw"), "does not cool"),
        (with_step(first(StepSort.HEAT, "mid"), kit=3), "kit 3 of 2"),
        (with_step(first(StepSort.POUR, "pale"), kit=3), "changes its kit"),
        (with_step(first(StepSort.HEAT, "mid"), cup="blue"), "is not among the cups"),
        (with_step(first(StepSort.HEAT, "mid"), begun=True), "as it was told"),
    ],
)  # fmt: skip
def test_each_broken_rule_is_named(broken, words):
    assert words in told(broken)


def test_two_cups_at_once_are_seen_in_every_place():
    start = {s.cup: s.start_s for s in reversed(PLANNED.steps) if s.sort is StepSort.HEAT}
    together = moved("dark", start["pale"] - start["dark"])
    words = told(together, DAY)
    assert "microwave 1 has heat" in words
    assert "person 1 has" in words or "of stick are full at once" in words
    alone = told(together, dataclasses.replace(DAY, microwaves=8, hands=8, kits=3))
    assert "microwave 1 has heat" in alone


def test_molds_and_kits_filled_twice_are_seen():
    fewer = (dataclasses.replace(DAY.molds[0], count=1), DAY.molds[1])
    assert "2 of stick are full at once; there are 1" in told(
        PLANNED.steps, dataclasses.replace(DAY, molds=fewer)
    )
    one_kit = tuple(dataclasses.replace(s, kit=1) for s in PLANNED.steps)
    assert "before it is free" in told(one_kit) or "is not cleaned before" in told(one_kit)


def test_a_darker_color_before_a_lighter_one_without_a_clean_up_is_seen():
    order = sorted(s.cup for s in PLANNED.steps if s.sort is StepSort.CLEAN)
    bare = tuple(s for s in PLANNED.steps if s.sort is not StepSort.CLEAN)
    assert f"is not cleaned before the lighter {order[0]}" in told(bare)
    assert "clean-up" in told(PLANNED.steps, dataclasses.replace(DAY, clean_s=300))


@pytest.mark.parametrize("field", ["span_s", "late_s", "clean_ups", "objective"])
def test_sums_that_are_not_those_of_the_steps_are_seen(field):
    wrong = dataclasses.replace(PLANNED.totals, **{field: getattr(PLANNED.totals, field) + 1})
    assert broken_rules(DAY, PLANNED.steps, wrong) == (SUMS,)


def test_a_longer_pour_than_one_heating_allows_is_seen():
    assert "longer than one heating" in told(
        PLANNED.steps, dataclasses.replace(DAY, pour_most_s=60)
    )
