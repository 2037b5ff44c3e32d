"""The timetable of a pour day, story by story."""

from __future__ import annotations

from typing import Any

import pytest
from speed.pour_day import invented_day

from pour_day_cut import stopped
from pourwright.base.errors import BadInput
from pourwright.plan.day.day import DayAnswer, best_day, plan_day
from pourwright.plan.day.day_input import (
    BegunClean,
    BegunCup,
    BegunWave,
    DayCup,
    DayFill,
    DayInput,
    DayMold,
    Poured,
)
from pourwright.plan.day.day_step import StepSort
from pourwright.plan.day.split_days import SplitCup, SplitDay, SplitInput, split_days
from pourwright.plan.day.wave_split import ShotsLeft, microwave_s, waves_of
from pourwright.plan.day.words import gap_told, gap_words


def cup(name: str, **more) -> DayCup:
    given: dict[str, Any] = {
        "heat_s": 240,
        "fills": (DayFill(mold="stick", shots=2, pour_s=60),),
    } | more
    return DayCup(name=name, **given)


def day(*cups: DayCup, **more) -> DayInput:
    given: dict[str, Any] = {
        "molds": (DayMold(name="stick", count=2, cool_s=300),),
        "effort": 5,
    } | more
    return DayInput(cups=cups, **given)


def test_the_same_day_has_the_same_timetable_again():
    assert plan_day.answer(plan_day.example) == plan_day.answer(plan_day.example)


def test_a_first_timetable_comes_at_once_and_each_next_one_is_better():
    seen: list[DayAnswer] = []
    cups = [cup(f"cup {i}", heat_s=120 + 30 * i, shade=7 * i % 5) for i in range(6)]
    answer = best_day(day(*cups, kits=2), better=seen.append)
    points = [one.totals.objective for one in seen]
    assert points[0] == min(tried.totals.objective for tried in answer.rules)
    assert points == sorted(set(points), reverse=True)
    assert points[-1] == answer.totals.objective


def test_whoever_watches_can_stop_the_search():
    class StoppedError(Exception):
        pass

    seen: list[DayAnswer] = []

    def stop(answer):
        seen.append(answer)
        if len(seen) == 3:
            raise StoppedError

    with pytest.raises(StoppedError):
        best_day(invented_day(10, 2), better=stop)
    assert len(seen) == 3


def test_a_lighter_color_in_the_only_kit_costs_a_clean_up_by_hand():
    answer = best_day(day(cup("dark", shade=9, due_min=11), cup("pale", shade=1), late_weight=1000))
    clean = next(s for s in answer.steps if s.sort is StepSort.CLEAN)
    assert (clean.cup, clean.end_s - clean.start_s, clean.lane) == ("pale", 360, 1)
    assert answer.totals.clean_ups == 1


def test_running_steps_stay_and_a_hot_cup_is_poured_in_time():
    before = day(cup("a"), cup("b", shade=5), kits=2)
    planned = best_day(before)
    now = stopped(before, planned.steps, now_s=250)
    again = best_day(now)
    facts = [s for s in again.steps if s.begun]
    assert [(s.sort, s.start_s) for s in facts][:1] == [(StepSort.HEAT, 0)]
    assert all(s.start_s >= 250 for s in again.steps if not s.begun and s.sort != StepSort.COOL)
    assert again.totals.objective == planned.totals.objective


def test_a_cup_that_waited_too_long_is_rewarmed_and_said():
    wave = BegunWave(heat_start_s=0, heat_end_s=240)
    begun = (BegunCup(cup="a", kit=1, waves=(wave,)),)
    answer = best_day(day(cup("a"), begun=begun, now_s=900))
    sorts = [s.sort for s in answer.steps]
    assert sorts == [StepSort.HEAT, StepSort.REWARM, StepSort.POUR, StepSort.COOL]
    assert answer.notes[0].startswith("a has waited hot for too long")


def test_a_day_that_is_done_is_only_told():
    wave = BegunWave(
        heat_start_s=0, heat_end_s=240, pour_start_s=250, pour_end_s=400,
        poured=(Poured(mold="stick", shots=2),),
    )  # fmt: skip
    begun = (BegunCup(cup="a", kit=1, waves=(wave,)),)
    answer = best_day(day(cup("a", due_min=10), begun=begun, now_s=1000))
    assert (answer.totals.span_s, answer.totals.late_s, answer.proven) == (700, 100, True)


def test_a_clean_up_that_runs_keeps_its_kit_and_hand():
    cleaned = (BegunClean(kit=1, start_s=0, end_s=500),)
    answer = best_day(day(cup("a"), cleaned=cleaned, now_s=100))
    heat = next(s for s in answer.steps if s.sort is StepSort.HEAT)
    assert heat.start_s == 500


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("cups[1].name", {"cups": (cup("a"), cup("a"))}),
        ("molds[1].name", {"molds": (DayMold(name="stick", cool_s=0),) * 2}),
        ("cups[0].fills", {"cups": (cup("a", fills=()),)}),
        ("cups[0].fills[0].mold",
         {"cups": (cup("a", fills=(DayFill(mold="gone", pour_s=60),)),)}),
        ("cups[0].fills[0].pour_s", {"pour_most_s": 30}),
        ("begun[0].cup",
         {"begun": (BegunCup(cup="x", kit=1, waves=(BegunWave(heat_start_s=0, heat_end_s=1),)),)}),
        ("begun[0].kit",
         {"begun": (BegunCup(cup="a", kit=2, waves=(BegunWave(heat_start_s=0, heat_end_s=1),)),)}),
        ("begun[0].waves[0]",
         {"begun": (BegunCup(cup="a", kit=1, waves=(BegunWave(heat_start_s=9, heat_end_s=9),)),)}),
        ("cleaned[0].kit", {"cleaned": (BegunClean(kit=3, start_s=0, end_s=1),)}),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_by_name(field, change):
    with pytest.raises(BadInput) as refused:
        day(*change.pop("cups", (cup("a"),)), **change)
    assert refused.value.field == field


def test_more_at_once_than_there_are_microwaves_is_refused():
    wave = BegunWave(heat_start_s=0, heat_end_s=600)
    begun = tuple(BegunCup(cup=c, kit=k, waves=(wave,)) for c, k in (("a", 1), ("b", 2)))
    with pytest.raises(BadInput, match="2 are said to be busy at once") as refused:
        best_day(day(cup("a"), cup("b"), kits=2, begun=begun, now_s=100))
    assert refused.value.field == "microwaves"


def test_more_shots_than_the_cup_fills_are_refused():
    wave = BegunWave(
        heat_start_s=0, heat_end_s=1, pour_start_s=1, pour_end_s=2,
        poured=(Poured(mold="stick", shots=3),),
    )  # fmt: skip
    with pytest.raises(BadInput, match="more than the 2 the cup fills"):
        day(cup("a"), begun=(BegunCup(cup="a", kit=1, waves=(wave,)),), now_s=10)


def test_a_wave_fills_as_many_molds_as_there_are_and_pours_no_longer_than_allowed():
    fills = (ShotsLeft("stick", 3, 60), ShotsLeft("craw", 1, 60))
    counts = {"stick": 2, "craw": 1}
    waves = waves_of(fills, counts, None)
    assert [[(s.mold, s.shots) for s in w] for w in waves] == [
        [("stick", 2), ("craw", 1)], [("stick", 1)],
    ]  # fmt: skip
    assert [sum(s.shots for s in w) for w in waves_of(fills, counts, 60)] == [1, 1, 1, 1]
    many = cup("a", fills=(DayFill(mold="stick", shots=5, pour_s=60),))
    assert microwave_s(many, day(many)) == 240 + 2 * 60


def test_a_gap_is_told_only_where_it_means_something():
    assert gap_told(100, 90) == pytest.approx(0.1)
    assert gap_told(100, 85) is None
    assert gap_told(0, 0) == 0
    assert gap_words(0.1, proven=False) == "At most 10.0 % from the best possible."
    assert "cannot be said" in gap_words(None, proven=False)


FRIDAY, SATURDAY = (SplitDay(name=n, microwave_h=1) for n in ("Friday", "Saturday"))


def split(*cups: SplitCup, **more):
    return split_days(SplitInput(cups=cups, days=(FRIDAY, SATURDAY), **more))


def test_cups_due_sooner_come_first_and_the_others_move_with_a_reason():
    answer = split(
        SplitCup(name="any", microwave_s=2000),
        SplitCup(name="dark", microwave_s=1800, shade=90, due_day=1),
        SplitCup(name="pale", microwave_s=1800, shade=5, due_day=1),
    )
    assert [d.cups for d in answer.days] == [("pale", "dark"), ("any",)]
    assert [(d.used_s, d.left_s) for d in answer.days] == [(3600, 0), (2000, 1600)]
    assert [(p.day, p.late) for p in answer.places] == [(2, False), (1, False), (1, False)]
    assert "up to Friday no day had room" in answer.places[0].why


def test_late_cups_and_cups_without_room_are_said():
    answer = split(
        SplitCup(name="a", microwave_s=3600, due_day=1),
        SplitCup(name="b", microwave_s=3600, due_day=1),
        SplitCup(name="c", microwave_s=10),
        SplitCup(name="d", microwave_s=4000),
    )
    assert [(p.day, p.late) for p in answer.places] == [
        (1, False), (2, True), (None, True), (None, True),
    ]  # fmt: skip
    assert answer.places[1].why == "late: up to Friday no day had room left for it"
    assert answer.places[2].why == "every day is full: add a day or microwave hours"
    assert "the 1 microwave hours of the longest day" in answer.places[3].why
    assert answer.notes[:2] == ("No day has room for c, d.", "Late: b.")


def test_no_day_has_more_cups_than_allowed():
    cups = [SplitCup(name=str(i), microwave_s=1) for i in range(4)]
    assert [len(d.cups) for d in split(*cups, most_cups=3).days] == [3, 1]


def test_a_due_day_that_is_not_there_is_refused():
    with pytest.raises(BadInput, match="there are only 2 days"):
        split(SplitCup(name="a", microwave_s=1, due_day=3))


def test_a_larger_day_is_searched_in_rounds():
    found = best_day(invented_day(14, 2, effort=1))
    shares: list[float] = []
    again = best_day(invented_day(14, 2, effort=1), at=shares.append)
    assert found == again
    assert shares == sorted(shares)
    assert shares[-1] == 1
    assert found.totals.objective < 0.95 * min(t.totals.objective for t in found.rules)
    assert found.bound <= found.totals.objective


def test_a_cup_is_late_by_a_mold_that_it_filled_before_and_that_opens_last():
    """Its last pour opens at once, the first one's mold a quarter of a minute later."""
    cup = DayCup(
        name="two molds", heat_s=31, shade=0, due_min=0,
        fills=(DayFill(mold="stick", shots=1, pour_s=29), DayFill(mold="craw", shots=2, pour_s=29)),
    )  # fmt: skip
    molds = (DayMold(name="stick", count=1, cool_s=47), DayMold(name="craw", count=1, cool_s=0))
    day = DayInput(cups=(cup,), molds=molds, kits=1, hold_s=0, rewarm_s=0, clean_s=0, effort=0)
    whole = best_day(day)
    left = best_day(stopped(day, whole.steps, now_s=31))
    assert left.totals.late_s == whole.totals.late_s == 31 + 58 + 47
    assert left.totals.objective == whole.totals.objective
