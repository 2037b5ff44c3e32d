"""A frozen pour day against what is tapped at the bench."""

from __future__ import annotations

import dataclasses

import pytest

from pour_day_bench import DARK_SHADS, WORMS, kept, pour_day
from pour_told import Teller
from pourwright.actions.pour_day_follow import follow_pour_day, pour_day_now
from pourwright.actions.pour_day_freeze import freeze_pour_day
from pourwright.actions.pour_day_lay import laid
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after
from pourwright.bench.cup_story import POURED
from pourwright.web.pour_day_view import running_view

STARTS = "2026-11-26T14:00:00Z"


@pytest.fixture
def day(world):
    """Three cups: two of worms, one of shads; heating takes nine minutes, cooling five."""
    timed = [dataclasses.replace(b, heat_min=9, cool_min=5) for b in (WORMS, DARK_SHADS)]
    with world.reading() as bench:
        made = laid(bench, pour_day(*timed, kits=2))
    kept(world, "a-day", made)
    return freeze_pour_day(world, "a-day", starts_at=STARTS)


def follow(world, minutes):
    with world.reading() as bench:
        return follow_pour_day(bench, "a-day", now=after(STARTS, 60 * minutes))


def teller(world, clock, day, batch, minutes):
    """Tells of a batch's sheet, so many minutes after the start."""
    clock.at = after(STARTS, 60 * minutes)
    with world.reading() as bench:
        return Teller(world, bench.sheets.get(day.batches[batch].sheet))


def first_heat(day):
    return min((s for s in day.timetable.steps if s.doing == "heat"), key=lambda s: s.start_s)


def batch_of(day, cup):
    return next(c.batch for c in day.timetable.cups if c.name == cup)


def test_before_it_begins_the_first_cup_is_next(world, day):
    found = follow(world, -30)
    assert found.next == first_heat(day)
    assert (found.slipped_s, found.moved) == (0, ())


@pytest.mark.usefixtures("day")
def test_a_day_nobody_begins_slips_minute_by_minute(world):
    found = follow(world, 20)
    assert (found.slipped_s, found.early_s) == (20 * 60, 0)
    assert not running_view(found, {}).early
    words = [r.words for r in found.table.remarks]
    assert len(set(words)) == len(words)
    assert found.next is not None
    assert found.next.start_s >= 20 * 60
    assert {m.now_s - m.planned_s for m in found.moved} == {20 * 60}


def test_a_cup_begun_on_time_moves_nothing(world, clock, day):
    cup = first_heat(day).cup
    teller(world, clock, day, batch_of(day, cup), 0).tell(0, kind.BEGUN, cup=1, for_s=60)
    found = follow(world, 2)
    assert found.slipped_s == 0
    assert found.moved == ()
    assert next(s for s in found.table.steps if s.cup == cup and s.doing == "heat").begun
    assert found.next is not None
    assert found.next.start_s >= 2 * 60


def test_a_cup_begun_before_the_start_counts_from_it_and_says_so(world, clock, day):
    cup = first_heat(day).cup
    teller(world, clock, day, batch_of(day, cup), -12).tell(0, kind.BEGUN, cup=1, for_s=60)
    found = follow(world, 5)
    assert found.early_s == 12 * 60
    assert running_view(found, {}).early.startswith("Begun 12 min before the start")
    begun = [s for s in found.table.steps if s.begun and s.cup == cup]
    assert [s.start_s for s in begun if s.doing == "heat"] == [0]
    assert follow(world, -5).early_s == 12 * 60


def test_a_cup_begun_late_moves_the_rest(world, clock, day):
    cup = first_heat(day).cup
    teller(world, clock, day, batch_of(day, cup), 12).tell(0, kind.BEGUN, cup=1, for_s=60)
    found = follow(world, 13)
    assert found.slipped_s == 12 * 60
    heat = next(s for s in found.table.steps if s.cup == cup and s.doing == "heat")
    assert (heat.start_s, heat.end_s) == (12 * 60, 21 * 60)


def test_molds_filled_and_opened_are_facts(world, clock, day):
    worms = 0
    tell = teller(world, clock, day, worms, 12)
    tell.tell(720, kind.BEGUN, cup=1, for_s=60)
    tell.tell(180, kind.HOT, cup=1)
    tell.fill(120, 1)
    tell.fill(60, 2)
    found = follow(world, 13)
    name = next(c.name for c in day.timetable.cups if c.batch == worms)
    shots = next(c.shots for c in day.timetable.cups if c.name == name)
    cooling = [s for s in found.table.steps if s.cup == name and s.doing == "cool"]
    assert [s.molds for s in cooling if s.begun] == [2]
    assert sum(s.molds for s in cooling) == shots
    again = next(s for s in found.table.steps if s.cup == name and s.doing == "rewarm")
    assert not again.begun
    # Filled at eleven minutes, five more in the mold.
    pours = [s for s in found.table.steps if s.cup == name and s.doing == "pour" and not s.begun]
    assert pours[0].start_s >= 16 * 60


def test_a_mold_opened_early_is_free_again(world, clock, day):
    tell = teller(world, clock, day, 0, 15)
    tell.tell(900, kind.BEGUN, cup=1, for_s=60)
    tell.tell(360, kind.HOT, cup=1)
    tell.fill(300, 1)
    tell.fill(240, 2)
    tell.tell(100, kind.OPENED, mold=1)
    tell.tell(60, kind.OPENED, mold=2)
    found = follow(world, 15)
    assert found.lost == ""
    name = next(c.name for c in day.timetable.cups if c.batch == 0)
    shots = next(c.shots for c in day.timetable.cups if c.name == name)
    cooling = [s for s in found.table.steps if s.cup == name and s.doing == "cool"]
    assert sum(s.molds for s in cooling) == shots - 2


def test_a_cup_that_is_over_is_planned_no_more(world, clock, day):
    sheets = {c.batch for c in day.timetable.cups}
    for batch in sheets:
        tell = teller(world, clock, day, batch, 60)
        for cup in (c for c in day.timetable.cups if c.batch == batch):
            tell.tell(60, POURED, cup=cup.cups[0])
    found = follow(world, 61)
    assert found.over
    with world.reading() as bench:
        assert pour_day_now(bench, after(STARTS, 3660)) is None


@pytest.mark.usefixtures("day")
def test_the_day_that_runs_is_found(world):
    with world.reading() as bench:
        found = pour_day_now(bench, after(STARTS, 60))
        assert found is not None
        assert found.id == "a-day"
        assert pour_day_now(bench, after(STARTS, 3 * 86400)) is None


def test_taps_that_no_timetable_fits_are_said(world, clock, day):
    for batch in (0, 1):
        teller(world, clock, day, batch, 1).tell(0, kind.BEGUN, cup=1, for_s=60)
    found = follow(world, 2)
    assert found.lost
    assert found.table == day.timetable
