"""Stories of a thermometer and its check: what it finds, doubts, refuses and tells."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from iapws import IAPWS95

from fake_bench import FakeClock
from pourwright import wire
from pourwright.actions.check_thermometer import checked, keep_check
from pourwright.actions.keep_record import add_record
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.base.record import from_json
from pourwright.heat.gun_pairs import Pair, excess_of
from pourwright.heat.thermometer_check import thermometer_check
from pourwright.heat.thermometer_input import ThermometerInput
from pourwright.shop.tool import Thermometer, ThermometerKind

SEA: dict[str, Any] = {"altitude_m": 0}
POT: dict[str, Any] = SEA | {"boiling_c": [101.5, 102.5]}


def pairs(*both: tuple[float, float]) -> dict[str, Any]:
    return {"pairs": [{"probe_c": p, "infrared_c": i} for p, i in both]}


HOT = pairs((170, 164), (174, 168), (178, 172))


def told(answer: dict[str, Any], words: str) -> bool:
    return any(words in line for line in (*answer["advice"], *answer["notes"]))


def test_example_is_answered():
    answer = thermometer_check.answer(thermometer_check.example)
    assert set(thermometer_check.schema()["output"]["properties"]) == set(answer)
    assert answer["notes"]


def test_a_probe_in_boiling_water():
    # At the sea water boils at 99.97 °C (see the published checks): the mean reads 2.03 K high.
    answer = thermometer_check.answer(POT)
    assert answer["boiling_c"]["typical"] == pytest.approx(99.974, abs=1e-3)
    # Weather of 2 kPa either way is 0.55 K at 27.6 K for each 100 kPa (steam tables).
    assert answer["boiling_c"]["high"] - 99.974 == pytest.approx(0.55, abs=0.1)
    assert answer["bias_k"] == answer["probe_bias_k"]
    assert answer["bias_k"]["typical"] == pytest.approx(2.026, abs=1e-3)
    assert 0.4 < answer["bias_spread_k"] < 0.8
    assert answer["infrared_bias_k"] is None
    assert told(answer, "reads 2.0 K / 3.6 °F high")
    assert told(answer, "worth more than any at the boiling point")


def test_a_gun_against_a_checked_probe():
    # The probe reads 2.03 K high and the gun 6 K under it: 3.97 K low.
    answer = thermometer_check.answer(POT | HOT)
    assert answer["bias_k"] == answer["infrared_bias_k"]
    assert answer["bias_k"]["typical"] == pytest.approx(-3.974, abs=1e-3)
    assert told(answer, "reads 4.0 K / 7.2 °F low")


def test_an_unchecked_probe_is_named_and_widens_the_band():
    alone, both = (thermometer_check.answer(d) for d in (HOT, POT | HOT))
    assert alone["bias_k"]["typical"] == pytest.approx(-6)
    assert alone["boiling_c"] is None
    assert alone["bias_spread_k"] > both["bias_spread_k"] + 0.05
    assert told(alone, "The probe is itself unchecked")
    assert not told(both, "The probe is itself unchecked")


def test_what_the_check_is_worth():
    # Unchecked: 1.645 x the root of 1.8² (gun), 1.67² (skin) and 1.3² K (noise).
    answer = thermometer_check.answer(POT | HOT)
    before = answer["unchecked_final_c"]["high"] - 175
    after = answer["checked_final_c"]["high"] - 175
    assert before == pytest.approx(1.645 * 2.780, abs=0.01)
    assert 1.645 * 1.3 < after < 0.85 * before


def test_a_probe_is_held_to_its_own_spread():
    answer = thermometer_check.answer(POT)
    assert answer["unchecked_final_c"]["high"] - 175 == pytest.approx(
        1.645 * (1.0 + 0.8**2) ** 0.5, abs=0.01
    )


def test_a_pressure_read_narrows_the_boiling_point():
    # Library: `iapws`, the saturation line of IAPWS-95.
    boils = IAPWS95(P=0.095, x=0).T - 273.15
    by_air = thermometer_check.answer({"boiling_c": [98.2], "pressure_hpa": 950})["boiling_c"]
    assert by_air["typical"] == pytest.approx(boils, abs=0.01)
    assert by_air["high"] - by_air["low"] < 0.12


def test_more_readings_narrow_the_bias():
    one = thermometer_check.answer(SEA | {"boiling_c": [101]})
    many = thermometer_check.answer(SEA | {"boiling_c": [101] * 8})
    assert many["bias_spread_k"] < 0.8 * one["bias_spread_k"]
    assert told(one, "read the boiling water five times")


def test_what_the_spread_is_made_of():
    # On paper, 90 % bands over 1.645: weather 0.55, tip and stem 0.5, scale 0.75 % of 75 K, and
    # 0.8 over the root of 20 readings: the root of their squares is 0.577 K.
    water = SEA | {"boiling_c": [100.0] * 20}
    assert thermometer_check.answer(water)["bias_spread_k"] == pytest.approx(0.577, rel=0.05)
    # Twenty pairs at 175 °C add 0.8 for the surface, and noise of 1.53 K over the root of 20.
    both = thermometer_check.answer(water | pairs(*[(175, 172)] * 20))
    assert both["bias_spread_k"] == pytest.approx(0.829, rel=0.05)


def test_an_odd_pair_is_left_out_with_its_reason():
    answer = thermometer_check.answer(POT | pairs((170, 164), (174, 168), (176, 184), (178, 172)))
    (odd,) = answer["odd_pairs"]
    assert odd["index"] == 2
    assert "14.0 K higher than the other pairs" in odd["why"]
    assert answer["bias_k"]["typical"] == pytest.approx(-3.974, abs=1e-3)


def test_two_pairs_that_differ_are_both_kept_and_widen_the_band():
    apart, alike = (
        thermometer_check.answer(pairs((175, 175 + a), (175, 175 + b)))
        for a, b in ((-10, 4), (-3, -3))
    )
    assert apart["odd_pairs"] == []
    assert apart["bias_k"]["typical"] == pytest.approx(alike["bias_k"]["typical"])
    assert apart["bias_spread_k"] > 2 * alike["bias_spread_k"]
    assert told(apart, "no more than guessing zero")
    # Even then the cup is no worse known than before.
    assert apart["checked_final_c"]["high"] < apart["unchecked_final_c"]["high"]


def test_pairs_near_the_pour_count_most():
    # Cold the gun is true, hot it is 6 K low: the hot pairs must win.
    found = excess_of([Pair(60, 60), Pair(173, 167), Pair(177, 171)], working_c=175)
    assert found.odd == ()
    assert -6 < found.excess_k < -4.2
    assert excess_of([Pair(60, 60)], working_c=175).reach_k == pytest.approx(115)


def test_pairs_far_from_the_pour_are_worth_less():
    cold, hot = (thermometer_check.answer(POT | pairs(*[(c, c - 3)] * 4)) for c in (90, 175))
    assert cold["bias_spread_k"] > hot["bias_spread_k"] + 0.4
    assert told(cold, "take some near 175 °C / 347 °F")
    assert not told(hot, "take some near")


def test_a_thermometer_far_off_is_to_be_replaced():
    answer = thermometer_check.answer(POT | pairs((175, 155), (176, 156)))
    assert told(answer, "replace it")
    assert not told(answer, "Keep the bias")


@pytest.mark.parametrize(
    "words", ["metal probe in a running oven", "makes it spit", "Steam burns", "local codes"]
)
def test_cautions_are_always_told(words):
    for data in (POT, HOT):
        assert any(words in c for c in thermometer_check.answer(data)["cautions"])


def test_the_gun_is_never_aimed_at_the_water():
    for data in (POT, HOT):
        assert told(thermometer_check.answer(data), "Do not aim the gun at boiling water")


@pytest.mark.parametrize(
    ("data", "field", "why"),
    [
        ({}, "boiling_c", "holds no reading"),
        (SEA, "boiling_c", "holds no reading"),
        ({"boiling_c": [99]}, "altitude_m", "is needed, or pressure_hpa"),
        (SEA | {"boiling_c": [99, 212]}, "boiling_c[1]", "Was it °F"),
        (SEA | {"boiling_c": [37.8]}, "boiling_c[0]", "was 100 meant in °C"),
        (SEA | {"boiling_c": [80]}, "boiling_c[0]", "at a full boil"),
        (SEA | {"boiling_c": [500]}, "boiling_c", "must lie between"),
        ({"boiling_c": [90], "altitude_m": 8848}, "altitude_m", "between -430 and 5500 m"),
        ({"boiling_c": [94.5], "altitude_m": 1600, "pressure_hpa": 1015}, "pressure_hpa",
         "reduced to the sea"),
        (pairs((174, 345)), "pairs[0].infrared_c", "Was it °F"),
        (pairs((174, 77)), "pairs[0].infrared_c", "was 171 meant in °C"),
        (pairs((174, 120)), "pairs[0].infrared_c", "54 K from the probe"),
        (pairs((174, float("nan"))), "pairs[0].infrared_c", "finite"),
    ],
)  # fmt: skip
def test_nonsense_is_refused_in_words(data, field, why):
    with pytest.raises(BadInput, match=why) as refused:
        thermometer_check.answer(data)
    assert refused.value.field == field


def inputs(data: dict[str, Any]) -> ThermometerInput:
    return from_json(ThermometerInput, data)


def test_each_sort_needs_its_own_readings():
    with pytest.raises(BadInput, match="is needed for a gun"):
        checked(ThermometerKind.INFRARED, inputs(POT))
    with pytest.raises(BadInput, match="is needed for a probe"):
        checked(ThermometerKind.PROBE, inputs(HOT))
    # Pairs beside the water say nothing of the probe.
    both = checked(ThermometerKind.PROBE, inputs(POT | HOT))
    assert both == checked(ThermometerKind.PROBE, inputs(POT))


def test_the_bias_is_kept_with_its_spread_and_its_day(tmp_path):
    world = dataclasses.replace(wire.world(tmp_path / "a.db"), clock=FakeClock())
    key = add_record(world, Thermometer(name="Gun", price_money=22)).id
    noun = keep_check(world, key, inputs(POT | HOT), expected_version=1).noun
    assert isinstance(noun, Thermometer)
    assert noun.bias_k == pytest.approx(-3.97)
    assert 0.5 < (noun.bias_spread_k or 0) < 1.8
    assert noun.checked_on == "2026-01-01"
    assert noun.price_money == 22
    with pytest.raises(Conflict):
        keep_check(world, key, inputs(POT | HOT), expected_version=1)
    with pytest.raises(NotFound):
        keep_check(world, "nowhere", inputs(POT | HOT), expected_version=1)
