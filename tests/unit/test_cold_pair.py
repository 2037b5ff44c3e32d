"""Readings that agree with each other on what cannot well be: no heat is built on them."""

from __future__ import annotations

import math

import pytest

from cup_talk import FIRST, SECOND, asked, heated, stirred_and_read
from pourwright.base.units import convert

PROBED = {"did": "read", "instrument": "probe"}


def test_a_slip_of_the_unit_that_agrees_with_itself_is_not_heated_on():
    cold = convert(170, "f", "c")
    twice = [*SECOND, heated(48), *stirred_and_read(cold), *stirred_and_read(cold)[1:]]
    told = asked(twice)
    assert (told["do"], told["on_s"]) == ("read again", 0)
    assert "by all that was learned" in told["question"]
    power = {k: math.exp(a["carry_over"]["mean"][0]) for k, a in
             {"slip": told, "before": asked(SECOND)}.items()}  # fmt: skip
    assert power["slip"] == pytest.approx(power["before"], rel=0.03)
    # Right readings settle it, and so does a probe; the cold ones are left out.
    right = stirred_and_read(167)[1:]
    for sure in ([*right, *right], [PROBED | {"read_c": 171}] * 2):
        settled = asked(twice, sure)
        assert settled["estimates"]["mean_c"]["typical"] == pytest.approx(171, abs=2)
        assert [r["doubted"] for r in settled["readings"]][-4:] == [True, True, False, False]


def test_a_cold_pair_is_heated_only_as_the_hotter_cup_allows():
    pair = [*FIRST, heated(185), *stirred_and_read(118), *stirred_and_read(118)[1:]]
    told, hotter = asked(pair), asked(SECOND)
    assert told["do"] == "heat"
    assert told["limited"]
    # The hotter cup is at some 153 °C and lacks 20 K: what was said for 152 °C, or less.
    assert 15 < told["on_s"] < 60
    assert told["ends_c"]["typical"] < 135 < hotter["estimates"]["mean_c"]["typical"]
    # Heated so, it may soon be there; a probe that agrees with the pair frees it.
    steps, next_one = pair, told
    for read_c in (128, 131, 134):
        steps = [*steps, heated(next_one["on_s"]), *stirred_and_read(read_c)]
        next_one = asked(steps)
        if next_one["do"] != "heat":
            break
        assert next_one["on_s"] < told["on_s"]
    assert next_one["do"] == "read again"
    probed = asked(pair[:-1], PROBED | {"read_c": 119})
    assert probed["on_s"] > 2 * told["on_s"]
    assert not probed["limited"] or probed["hottest_c"]["high"] > 180


def test_a_usual_cup_of_agreeing_readings_has_no_second_opinion():
    told = asked([*SECOND, *stirred_and_read(152)[1:]])
    assert told["question"] is None
    assert told["on_s"] > 30


def test_readings_far_apart_in_time_do_not_stand_by_each_other():
    # A cup that reads the same ten minutes later was not read rightly both times.
    hot = [*FIRST, heated(185), *stirred_and_read(180)]
    again = stirred_and_read(180)[1:]
    assert asked(hot, {"did": "rested", "for_s": 60}, again)["do"] != "read again"
    assert asked(hot, {"did": "rested", "for_s": 600}, again)["do"] == "read again"
