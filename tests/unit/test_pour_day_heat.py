"""What a pour day says of its heat, its lateness and its sums."""

from __future__ import annotations

import pytest

from pourwright.actions.pour_day_heat import day_heat
from pourwright.actions.pour_day_late import LateBatch, LateCup, late_batches, late_cups
from pourwright.actions.pour_day_sums import CupSums, cups_by_batch, sums_of
from pourwright.base.band import Band
from pourwright.shop.pour_day import PlannedCup, PlannedStep, PourBatch, PourDay, Timetable
from pourwright.web.pour_day_view import day_view

BAND = Band(60, 60, 60)
DAY = PourDay(
    name="Invented day", day="2026-05-09", batches=(PourBatch(mold="m", look="l", count=8),)
)


def cup(name: str, *numbers: int, due_min: int | None = None, batch: int = 0) -> PlannedCup:
    return PlannedCup(
        name=name, title=name, batch=batch, cups=numbers, shots=2, plastic_g=100, remelt_g=30,
        heat_s=BAND, cool_s=BAND, shot_s=BAND, shade=10, colors="#336633", due_min=due_min,
    )  # fmt: skip


def step(doing: str, of: str, start_s: int, end_s: int, wave: int = 1) -> PlannedStep:
    return PlannedStep(doing=doing, cup=of, wave=wave, start_s=start_s, end_s=end_s, kit=1, lane=1)


def table(cups, *steps: PlannedStep) -> Timetable:
    ends = max(s.end_s for s in steps)
    return Timetable(cups=tuple(cups), steps=steps, span_s=ends, late_s=0, clean_ups=0, points=0)


def heated(times: int) -> Timetable:
    again = (step("rewarm", "worm", 100 * n, 100 * n + 30, n) for n in range(2, times + 1))
    return table((cup("worm", 1),), step("heat", "worm", 0, 100), *again)


def test_each_layer_of_a_look_has_a_hot_cup_of_its_own():
    cups = (cup("shad", 1, 2), cup("worm", 1))
    after = (step("heat", "worm", 300, 400), step("pour", "worm", 400, 450))
    shad = (step("heat", "shad", 0, 100), step("pour", "shad", 100, 200))
    assert day_heat(table(cups, *shad, *after)).hot_at_once == 2
    beside = (step("heat", "worm", 100, 180), step("pour", "worm", 180, 220))
    assert day_heat(table(cups, *shad, *beside)).hot_at_once == 3


def test_the_heatings_of_the_cup_that_is_heated_most_are_counted():
    assert day_heat(heated(3)).heatings == 3


@pytest.mark.parametrize(("times", "ages"), [(3, False), (4, True)])
def test_a_word_is_due_where_usual_heats_use_more_than_half_the_budget(times, ages):
    """0.15 of the budget a heat by the bench's own estimate: 3 use 0.45, 4 use 0.6."""
    heat = day_heat(heated(times))
    assert heat.used_share.typical == pytest.approx(0.15 * times)
    assert heat.ages is ages
    assert day_view(DAY, heated(times), {}).ages.startswith("One cup is heated 4" if ages else "")
    assert bool(day_view(DAY, heated(times), {}).ages) is ages


def test_a_cup_is_late_by_its_last_mold():
    """Due 5 minutes after the start: open at 300 s is in time, at 301 s a second late."""
    due = (cup("worm", 1, due_min=5),)
    assert not list(late_cups(DAY, table(due, step("cool", "worm", 100, 300))))
    steps = (step("cool", "worm", 100, 200), step("cool", "worm", 100, 301))
    assert list(late_cups(DAY, table(due, *steps))) == [LateCup("worm", "worm", "", 301, 1)]


@pytest.mark.parametrize(("due_on", "days"), [("2026-05-09", 0), ("2026-04-30", 9)])
def test_a_batch_needed_on_a_day_before_is_late_by_days(due_on, days):
    day = PourDay(day="2026-05-09", batches=(PourBatch(mold="m", count=8, due_on=due_on),))
    found = list(late_batches(day, heated(1)))
    assert found == ([LateBatch("worm", due_on, days)] if days else [])


def test_cups_are_summed_by_batch():
    cups = (cup("shad", 1, 2), cup("worm", 1, batch=1), cup("shad", 3, 4))
    by_batch = cups_by_batch(table(cups, step("heat", "worm", 0, 1)))
    assert {place: sums_of(its) for place, its in by_batch.items()} == {
        0: CupSums(cups=4, shots=4, plastic_g=200, remelt_g=60),
        1: CupSums(cups=1, shots=2, plastic_g=100, remelt_g=30),
    }
    assert sums_of(cups).fresh_g == 210
