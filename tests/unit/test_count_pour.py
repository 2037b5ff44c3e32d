"""What came out of a guided pour, from its taps."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

import example_sheet
from pour_moves import setup_of
from pourwright.actions.count_pour import counted_entry
from pourwright.actions.told_pour import ToldPour
from pourwright.base.errors import BadInput
from pourwright.bench.fold_pour import pour_of
from pourwright.bench.pour import MoldUse
from pourwright.bench.tap_body import CameOut, KeptBack

BEGAN, AT = "2026-03-07T10:00:00Z", "2026-03-07T11:35:30Z"
SETUP = setup_of({"body": (9,)}, molds=2)


def told(shots: int = 0, /, **more: Any) -> ToldPour:
    """A pour of so many shots in molds of four cavities."""
    uses = tuple(MoldUse(f"u{n}", 1 + n % 2, BEGAN, AT) for n in range(shots))
    pour = dataclasses.replace(pour_of(SETUP, []), uses=uses, began_at=BEGAN, **more)
    return ToldPour(example_sheet.sheet(), SETUP, pour, (), (), 0, None)


def test_counts_stand_where_they_belong_and_trimmed_ones_are_good():
    tally = {name: n for n, name in enumerate(CameOut, 1)}
    entry = counted_entry(told(12, tally=tally), AT)
    assert (entry.good, entry.trimmed) == (3, 2)
    reject = (entry.flash, entry.short, entry.dent, entry.bubble, entry.torn, entry.other)
    assert reject == (3, 4, 5, 6, 7, 8)
    assert entry.warmup == 9


def test_nothing_counted_is_nothing_good():
    entry = counted_entry(told(), AT)
    assert (entry.shots, entry.good, entry.rejected) == (0, 0, 0)


@pytest.mark.parametrize(("baits", "shots"), [(16, 4), (17, 5), (20, 5), (9, 4)])
def test_more_baits_than_the_tapped_shots_can_have_made_mean_a_shot_was_not_tapped(baits, shots):
    assert counted_entry(told(4, tally={"good": baits}), AT).shots == shots


def test_minutes_leave_out_those_it_was_put_away():
    assert counted_entry(told(), AT).minutes == 95.5
    assert counted_entry(told(away_s=3600.0), AT).minutes == 35.5


def test_minutes_that_no_pour_can_have_taken_are_left_out():
    assert counted_entry(told(away_s=9e5), AT).minutes is None
    assert counted_entry(told(), "2026-03-17T10:00:00Z").minutes is None


def test_weights_are_those_that_were_weighed():
    back = KeptBack(remelt_g=64.0, sprue_g=None)
    entry = counted_entry(told(1, tally={"good": 4}, five_g=45.5, back=back), AT)
    assert (entry.five_g, entry.remelt_g, entry.sprue_g) == (45.5, 64.0, None)


def test_five_are_not_weighed_where_none_is_good():
    assert counted_entry(told(1, tally={"torn": 4}, five_g=45.5), AT).five_g is None


def test_a_count_beyond_all_measure_is_refused_by_name():
    with pytest.raises(BadInput, match="shots: must lie between 0 and 20000"):
        counted_entry(told(1, tally={"good": 60_000, "trimmed": 60_000}), AT)


def test_warm_up_shots_are_neither_good_nor_rejected():
    tally = {"good": 20, "trimmed": 3, "flash": 2, "torn": 1, "warmup": 4}
    pour = told(8, tally=tally).pour
    assert (pour.baits, pour.good, pour.rejected) == (30, 23, 3)
