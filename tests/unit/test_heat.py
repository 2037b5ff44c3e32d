"""Stories of the oven and the cup: what is refused, what is said, what is handed on."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.heat.bait_cooling import cool_bait
from pourwright.heat.coupling import coupling
from pourwright.heat.forecast import cook_forecast
from pourwright.heat.water_test import water_test
from pourwright.heat.window import cool_window
from pourwright.matter.scorch import hot_limit

COOK: dict[str, Any] = {"plastic_g": 498, "power_w": 480, "bursts": [{"on_s": 120}]}
TEST: dict[str, Any] = {"water_g": 500, "start_c": 20, "end_c": 33, "on_s": 60}
READING: dict[str, Any] = {"plastic_g": 498, "on_s": 360, "surface_c": 170}
CALCULATIONS = [water_test, coupling, cook_forecast, cool_window, cool_bait]


@pytest.mark.parametrize("one", CALCULATIONS, ids=lambda c: c.name)
def test_example_is_answered(one):
    answer = one.answer(one.example)
    assert answer["notes"]
    assert set(one.schema()["output"]["properties"]) == set(answer)


@pytest.mark.parametrize(
    ("one", "data", "field", "why"),
    [
        (water_test, TEST | {"end_c": 19}, "end_c", "above the start"),
        (water_test, TEST | {"repeats_end_c": [30, 20]}, "repeats_end_c[1]", "above the start"),
        (water_test, TEST | {"water_g": False}, "water_g", "must be a number"),
        (cook_forecast, COOK | {"plastic_ml": 473}, "plastic_ml", "must be left out"),
        (cook_forecast, COOK | {"plastic_g": None}, "plastic_g", "is required, or plastic_ml"),
        (cook_forecast, COOK | {"power_w": None}, "power_w", "is required, or belief"),
        (cook_forecast, COOK | {"power_w": 3000}, "power_w", "must lie between 50 and 2500"),
        (cook_forecast, COOK | {"bursts": [{"on_s": -5}]}, "bursts[0].on_s", "must lie between"),
        (coupling, {"readings": [READING | {"surface_c": 338}]}, "readings[0].surface_c", "lie"),
        (coupling, {"readings": [READING | {"start_c": 50, "surface_c": 40}]},
         "readings[0].surface_c", "above the start"),
        (cool_window, {"melt_c": 150, "least_c": 155}, "least_c", "below the melt"),
        (cool_bait, {"thickest_mm": float("nan")}, "thickest_mm", "finite"),
    ],
)  # fmt: skip
def test_nonsense_is_refused_by_name(one, data, field, why):
    with pytest.raises(BadInput, match=why) as refused:
        one.answer(data)
    assert refused.value.field == field


def test_iec_figure_only_by_its_procedure():
    iec: dict[str, Any] = {
        "water_g": 1002, "start_c": 11, "end_c": 21, "on_s": 60, "vessel_g": 400, "ambient_c": 22,
    }  # fmt: skip
    assert water_test.answer(iec)["iec_60705_w"] == pytest.approx(695.56, abs=0.02)
    off: list[dict[str, Any]] = [
        {"water_g": 1010}, {"start_c": 15}, {"end_c": 30}, {"vessel_g": None},
        {"ambient_c": None}, {"oven_cold": False}, {"repeats_end_c": [21]},
    ]  # fmt: skip
    for change in off:
        answer = water_test.answer(iec | change)
        assert answer["iec_60705_w"] is None
        assert any("No IEC 60705 figure" in n for n in answer["notes"])


def test_defaults_that_matter_are_named():
    notes = water_test.answer(TEST)["notes"]
    assert any(n.startswith("vessel_g was left out") for n in notes)
    assert any("to narrow it, " in n for n in notes)
    notes = cook_forecast.answer(COOK)["notes"]
    for name in ("cup_g", "cup_diameter_mm", "start_c", "thermometer_bias_k"):
        assert any(n.startswith(f"{name} was left out") for n in notes)


def test_repeats_narrow_a_water_test():
    def width(repeats: list[float]) -> float:
        band = water_test.answer(TEST | {"repeats_end_c": repeats})["power_w"]
        return float(band["high"] - band["low"])

    assert width([33, 33, 33]) < 0.7 * width([])


def test_volume_is_as_good_as_mass():
    by_mass = cook_forecast.answer(COOK | {"plastic_g": 500, "cold_density_g_ml": 1.0})
    by_volume = cook_forecast.answer(
        COOK | {"plastic_g": None, "plastic_ml": 500, "cold_density_g_ml": 1.0}
    )
    assert by_mass["moments"] == by_volume["moments"]


def test_effective_power_is_never_called_measured():
    for answer in (coupling.answer({}), water_test.answer(TEST)):
        assert any("effective power" in n and "not a measured" in n for n in answer["notes"])


def test_belief_is_carried_on():
    first = coupling.answer({"label_w": 700, "readings": [READING]})
    again = coupling.answer({"prior": first["belief"], "readings": [READING]})
    idle = coupling.answer({"prior": first["belief"]})
    assert again["plastic_power_w"]["typical"] == pytest.approx(
        first["plastic_power_w"]["typical"], rel=0.03
    )
    spread = [a["belief"]["covariance"][0] ** 0.5 for a in (first, idle, again)]
    # A day between adds doubt, a reading takes some away, and 4 % always stay.
    assert spread[1] > spread[0]
    assert spread[1] > spread[2] >= 0.04


@pytest.mark.parametrize("name", ["label_w", "water_tests", "thermometer_bias_k"])
def test_nothing_counts_twice(name):
    held = coupling.answer({})["belief"]
    values: dict[str, Any] = {"label_w": 700, "water_tests": [TEST], "thermometer_bias_k": 1}
    with pytest.raises(BadInput, match="is in the prior already"):
        coupling.answer({"prior": held, name: values[name]})


def test_bias_in_the_belief_is_not_asked_again():
    held = coupling.answer({})["belief"]
    data = {"plastic_g": 498, "belief": held, "bursts": [{"on_s": 60}]}
    notes = cook_forecast.answer(data)["notes"]
    assert not any(n.startswith("thermometer_bias_k") for n in notes)
    assert any("effective power of the oven" in n for n in notes)
    with pytest.raises(BadInput, match="in the belief already"):
        cook_forecast.answer(data | {"thermometer_bias_k": 1})


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"model": "cup.full"}, "model"),
        ({"version": 1}, "model"),
        ({"mean": [6.0, 0.0, 0.0]}, "mean"),
        ({"covariance": [1.0] * 16}, "covariance"),
        ({"covariance": [1.0] * 81}, "covariance"),
        ({"covariance": np.diag([0.1] * 8 + [-0.1]).ravel().tolist()}, "covariance"),
        ({"covariance": (np.eye(9) + 0.1 * np.eye(9, k=1)).ravel().tolist()}, "covariance"),
    ],
)
def test_strange_belief_is_refused(change, field):
    held = coupling.answer({})["belief"]
    with pytest.raises(BadInput, match=field) as refused:
        coupling.answer({"prior": held | change})
    assert refused.value.field == f"prior.{field}"


def test_odd_reading_is_pointed_at():
    fine = coupling.answer({"label_w": 700, "readings": [READING] * 3})
    odd = coupling.answer(
        {"label_w": 700, "readings": [READING, READING, READING | {"surface_c": 225}]}
    )
    assert not any("lies far" in n for n in fine["notes"])
    assert any(n.startswith("readings[2] lies far above") for n in odd["notes"])
    # It counts less: a plain least-squares fit would move by a third of the way, 11 %.
    typical = [a["plastic_power_w"]["typical"] for a in (fine, odd)]
    assert typical[1] == pytest.approx(typical[0], rel=0.07)


def test_batches_of_different_size_agree():
    # Readings forecast for one oven at two batch sizes lead back to that oven.
    seen = []
    for plastic_g, on_s in ((250, 180), (498, 360)):
        cook = COOK | {"plastic_g": plastic_g, "bursts": [{"on_s": on_s, "rest_s": 0}]}
        cook |= {"cup_g": 420, "start_c": 22, "ambient_c": 22, "cup_diameter_mm": 89}
        at = next(m for m in cook_forecast.answer(cook)["moments"] if m["at_s"] == on_s)
        seen.append({"plastic_g": plastic_g, "on_s": on_s, "surface_c": at["surface_c"]["typical"]})
    found = coupling.answer({"label_w": 727, "readings": seen})
    assert found["plastic_power_w"]["typical"] == pytest.approx(480, rel=0.02)


def test_events_come_in_order():
    told = cook_forecast.answer(
        COOK | {"bursts": [{"on_s": 360, "rest_s": 20}, {"on_s": 45}], "flash_point_c": 230}
    )["events"]
    order = [e["what"] for e in told]
    assert sorted(order) == ["fused", "gel", "over limit", "stirrable", "target"]
    assert order[0] == "gel"
    assert order.index("stirrable") < order.index("fused")


def test_over_the_limit_is_a_warning():
    gentle = cook_forecast.answer(COOK)
    fierce = cook_forecast.answer(COOK | {"bursts": [{"on_s": 400}]})
    assert not gentle["over_limit"]
    assert fierce["over_limit"]
    assert any("not as advice" in n for n in fierce["notes"])
    assert all(any("Smoke" in n for n in a["notes"]) for a in (gentle, fierce))


@pytest.mark.parametrize(("flash_c", "limit_c"), [(None, 180), (184, 174), (205, 195), (230, 200)])
def test_hot_limit(flash_c, limit_c):
    assert hot_limit(flash_c)[0] == limit_c
    assert cook_forecast.answer(COOK | {"flash_point_c": flash_c})["limit_c"] == limit_c


def test_fire_is_no_forecast():
    with pytest.raises(NoAnswer, match="smokes and burns"):
        cook_forecast.answer(COOK | {"plastic_g": 60, "bursts": [{"on_s": 900}]})


def test_an_oven_without_a_label_is_known_less_well():
    # Two independent doubts add as squares: the label's share, and which label it is.
    spread = [coupling.answer(d)["belief"]["covariance"][0] for d in ({"label_w": 700}, {})]
    assert spread == pytest.approx([0.25**2, 0.25**2 + 0.18**2])


def test_two_cooks_are_one_after_the_other():
    both = coupling.answer({"label_w": 700, "readings": [READING, READING]})
    first = coupling.answer({"label_w": 700, "readings": [READING]})
    then = coupling.answer({"prior": first["belief"], "readings": [READING]})
    assert both["belief"]["mean"] == pytest.approx(then["belief"]["mean"])
    assert both["belief"]["covariance"] == pytest.approx(then["belief"]["covariance"])


def test_readings_that_only_scatter_are_not_odd():
    seen = [READING | {"surface_c": c} for c in (170, 185, 155)]
    notes = coupling.answer({"label_w": 700, "readings": seen})["notes"]
    assert not any("lies far" in n for n in notes)


def test_fused_means_nearly_all_of_it():
    told = cook_forecast.answer(COOK | {"bursts": [{"on_s": 360, "rest_s": 20}, {"on_s": 45}]})
    at = next(e["at_s"] for e in told["events"] if e["what"] == "fused")
    then = [m for m in told["moments"] if m["at_s"] <= at][-1]
    assert min(then["mean_fused"], then["bottom_fused"]) > 0.9
