"""The next burst at the edges: small cups, hot cups, hours of rest, numbers that are none."""

from __future__ import annotations

import math

import pytest

from cup_talk import FIRST, SECOND, asked, heated, stirred_and_read
from pourwright.base.errors import BadInput
from pourwright.heat.next_input import target_under_c


@pytest.mark.parametrize("grams", [20, 50, 100, 250])
@pytest.mark.parametrize("start_c", [150, 157, 163])
def test_even_the_shortest_burst_keeps_the_limit(grams, start_c):
    # A small cup in a strong oven rises by tens of kelvins in the shortest burst.
    told = asked(plastic_g=grams, label_w=2200, start_c=start_c, flash_point_c=None)
    assert told["hottest_c"]["high"] <= 180
    assert (told["on_s"] > 0) == (told["do"] == "heat")
    if told["do"] == "stop":
        assert "No further burst" in told["advice"][0]


def test_a_cup_too_hot_by_the_clock_alone_is_stopped():
    told = asked(FIRST, heated(420))
    assert told["do"] == "stop"
    assert "Too hot" in told["advice"][0]
    assert asked(FIRST, heated(185))["do"] == "stir and read"


def test_a_hot_first_reading_is_not_called_there():
    told = asked(FIRST, heated(245), stirred_and_read(186))
    assert told["do"] == "read once more"
    assert "do not heat" in told["advice"][0]
    assert "it is there" not in told["advice"][0]


def test_two_that_agree_on_far_too_much_give_a_sane_fit():
    told = asked(heated(75), stirred_and_read(260), stirred_and_read(260)[1:])
    assert told["do"] == "stop"
    assert told["estimates"]["mean_c"]["typical"] == pytest.approx(262, abs=6)


def test_a_limit_that_lets_nothing_fuse_is_told():
    assert any("no bait comes of it" in line for line in asked(flash_point_c=140)["advice"])
    assert not any("no bait" in line for line in asked(flash_point_c=180)["advice"])


def test_hot_remelt_counts_as_fused():
    def fused(*added):
        return asked(SECOND, *added)["estimates"]["fused"]

    before = fused()
    hot, raw = (fused({"did": "added", "mass_g": 200, "added_c": c}) for c in (150, 40))
    share = 200 / 698
    assert raw == pytest.approx(before * (1 - share), rel=0.02)
    assert hot == pytest.approx(before * (1 - share) + share, rel=0.02)


def test_a_rewarmed_cup_was_cooked_before():
    assert asked(start_c=172)["do"] == "pour"
    assert asked(start_c=150)["estimates"]["fused"] == 1
    assert asked(start_c=60)["estimates"]["fused"] == 0


def test_added_plastic_stays_within_what_is_heated_at_once():
    with pytest.raises(BadInput, match="at most 3000 g"):
        asked({"did": "added", "mass_g": 2600})


@pytest.mark.parametrize("cup", [{"cup_g": 20, "cup_diameter_mm": 30}, {"cup_g": 3000}])
def test_a_thin_or_thick_glass_does_not_upset_the_sums(cup):
    told = asked(heated(400), plastic_g=3000, **cup)
    mean = told["estimates"]["mean_c"]
    assert 30 < mean["low"] <= mean["typical"] <= mean["high"] < 110


def test_hours_of_rest_end_in_the_room():
    told = asked(SECOND, {"did": "rested", "for_s": 7200}, {"did": "rested", "for_s": 7200})
    assert told["estimates"]["mean_c"]["typical"] == pytest.approx(24, abs=3)
    assert told["estimates"]["mean_c"]["typical"] > 22


def test_numbers_that_are_none_are_refused_by_name():
    for step, field in (
        (heated(float("nan")), "for_s"),
        (stirred_and_read(float("inf")), "read_c"),
    ):
        with pytest.raises(BadInput, match="finite") as refused:
            asked(step)
        assert refused.value.field.endswith(field)


def test_a_reading_some_way_off_is_doubted_once_others_follow():
    wild = [*FIRST, heated(185), *stirred_and_read(140), *stirred_and_read(152)[1:],
            *stirred_and_read(152)[1:]]  # fmt: skip
    told = asked(wild)
    assert [r["read_c"] for r in told["readings"] if r["doubted"]] == [140]


def test_a_reading_over_the_limit_stops_even_where_a_bias_explains_it():
    told = asked(SECOND, heated(85), stirred_and_read(206), thermometer_bias_k=12)
    assert told["estimates"]["mean_c"]["typical"] < 200
    assert told["do"] == "stop"


def test_what_is_expected_lies_on_the_side_of_the_fit():
    wild = asked(FIRST, heated(185), stirred_and_read(118), {"did": "stirred"})["readings"][-1]
    band = wild["expected_c"]
    assert 118 < band["low"] < band["typical"] < band["high"]
    assert band["typical"] == pytest.approx(152, abs=8)


def test_the_power_told_is_the_one_believed():
    told = asked(SECOND)
    believed = math.exp(told["carry_over"]["mean"][0])
    assert told["estimates"]["power_w"]["typical"] == pytest.approx(believed, rel=0.02)


def test_an_unread_start_is_known_less_well():
    width = [band["high"] - band["low"] for band in
             (asked(start_c=c)["estimates"]["mean_c"] for c in (None, 22))]  # fmt: skip
    assert width[0] > 2 * width[1]


def test_a_target_keeps_ten_kelvins_under_the_limit():
    assert target_under_c(168, 180) == 168
    assert target_under_c(170, 180) == 170
    assert target_under_c(171, 180) == 163
    assert target_under_c(172, 200) == 172


def test_words_go_with_the_state():
    assert "still be liquid" in " ".join(asked()["advice"])
    assert "jelly" in " ".join(asked(FIRST, label_w=500, limit_c=150)["advice"])
    assert "clear and runny" in " ".join(asked(SECOND, stirred_and_read(153)[1:])["advice"])
    there = asked(SECOND, heated(48), stirred_and_read(169.5), thermometer_bias_k=-2.5)
    assert "it is there" in there["advice"][0]
    assert "little is known" in asked(heated(75), stirred_and_read(66))["advice"][0]
