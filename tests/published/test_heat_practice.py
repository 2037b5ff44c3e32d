"""The cup against what makers see. Basis: common practice, no source, unless a line says more."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from pourwright.base.calc import Calculation
from pourwright.base.record import from_json
from pourwright.base.units import convert
from pourwright.heat.coupling import coupling
from pourwright.heat.forecast import CookAnswer, CookInput, Moment, cook_forecast

SMALL_OVEN_W = 480.0
USUAL_OVEN_W = 615.0
TWO_CUPS_ML = 473.0
WATER = {"water_g": 500, "start_c": 20, "end_c": 33.4, "on_s": 60, "vessel_g": 400}
AT_SIX = {"plastic_g": 498, "on_s": 360, "surface_c": 170}
SIX_MINUTES = [{"on_s": 360, "rest_s": 0, "stir": False}]


def cooked(bursts: list[dict[str, Any]], **about: Any) -> CookAnswer:
    data = {"plastic_ml": TWO_CUPS_ML, "cup_g": 420, "bursts": bursts} | about
    if "belief" not in about:
        data = {"power_w": SMALL_OVEN_W} | data
    return cook_forecast(from_json(CookInput, data))


def answered(calculation: Calculation[Any, Any], data: dict[str, Any]) -> dict[str, Any]:
    return calculation.answer(data)


def test_readings_imply_the_small_oven():
    # 338 °F at the surface after 6:00 means 440 to 490 W effective in this model.
    read = convert(338, "f", "c")
    found = answered(coupling, {"readings": [AT_SIX | {"surface_c": read}] * 6})
    assert 440 <= found["plastic_power_w"]["typical"] <= 490


def test_jelly_after_four_minutes():
    now = cooked([{"on_s": 240, "rest_s": 0, "stir": False}]).moments[-1]
    assert now.at_s == 240
    assert now.mean_gelled > 0.9
    assert now.mean_fused < 0.1
    assert now.bottom_fused < 0.01
    told = cooked([{"on_s": 240, "rest_s": 0, "stir": False}]).events
    assert [e.what for e in told if e.what in {"gel", "stirrable", "fused"}] == ["gel"]


def test_underdone_bottom_after_six_minutes():
    now = cooked(SIX_MINUTES).moments[-1]
    assert now.surface_c.typical == pytest.approx(convert(338, "f", "c"), abs=3)
    assert now.core_fused > 0.9
    assert now.bottom_fused < 0.25
    assert now.hottest_c.typical > now.mean_c.typical + 20
    assert now.coldest_c.typical < now.mean_c.typical - 25


@pytest.mark.parametrize("again_s", [30, 45])
def test_ready_after_a_stir_and_a_little_more(again_s):
    stages = cooked([{"on_s": 360, "rest_s": 20}, {"on_s": again_s, "rest_s": 0}]).moments
    stirred = next(i for i, m in enumerate(stages) if m.at_s == 380)
    before, after, end = stages[stirred], stages[stirred + 1], stages[-1]
    assert after.at_s == before.at_s
    assert after.hottest_c.typical < before.hottest_c.typical - 15
    assert after.coldest_c.typical > before.coldest_c.typical + 15
    assert end.mean_c.typical >= 172
    assert min(end.mean_fused, end.bottom_fused) >= 0.95


@pytest.mark.parametrize("total_s", [270, 300])
def test_usual_oven(total_s):
    # A usual microwave needs 4:30 to 5:00, with two stirs.
    bursts = [{"on_s": 105}, {"on_s": 105}, {"on_s": total_s - 210, "rest_s": 15}]
    end = cooked(bursts, power_w=USUAL_OVEN_W).moments[-1]
    assert 165 <= end.mean_c.typical <= 185
    short = cooked([{"on_s": 105}, {"on_s": 105}], power_w=USUAL_OVEN_W).moments[-1]
    assert short.mean_fused < 0.5


def at_six(**about: Any) -> Moment:
    return cooked(SIX_MINUTES, **about).moments[-1]


def test_band_of_a_known_oven():
    # After a water test and one timed reading the 6:00 surface band is within ±12 K, and honest.
    learned = answered(coupling, {"water_tests": [WATER], "readings": [AT_SIX]})
    band = at_six(belief=learned["belief"]).surface_c
    assert 2 < band.half_width <= 12
    assert band.low < 170 < band.high


def test_band_of_a_good_figure():
    # A power known to ±4 % gives the same ±12 K.
    power = {"low": 460.8, "typical": 480, "high": 499.2}
    assert 2 < at_six(power_w=power).surface_c.half_width <= 12


def test_band_of_a_water_test_alone():
    # What plastic takes up against water is unknown to 14 %: the test alone leaves a wide band.
    alone = answered(coupling, {"water_tests": [WATER]})
    assert 15 < at_six(belief=alone["belief"]).surface_c.half_width < 35


def test_belief_predicts_the_reading_it_learned_from():
    # Closed form of a fit: five equal readings come back, with a band far inside the label's.
    learned = answered(coupling, {"label_w": 700, "readings": [AT_SIX] * 5})
    after = at_six(belief=learned["belief"]).surface_c
    before = at_six(belief=answered(coupling, {"label_w": 700})["belief"]).surface_c
    assert after.typical == pytest.approx(170, abs=1.5)
    assert after.half_width < 0.25 * before.half_width


def test_one_fitted_power_gives_the_whole_cook():
    """4:00 jelly; 6:00 338 °F; stir, 0:38, ready; 1:15 of tinting, 0:30 to 0:40 more, ready again.

    One reading fits one power; its band is part of the answer. Common practice, no source.
    """
    read = convert(338, "f", "c")
    fit = answered(coupling, {"readings": [AT_SIX | {"surface_c": read}]})
    power = fit["plastic_power_w"]
    assert 0.06 < (power["high"] - power["low"]) / 2 / power["typical"] < 0.2
    bursts = [
        {"on_s": 240, "rest_s": 0, "stir": False},
        {"on_s": 120, "rest_s": 20},
        {"on_s": 38, "rest_s": 5},
        {"on_s": 1, "rest_s": 75},
        {"on_s": 35, "rest_s": 5},
    ]
    moments = cooked(bursts, belief=fit["belief"]).moments
    jelly = next(m for m in moments if m.at_s == 240)
    assert jelly.mean_gelled > 0.9
    assert jelly.mean_fused < 0.2
    six = next(m for m in moments if m.at_s == 360)
    assert six.surface_c.typical == pytest.approx(read, abs=2)
    assert six.bottom_fused < 0.25
    stirs = [b for a, b in itertools.pairwise(moments) if a.at_s == b.at_s]
    first, ready, tinted, again = stirs
    assert first.mean_c.typical < ready.mean_c.typical - 5
    assert min(ready.mean_fused, ready.bottom_fused) > 0.9
    assert 5 < ready.mean_c.typical - tinted.mean_c.typical < 14
    assert again.mean_c.typical == pytest.approx(ready.mean_c.typical, abs=5)
    # Stirred and read, ready means some 335 to 355 °F on the gun.
    for m in (ready, again):
        assert convert(332, "f", "c") < m.surface_c.typical < convert(358, "f", "c")
