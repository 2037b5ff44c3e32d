"""A pour day with too few microwave hours becomes several days."""

from __future__ import annotations

import dataclasses

import pytest

from pour_day_bench import DARK_SHADS, SHADS, WORMS, kept, pour_day
from pourwright.actions.pour_day_freeze import freeze_pour_day
from pourwright.actions.pour_day_lay import kept_day, laid
from pourwright.actions.pour_day_split import day_shares, split_pour_day
from pourwright.base.errors import Conflict, NoAnswer
from pourwright.shop.pour_day import PourDay

# Each of these needs between a half and the whole of a day of 0.3 h: 1080 s.
LONG_WORMS = dataclasses.replace(WORMS, count=4, heat_min=12)
LONG_SHADS = dataclasses.replace(SHADS, count=4, heat_min=12)
LONG_DARK = dataclasses.replace(DARK_SHADS, count=4, heat_min=12)


def long_day(world, *batches, **more):
    day = pour_day(*batches, **({"microwave_h": 0.3, "rewarm_s": 60} | more))
    with world.reading() as bench:
        made = laid(bench, day)
    kept(world, "long", made)
    return made


def shares(world, day):
    with world.reading() as bench:
        return day_shares(bench, day)


def days_of(world, ids):
    with world.reading() as bench:
        return [kept_day(bench, it).day for it in ids]


def heated_s(day):
    return sum(s.end_s - s.start_s for s in day.timetable.steps if s.doing in {"heat", "rewarm"})


def test_each_day_keeps_whole_batches_and_is_laid_out_by_itself(world):
    day = long_day(world, LONG_WORMS, LONG_SHADS, LONG_DARK)
    ids = split_pour_day(world, "long")
    made = days_of(world, ids)
    assert ids[0] == "long"
    assert [d.day for d in made] == ["2026-05-02", "2026-05-03", "2026-05-04"]
    assert sorted(b.look + b.mold for d in made for b in d.batches) == sorted(
        b.look + b.mold for b in day.batches
    )
    assert all(b.count == 4 for d in made for b in d.batches)
    for it in made:
        assert 0 < heated_s(it) <= 1080
        assert not any(r.urgent for r in it.timetable.remarks)
        assert not it.frozen
        assert (it.cup, it.microwave_h) == (day.cup, 0.3)


def test_what_is_due_sooner_is_poured_sooner(world):
    late, soon = (dataclasses.replace(LONG_WORMS, due_on=f"2026-05-{d}") for d in ("04", "02"))
    soon = dataclasses.replace(soon, mold=LONG_DARK.mold)
    day = long_day(world, late, LONG_SHADS, soon)
    assert [it.batches[0].due_on for it in shares(world, day)] == ["2026-05-02", "2026-05-04", ""]


def test_a_batch_poured_on_the_day_it_is_needed_is_not_late(world):
    first = dataclasses.replace(LONG_WORMS, due_on="2026-05-02")
    second = dataclasses.replace(LONG_DARK, due_on="2026-05-03")
    found = shares(world, long_day(world, first, second))[1]
    assert (found.day, found.batches[0].due_on) == ("2026-05-03", "2026-05-03")
    assert not any("late" in r for r in found.reasons)


def test_a_time_of_day_stays_with_its_own_day(world):
    timed = [dataclasses.replace(b, needed_at="12:00") for b in (LONG_WORMS, LONG_DARK)]
    first, second = shares(world, long_day(world, LONG_SHADS, *timed))[:2]
    assert (first.batches[0].needed_at, first.batches[0].due_on) == ("12:00", "")
    assert (second.batches[0].needed_at, second.batches[0].due_on) == ("", "2026-05-02")
    assert any("late: up to 2026-05-02" in r for r in second.reasons)


def test_a_batch_that_needs_more_than_a_day_is_torn_and_said_to_be(world):
    day = long_day(world, dataclasses.replace(WORMS, heat_min=14, why="A market"))
    found = shares(world, day)
    counts = [b.count for it in found for b in it.batches]
    assert len(found) > 1
    assert sum(counts) == 24
    assert all(it.used_s <= 1080 for it in found)
    assert found[0].batches[0].why == f"A market, part 1 of {len(found)}"
    assert f"is torn over {len(found)} days: its own cups need" in found[0].torn[0]
    made = days_of(world, split_pour_day(world, "long"))
    assert all(heated_s(it) <= 1080 for it in made)


def test_the_most_baits_that_fit_are_poured_on_each_day_of_a_torn_batch(world):
    day = long_day(world, dataclasses.replace(WORMS, heat_min=14))
    first = shares(world, day)[0].batches[0]
    more = dataclasses.replace(first, count=first.count + 1)
    with world.reading() as bench:
        assert heated_s(laid(bench, dataclasses.replace(day, batches=(more,)))) > 1080


def test_days_with_another_pour_day_are_passed_over(world):
    kept(world, "other", pour_day(WORMS, day="2026-05-03"))
    day = long_day(world, LONG_WORMS, LONG_SHADS)
    assert [it.day for it in shares(world, day)] == ["2026-05-02", "2026-05-04"]


def test_the_days_say_why_they_are_split(world):
    long_day(world, dataclasses.replace(LONG_WORMS, takes_remelt=True), LONG_SHADS,
             remelt="demo-remelt")  # fmt: skip
    _, second = days_of(world, split_pour_day(world, "long"))
    words = [r.words for r in second.timetable.remarks]
    assert "Split from the pour day of 2026-05-02 for want of microwave hours." in words
    assert any("up to 2026-05-02 no day had room" in w for w in words)
    assert any("whole remelt pot" in w for w in words)


def test_a_day_that_fits_is_not_split(world):
    day = long_day(world, LONG_WORMS, microwave_h=4)
    assert shares(world, day) == ()
    with pytest.raises(Conflict, match="nothing to split"):
        split_pour_day(world, "long")


def test_a_second_press_makes_no_more_days(world):
    long_day(world, LONG_WORMS, LONG_SHADS)
    split_pour_day(world, "long")
    with pytest.raises(Conflict, match="nothing to split"):
        split_pour_day(world, "long")
    with world.reading() as bench:
        assert len(bench.records.all(PourDay.key)) == 2


def test_a_frozen_day_is_not_split(world):
    long_day(world, LONG_WORMS, LONG_SHADS)
    freeze_pour_day(world, "long", starts_at="2026-05-02T07:00:00Z")
    with pytest.raises(Conflict, match="sheets are frozen"):
        split_pour_day(world, "long")


def test_a_cup_longer_than_any_day_and_too_few_days_are_said(world):
    with world.reading() as bench:
        one = laid(bench, pour_day(dataclasses.replace(WORMS, heat_min=30), microwave_h=0.3))
        many = [dataclasses.replace(LONG_WORMS, why=str(i)) for i in range(13)]
        lots = laid(bench, pour_day(*many, microwave_h=0.3, rewarm_s=60))
        with pytest.raises(NoAnswer, match=r"even a single bait.*0\.3 h of a day"):
            day_shares(bench, one)
        with pytest.raises(NoAnswer, match="12 days are too few"):
            day_shares(bench, lots)
