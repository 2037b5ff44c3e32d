"""A pour day from its batches to cups, timetable, sheets and calendar."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

import icalendar
import pytest

from pour_day_bench import DARK_SHADS, SHADS, WORMS, kept, pour_day
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.pour_day_calendar import pour_day_calendar
from pourwright.actions.pour_day_cups import cups_of_day, draft_of
from pourwright.actions.pour_day_freeze import batches_in_order, freeze_pour_day
from pourwright.actions.pour_day_lay import (
    better_timetable,
    day_input,
    kept_day,
    laid,
    take_better,
)
from pourwright.base.errors import BadInput, Conflict
from pourwright.shop.pour_day import PourDay


def lay(world, day):
    with world.reading() as bench:
        return laid(bench, day)


def cups(world, day):
    with world.reading() as bench:
        return cups_of_day(bench, day).cups


def test_cups_are_those_of_each_batchs_own_plan(world):
    day = pour_day(WORMS, DARK_SHADS)
    with world.reading() as bench:
        plans = [plan_batch(bench, draft_of(day, b, 0)).plan for b in day.batches]
    found = cups(world, day)
    assert [c.shots for c in found] == [c.shots for plan in plans for c in plan.cups]
    heat = [plan.heat[0].minutes.typical * 60 for plan in plans]
    assert found[0].heat_s.typical == pytest.approx(heat[0])
    assert [c.name for c in found] == [f"Cup {i}" for i in range(1, len(found) + 1)]


def test_layers_of_a_look_are_heated_one_after_the_other_and_shot_together(world):
    day = pour_day(SHADS)
    with world.reading() as bench:
        plan = plan_batch(bench, draft_of(day, SHADS, 0)).plan
    (cup,) = cups(world, day)
    assert cup.cups == (1, 2)
    minutes = {n: h.minutes.typical for h in plan.heat for n in h.cups}
    assert cup.heat_s.typical == pytest.approx(60 * (minutes[1] + minutes[2]))
    assert cup.shots == plan.cups[0].shots
    assert len(cup.colors.split()) == 2


def test_times_of_your_own_replace_the_forecast(world):
    timed = dataclasses.replace(WORMS, heat_min=7, cool_min=4)
    first = cups(world, pour_day(timed, shot_s=45))[0]
    assert (first.heat_s.low, first.heat_s.high) == (420, 420)
    assert (first.cool_s.typical, first.shot_s.typical) == (240, 45)


def test_remelt_goes_only_into_the_batches_that_take_it(world):
    dark = dataclasses.replace(DARK_SHADS, takes_remelt=True)
    found = cups(world, pour_day(WORMS, dark, remelt="demo-remelt"))
    assert all(c.remelt_g == 0 for c in found if c.batch == 0)
    given = [c for c in found if c.batch == 1]
    assert all(0 < c.remelt_g <= 0.3 * c.plastic_g + 0.1 for c in given)


def test_a_mold_serves_no_more_shots_at_once_than_there_are_of_it(world):
    table = lay(world, pour_day(WORMS)).timetable
    assert table is not None
    cooling = [s for s in table.steps if s.doing == "cool"]
    for at in {s.start_s for s in cooling}:
        assert sum(s.molds for s in cooling if s.start_s <= at < s.end_s) <= 2
    assert sum(s.molds for s in cooling) == sum(c.shots for c in table.cups)


def test_the_settings_reach_the_timetable(world):
    day = pour_day(WORMS, hold_s=90, rewarm_s=45, clean_min=10, kits=2, microwaves=2, hands=2)
    with world.reading() as bench:
        asked = day_input(bench, day, cups_of_day(bench, day).cups)
    assert (asked.hold_s, asked.rewarm_s, asked.clean_s) == (90, 45, 600)
    assert (asked.kits, asked.microwaves, asked.hands) == (2, 2, 2)


def test_a_time_needed_by_counts_from_the_start(world):
    day = pour_day(dataclasses.replace(WORMS, needed_at="11:15"), begins="09:30")
    assert {c.due_min for c in cups(world, day)} == {105}


def test_a_batch_due_on_the_day_is_due_by_midnight_unless_a_time_is_given(world):
    due = dataclasses.replace(WORMS, due_on="2026-05-02")
    assert {c.due_min for c in cups(world, pour_day(due, begins="09:30"))} == {870}
    timed = dataclasses.replace(due, needed_at="11:15")
    assert {c.due_min for c in cups(world, pour_day(timed, begins="09:30"))} == {105}


def test_a_batch_due_after_the_pour_day_needs_no_time_of_day(world):
    day = pour_day(dataclasses.replace(WORMS, due_on="2026-05-03"))
    assert {c.due_min for c in cups(world, day)} == {None}


def test_a_batch_needed_on_no_day_of_the_calendar_is_refused():
    with pytest.raises(BadInput, match=r"due_on.*no day of the calendar"):
        dataclasses.replace(WORMS, due_on="2026-02-30")


def test_a_day_with_too_few_microwave_hours_says_so(world):
    table = lay(world, pour_day(WORMS, microwave_h=0.25)).timetable
    (words,) = [r.words for r in table.remarks if r.urgent]
    heated = sum(s.end_s - s.start_s for s in table.steps if s.doing in {"heat", "rewarm"})
    assert f"would run {round(heated / 3600, 2):g} h, and this day has 0.25 h" in words


def test_a_day_with_hours_enough_is_not_split(world):
    table = lay(world, pour_day(WORMS, microwave_h=4)).timetable
    assert not any(r.urgent for r in table.remarks)


@pytest.mark.parametrize(
    ("day", "field", "why"),
    [
        (pour_day(), "batches", "nothing is chosen"),
        (pour_day(WORMS, cup=""), "cup", "no pouring cup"),
        (pour_day(dataclasses.replace(WORMS, needed_at="08:00")), r"batches\[0\].needed_at",
         "not after 09:00"),
    ],
)  # fmt: skip
def test_a_day_that_cannot_be_is_refused_in_words(world, day, field, why):
    with pytest.raises(BadInput, match=f"{field}.*{why}"):
        lay(world, day)


def test_a_mold_that_is_gone_is_refused(world):
    with world.bench() as bench:
        mold = bench.records.get("mold", "demo-mold-worm")
        bench.records.retire("mold", mold.id, expected_version=mold.version)
        bench.commit()
    with pytest.raises(BadInput, match=r"batches\[0\].mold.*taken off the bench"):
        lay(world, pour_day(WORMS))


def test_a_day_that_no_calendar_has_is_refused():
    with pytest.raises(BadInput, match=r"day.*no day of the calendar"):
        pour_day(WORMS, day="2026-02-30")


def test_a_better_timetable_is_found_behind_and_kept(world):
    day = lay(world, pour_day(WORMS, SHADS, DARK_SHADS, kits=2))
    assert day.timetable is not None
    kept(world, "a-day", day)
    state = better_timetable(world, "a-day")
    while state.status == "running":
        state = world.jobs.state(state.key)
    assert state.status == "done"
    found = take_better(world, "a-day")
    assert found.points <= day.timetable.points
    with world.reading() as bench:
        again = kept_day(bench, "a-day").day
    assert again.timetable == found


def test_freezing_makes_a_sheet_of_each_batch_in_the_order_of_the_day(world):
    day = lay(world, pour_day(WORMS, SHADS))
    kept(world, "a-day", day)
    frozen = freeze_pour_day(world, "a-day", starts_at="2026-05-02T07:00:00Z")
    numbers = [b.sheet for b in frozen.batches]
    order = batches_in_order(day.timetable)
    assert sorted(numbers) == [numbers[i] for i in order]
    with world.reading() as bench:
        sheet = bench.sheets.get(numbers[0])
        assert kept_day(bench, "a-day").day == frozen
    assert sheet.draft["count"] == 24
    assert [c["shots"] for c in sheet.plan["cups"]] == [
        c.shots for c in day.timetable.cups if c.batch == 0
    ]
    with pytest.raises(Conflict, match="frozen, or taken off, before"):
        freeze_pour_day(world, "a-day", starts_at="2026-05-02T07:00:00Z")


def test_a_frozen_day_is_not_planned_anew_behind(world):
    kept(world, "a-day", lay(world, pour_day(WORMS)))
    freeze_pour_day(world, "a-day", starts_at="2026-05-02T07:00:00Z")
    with pytest.raises(Conflict, match="sheets are frozen"):
        better_timetable(world, "a-day")


def test_a_day_without_a_timetable_has_no_calendar():
    with pytest.raises(Conflict, match="no timetable yet"):
        pour_day_calendar("a-day", pour_day(WORMS))


def test_the_calendar_holds_every_step_that_needs_somebody(world):
    day: PourDay = lay(world, pour_day(WORMS, SHADS))
    assert day.timetable is not None
    entries = pour_day_calendar("a-day", day)
    made = world.printer.calendar("Pour day", entries, made_at="2026-05-01T10:00:00Z")
    # Read back by the library's parser, and by the bare rules of RFC 5545, sec. 3.1: lines end
    # in CRLF and have at most 75 octets.
    lines = made.split(b"\r\n")
    assert lines[0] == b"BEGIN:VCALENDAR"
    assert max(map(len, lines)) <= 75
    assert b"\n" not in b"".join(lines)
    events: list[Any] = icalendar.Calendar.from_ical(made).walk("VEVENT")
    wanted = [s for s in day.timetable.steps if s.doing != "cool"]
    assert len(events) == len(wanted)
    start = dt.datetime.fromisoformat("2026-05-02T09:00")
    times = sorted((e["DTSTART"].dt, e["DTEND"].dt) for e in events)
    assert times == sorted(
        (start + dt.timedelta(seconds=s.start_s), start + dt.timedelta(seconds=s.end_s))
        for s in wanted
    )
    assert times[0][0].tzinfo is None
    assert len({str(e["UID"]) for e in events}) == len(events)


def test_a_laid_day_says_what_stands_in_for_times_that_nobody_took(world):
    untimed = lay(world, pour_day(WORMS)).timetable
    timed = lay(world, pour_day(WORMS, shot_s=30, hold_s=180, rewarm_s=60, clean_min=6)).timetable
    stands_in = [r.words for r in untimed.remarks if "stands in" in r.words]
    names = [words.partition(" ")[0] for words in stands_in]
    assert names == ["shot_s", "hold_s", "rewarm_s", "clean_min"]
    assert timed.steps == untimed.steps
    assert not any("stands in" in r.words for r in timed.remarks)
