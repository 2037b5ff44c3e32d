"""What the page of a pour day says of its heat: hot cups at one time, heatings of a cup."""

from __future__ import annotations

from pourwright.base.band import Band
from pourwright.shop.pour_day import PlannedCup, PlannedStep, PourBatch, PourDay, Timetable
from pourwright.web.pour_day_view import day_view

BAND = Band(60, 60, 60)
DAY = PourDay(
    name="Invented day", day="2026-05-09", batches=(PourBatch(mold="m", look="l", count=8),)
)


def cup(name: str, *numbers: int) -> PlannedCup:
    return PlannedCup(
        name=name, title=name, batch=0, cups=numbers, shots=2, plastic_g=100, heat_s=BAND,
        cool_s=BAND, shot_s=BAND, shade=10, colors="#336633",
    )  # fmt: skip


def step(doing: str, of: str, start_s: int, end_s: int, wave: int = 1) -> PlannedStep:
    return PlannedStep(doing=doing, cup=of, wave=wave, start_s=start_s, end_s=end_s, kit=1, lane=1)


def view_of(cups, *steps: PlannedStep):
    ends = max(s.end_s for s in steps)
    table = Timetable(cups=tuple(cups), steps=steps, span_s=ends, late_s=0, clean_ups=0, points=0)
    return day_view(DAY, table, {})


def test_each_layer_of_a_look_has_a_hot_cup_of_its_own():
    cups = (cup("shad", 1, 2), cup("worm", 1))
    after = (step("heat", "worm", 300, 400), step("pour", "worm", 400, 450))
    shad = (step("heat", "shad", 0, 100), step("pour", "shad", 100, 200))
    assert view_of(cups, *shad, *after).hot_at_once == 2
    beside = (step("heat", "worm", 100, 180), step("pour", "worm", 180, 220))
    assert view_of(cups, *shad, *beside).hot_at_once == 3


def test_the_heatings_of_the_cup_that_is_heated_most_are_counted():
    steps = [step("heat", "worm", 0, 100)]
    for wave in (2, 3):
        begins = 100 * wave
        steps += [step("rewarm", "worm", begins, begins + 30, wave)]
    assert view_of((cup("worm", 1),), *steps).heatings == 3
