"""What a shot plan refuses, and what it says."""

from __future__ import annotations

import math

import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.fill.account import Bench, account, plastic_drawn, whole_shots
from pourwright.fill.shot import shot_plan

EASY = {"bait_ml": 9, "cavities": 4, "count": 24, "cup_ml": 473, "molds": 2}


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("count", 0),
        ("count", -3),
        ("count", 1.5),
        ("count", True),
        ("cavities", 0),
        ("cup_ml", math.nan),
        ("bait_ml", math.inf),
        ("reject_share", 0.95),
        ("molds", 0),
        ("spoons", 3),
    ],
)
def test_nonsense_is_refused_by_name(field, value):
    with pytest.raises(BadInput, match=f"^{field}: ") as caught:
        shot_plan.answer(EASY | {field: value})
    assert caught.value.field == field


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"bait_ml": None}, "bait_g: give the bait's weight or its volume"),
        ({"bait_g": 9.0}, "bait_ml: give the weight or the volume, not both"),
        ({"feed_g": 3, "feed_ml": 3}, "feed_ml: give the weight or the volume, not both"),
        ({"heel_ml": 60, "injector_ml": 60}, "heel_ml: must be less than the injector's 60 mL"),
        (
            {"cold_density_g_ml": 1.05, "hot_density_g_ml": 1.06},
            "hot_density_g_ml: must not exceed the cold 1.05 g/mL",
        ),
        (
            {"fill_share": 0.85, "cold_density_g_ml": 1.2, "hot_density_g_ml": 0.95},
            "fill_share: must stay under 0.79, or the hot plastic runs over the brim",
        ),
    ],
)
def test_values_that_do_not_go_together_are_refused(changed, words):
    with pytest.raises(BadInput, match=words):
        shot_plan.answer(EASY | changed)


def test_an_unmeasured_density_never_blocks_a_measured_one():
    # The typical hot density of plain plastic is beside the point for a light or a salted one.
    assert shot_plan.answer(EASY | {"cold_density_g_ml": 0.93})["shots"] == 8
    assert shot_plan.answer(EASY | {"cold_density_g_ml": 1.4, "fill_share": 0.8})["shots"] == 8


def test_a_shot_larger_than_the_load_says_by_how_much():
    # 4 x 10 + 5 = 45 g are 50 mL at 0.9 g/mL; 40 - 5 mL are there.
    known = {"bait_g": 10, "feed_g": 5, "hot_density_g_ml": 0.9, "heel_ml": 5, "injector_ml": 40}
    rest = {"cavities": 4, "count": 24, "cup_ml": 473}
    with pytest.raises(NoAnswer, match=r"needs 50\.0 mL hot .* gives 35\.0 mL: 15\.0 mL over"):
        shot_plan.answer(known | rest)


def test_a_shot_larger_than_the_cup_says_by_how_much():
    known = {"bait_g": 10, "feed_g": 5, "cold_density_g_ml": 1.0, "residue_g": 5, "injector_ml": 0}
    with pytest.raises(NoAnswer, match="needs 50 mL in the cup and 50% of its brim is 25 mL: 25"):
        shot_plan.answer(known | {"cavities": 4, "count": 24, "cup_ml": 50, "fill_share": 0.5})


def test_by_hand_there_is_no_load_and_no_heel():
    by_hand = shot_plan.answer(EASY | {"injector_ml": 0})
    assert (by_hand["loads"], by_hand["shots_per_load"], by_hand["heel_g"]) == (0, 1, 0)
    assert not any(note.startswith("heel_ml") for note in by_hand["notes"])
    assert shot_plan.answer(EASY)["heel_g"] > 0


def test_notes_name_only_the_defaults_that_were_used():
    weighed = shot_plan.answer(
        {"bait_g": 9, "feed_g": 3, "cavities": 4, "count": 24, "cup_ml": 473, "injector_ml": 0}
    )
    left_out = {n.split(" was left out")[0] for n in weighed["notes"] if "was left out" in n}
    assert left_out == {"reject_share", "residue_g", "cold_density_g_ml", "hot_density_g_ml"}


def test_remelt_beyond_its_share_is_said():
    done = shot_plan.answer(EASY | {"remelt_g": 500})
    assert done["remelt_g"] == pytest.approx(0.3 * done["plastic_g"]["typical"])
    assert any("of 500 g is used; its largest share is 30%" in n for n in done["notes"])
    assert not any("largest share" in n for n in shot_plan.answer(EASY)["notes"])


def test_a_tight_load_is_said():
    # Typical: 4 x 9 + 3.5 = 39.5 mL packed, 42.5 mL hot; three take 127.4 mL besides the heel of 6.
    tight = shot_plan.answer(EASY | {"molds": 3, "injector_ml": 134})
    assert tight["shots_per_load"] == 3
    assert any("3 in a row from one load is tight" in n for n in tight["notes"])
    roomy = shot_plan.answer(EASY | {"molds": 3, "injector_ml": 165})
    assert roomy["shots_per_load"] == 3
    assert not any("tight" in n for n in roomy["notes"])


def test_a_measured_reject_share_narrows_the_good_baits():
    guessed, counted = (shot_plan.answer(EASY | c)["good"] for c in ({}, {"reject_share": 0.08}))
    width = counted["high"] - counted["low"]
    assert 0 < width < guessed["high"] - guessed["low"]


def test_the_kernel_takes_draws():
    bench = Bench(
        bait_g=10, feed_g=5, cavities=4, molds=2, load_ml=100, heel_ml=5, cup_ml=500,
        fill_share=0.6, residue_g=10, cold_g_ml=1.0, hot_g_ml=0.9,
    )  # fmt: skip
    done = account(bench, count=40, reject_share=0, warmup_shots=1)
    drawn = plastic_drawn(
        done,
        shot_g=np.array([45.0, 50.0]),
        heel_g=np.array([4.5, 0.0]),
        residue_g=np.array([10.0, 20.0]),
    )
    assert drawn == pytest.approx([done.plastic_g, 11 * 50 + 2 * 20])
    assert whole_shots(np.array([89.9, 90.0, 134.0]), np.array([45.0])).tolist() == [1, 2, 2]
