"""Stories of the heat budget: what a lot has used, what remelt brings, what to do, how yellow."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pourwright.base.errors import BadInput
from pourwright.heat.scorch_budget import cook_scorch

SURE: dict[str, Any] = {"stable_at_190c_min": 30, "activation_kj_mol": 140, "hotter_k": 0}


def held(*bursts: tuple[float, float, float], times: int = 1) -> dict[str, Any]:
    return {
        "bursts": [{"for_s": s, "mean_c": m, "hottest_c": h} for s, m, h in bursts],
        "times": times,
    }


def answer(*heats: dict[str, Any], **about: Any) -> dict[str, Any]:
    return cook_scorch.answer(SURE | {"heats": list(heats)} | about)


def told(found: dict[str, Any], words: str) -> bool:
    return any(words in n for n in (*found["notes"], *found["cautions"]))


def test_example_is_answered():
    found = cook_scorch.answer(cook_scorch.example)
    assert set(cook_scorch.schema()["output"]["properties"]) == set(found)
    assert found["notes"]


def test_minutes_at_the_reference_are_shares_of_the_budget():
    # By definition: 9 min of 30 at 190 °C use 0.3, and 21 min are left there.
    found = answer(held((540, 190, 190)))
    assert found["dose_share"]["typical"] == pytest.approx(0.3)
    assert found["mean_dose_share"] == found["dose_share"]
    (at_190,) = (t for t in found["left"] if t["at_c"] == 190)
    assert at_190["left_min"]["typical"] == pytest.approx(21)


@pytest.mark.parametrize(("kj_mol", "seconds"), [(110, 12.6), (140, 8.2), (170, 5.4)])
def test_a_minute_at_the_pour_is_seconds_at_200(kj_mol, seconds):
    # On paper: 60 s x exp(-E/R (1/448.15 - 1/473.15)).
    pour, hot = (
        answer(held((s, c, c)), activation_kj_mol=kj_mol)["dose_share"]["typical"]
        for s, c in ((60, 175), (seconds, 200))
    )
    assert hot == pytest.approx(pour, rel=0.01)


def test_the_hottest_place_counts_and_the_mean_is_told_beside_it():
    found = answer(held((300, 175, 195)))
    cold, hot = found["mean_dose_share"]["typical"], found["dose_share"]["typical"]
    # On paper at 140 kJ/mol: exp(16838.1 K x (1/448.15 - 1/468.15)) = 4.974.
    assert hot / cold == pytest.approx(4.974, rel=1e-3)


def test_what_was_not_logged_is_taken_hotter_and_named():
    heat = {"bursts": [{"for_s": 300, "mean_c": 175}]}
    found = cook_scorch.answer({"heats": [heat]})
    assert found["dose_share"]["typical"] > found["mean_dose_share"]["typical"]
    for name in ("hotter_k", "stable_at_190c_min", "activation_kj_mol"):
        assert told(found, f"{name} was left out")
    logged = cook_scorch.answer({"heats": [held((300, 175, 180))]})
    assert not told(logged, "hotter_k was left out")


def test_a_heat_repeated_counts_again():
    once, thrice = (answer(held((300, 180, 185), times=n))["dose_share"]["typical"] for n in (1, 3))
    assert thrice == pytest.approx(3 * once)


def test_remelt_is_shared_out_by_mass():
    # On paper: (100 x 0.6 + 300 x 0.2 + 200 x 0) / 600 = 0.2.
    remelt = [{"mass_g": 100, "dose_share": 0.6}, {"mass_g": 300, "dose_share": 0.2}]
    found = answer(remelt=remelt, fresh_g=200)
    assert found["brought_share"]["typical"] == pytest.approx(0.2)
    assert found["dose_share"]["typical"] == pytest.approx(0.2)
    more = answer(held((540, 190, 190)), remelt=remelt, fresh_g=200)
    assert more["dose_share"]["typical"] == pytest.approx(0.5)


def test_remelt_of_unknown_past_is_guessed_by_its_heats():
    found = answer(remelt=[{"mass_g": 100, "heats": 2}])
    band = found["dose_share"]
    assert (band["low"], band["typical"], band["high"]) == pytest.approx((0.06, 0.3, 1), rel=0.03)
    assert told(found, "remelt[0]: dose_share was left out")
    assert not told(answer(remelt=[{"mass_g": 100, "dose_share": 0.3}]), "dose_share was left out")


def test_a_band_given_is_a_band_kept():
    band = {"low": 0.1, "typical": 0.2, "high": 0.4}
    found = answer(remelt=[{"mass_g": 50, "dose_share": band}])["dose_share"]
    assert (found["low"], found["typical"], found["high"]) == pytest.approx(
        (0.1, 0.2, 0.4), rel=0.02
    )


@pytest.mark.parametrize(
    ("dose", "advice", "words"),
    [
        (0.2, "fine", "heat it again"),
        (0.3, "use soon", "Use it soon"),
        (0.7, "blend down", "160 g of fresh plastic bring it under half"),
        (1.1, "discard", "Do not blend it in"),
    ],
)
def test_what_to_do(dose, advice, words):
    # On paper: 400 g at 0.7 come to 0.5 with 400 x (0.7 / 0.5 - 1) = 160 g of fresh plastic.
    found = answer(remelt=[{"mass_g": 400, "dose_share": dose}])
    assert found["advice"] == advice
    assert words in found["words"]
    assert (found["fresh_needed_g"] is None) == (advice == "discard")


def test_fresh_plastic_is_told_to_each_100_g_where_no_grams_are_known():
    found = answer(held((1260, 190, 190)))
    assert found["fresh_needed_g"] is None
    assert "40 g to each 100 g" in found["words"]


def test_nothing_is_left_of_a_spent_budget():
    for left in answer(held((3600, 195, 200)))["left"]:
        assert left["left_min"] == {"low": 0, "typical": 0, "high": 0}


def test_a_weak_stabilizer_is_warned_of():
    found = cook_scorch.answer({"heats": [held((300, 175, 190))]})
    assert found["advice"] == "fine"
    assert told(found, "With a weak stabilizer")
    assert not told(answer(held((30, 150, 155))), "With a weak stabilizer")


def test_fumes_and_hot_places_are_cautioned():
    assert told(answer(held((60, 170, 175))), "OSHA's ceiling in the air is 5 ppm")
    assert told(answer(held((10, 175, 205))), "reached 205 °C / 401 °F")
    assert not told(answer(held((60, 170, 199))), "A place in it reached")


def test_asked_temperatures_replace_the_usual_ones():
    found = answer(held((60, 170, 175)), left_at_c=[165, 185])
    assert [t["at_c"] for t in found["left"]] == [165, 185]


YELLOW = [{"dose_share": d, "yellowness": 4 + 30 * d} for d in (0.0, 0.2, 0.5, 0.9)]


def test_yellowness_by_samples_that_lie_on_a_line():
    found = answer(held((540, 190, 190)), yellowed=YELLOW)
    assert found["yellowness"]["typical"] == pytest.approx(4 + 30 * 0.3)
    assert (found["yellow_from_share"], found["yellow_to_share"]) == (0.0, 0.9)


def test_samples_that_scatter_widen_the_yellowness():
    rough = [y | {"yellowness": y["yellowness"] + 3 * (-1) ** i} for i, y in enumerate(YELLOW)]
    wide, tight = (answer(held((540, 190, 190)), yellowed=y)["yellowness"] for y in (rough, YELLOW))
    assert tight["high"] - tight["low"] < 0.01
    assert wide["high"] - wide["low"] > 5


def test_past_the_budget_the_bend_is_fitted():
    samples = [
        {"dose_share": d, "yellowness": 4 + 30 * d + 20 * max(0.0, d - 1) ** 2}
        for d in (0, 0.5, 1, 1.4, 1.8, 2.2)
    ]
    found = answer(held((2880, 190, 190)), yellowed=samples)
    assert found["yellowness"]["typical"] == pytest.approx(4 + 30 * 1.6 + 20 * 0.36)


def test_yellowness_is_not_told_outside_the_samples():
    found = answer(held((1700, 190, 190)), yellowed=YELLOW)
    assert found["yellowness"] is None
    assert told(found, "your samples reach from 0 to 0.9")
    assert answer(held((60, 190, 190)))["yellowness"] is None


POINT = {"at_s": 0, "mean_c": 20}


@pytest.mark.parametrize(
    ("data", "field", "why"),
    [
        ({}, "heats", "holds nothing"),
        ({"heats": [{}]}, "heats[0].log", "enter a log or bursts"),
        ({"heats": [{"log": [POINT]}]}, "heats[0].log", "at least two points"),
        ({"heats": [{"log": [POINT, POINT]}]}, "heats[0].log[1].at_s", "must be after 0 s"),
        ({"heats": [held((60, 170, 160))]}, "heats[0].bursts[0].hottest_c", "below the mean"),
        ({"heats": [{"log": [POINT | {"hottest_c": 3}]}]}, "heats[0].log[0].hottest_c", "below"),
        ({"heats": [held((-1, 170, 170))]}, "heats[0].bursts[0].for_s", "must lie between"),
        ({"remelt": [{"mass_g": 10, "dose_share": -0.1}]}, "remelt[0].dose_share", "lie between"),
        ({"remelt": [{"mass_g": 10}], "yellowed": YELLOW[:2]}, "yellowed", "at least 3 samples"),
        ({"remelt": [{"mass_g": 10}], "yellowed": YELLOW[:1] * 3}, "yellowed", "too alike"),
        ({"heats": [held((60, 170, 170))], "stable_at_190c_min": 0}, "stable_at_190c_min", "lie"),
    ],
)  # fmt: skip
def test_nonsense_is_refused_by_name(data, field, why):
    with pytest.raises(BadInput, match=why) as refused:
        cook_scorch.answer(data)
    assert refused.value.field == field


def test_a_log_is_worth_its_bursts():
    # A log that stands still is a burst; 10 °C of rise lie between its two ends.
    flat = {"log": [{"at_s": t, "mean_c": 180, "hottest_c": 185} for t in (0, 200, 600)]}
    burst = answer(held((600, 180, 185)))["dose_share"]["typical"]
    assert answer(flat)["dose_share"]["typical"] == pytest.approx(burst)
    ramp = {"log": [{"at_s": t, "mean_c": c} for t, c in ((0, 180.0), (600, 190.0))]}
    low, high = (answer(held((600, c, c)))["dose_share"]["typical"] for c in (180.0, 190.0))
    assert low < answer(ramp)["dose_share"]["typical"] < np.mean([low, high])
