"""What a person reads of clamps, vents, bubbles and settling, and what is refused."""

from __future__ import annotations

from typing import Any

import pytest

from pourwright.base.errors import BadInput
from pourwright.fill.air import air
from pourwright.fill.bubbles import bubbles
from pourwright.fill.clamp import clamp
from pourwright.fill.settle import settle

MOLD: dict[str, Any] = {
    "shadow_cm2": 38, "push_n": 110, "bore_mm": 35, "gap_mm": 0.05, "mold_c": 30,
}  # fmt: skip


@pytest.mark.parametrize("calculation", [clamp, air, bubbles, settle])
def test_a_calculation_answers_its_own_example(calculation):
    done = calculation.answer(calculation.example)
    assert done["notes"]
    assert done == calculation.answer(dict(calculation.example))


@pytest.mark.parametrize(
    ("calculation", "values", "field", "words"),
    [
        (clamp, MOLD | {"mold_c": 150, "melt_c": 150}, "mold_c", "below the melt's 150"),
        (clamp, MOLD | {"clamps": [{"kind": "rope"}]}, "clamps[0].kind", "must be one of bolt"),
        (clamp, MOLD | {"clamps": [{"kind": "bolt", "count": 0}]}, "clamps[0].count", "between"),
        (clamp, MOLD | {"shadow_cm2": 0}, "shadow_cm2", "between"),
        (clamp, MOLD | {"push_n": False}, "push_n", "must be a number"),
        (
            air,
            {"cavity_ml": 30, "vents": [{"depth_mm": 0.9, "width_mm": 0.5}]},
            "vents[0].depth_mm",
            "must not exceed the width",
        ),
        (air, {"cavity_ml": 30, "mold_c": 140, "melt_c": 140}, "mold_c", "below the melt's"),
        (bubbles, {"bubble_mm": 5, "depth_mm": 3}, "bubble_mm", "must fit into the liquid"),
        (bubbles, {"bubble_mm": 0.5, "chamber_hpa": 1}, "chamber_hpa", "between"),
        (settle, {"size_mm": 0.4, "plastic_c": 50}, "plastic_c", "too cold for fused"),
        (
            settle,
            {"size_mm": 0.4, "plastic": "liquid", "plastic_c": 90},
            "plastic_c",
            "too hot for raw",
        ),
        (settle, {"size_mm": 0.02, "film_um": 50}, "film_um", "must not exceed the flake's width"),
        (
            settle,
            {"particle": "hollow_glass", "size_mm": 0.06, "grams_per_100g": 60},
            "grams_per_100g",
            "too crowded",
        ),
    ],
)
def test_nonsense_is_refused_by_name(calculation, values, field, words):
    with pytest.raises(BadInput, match=words) as caught:
        calculation.answer(values)
    assert caught.value.field == field


def test_a_weak_clamp_is_told_what_would_hold():
    weak = clamp.answer(MOLD | {"clamps": [{"kind": "spring", "count": 2}]})
    assert weak["lift_share"] > 0.9
    assert "more like the first row (spring clamps)" in weak["advice"][0]
    assert "lbf" in weak["advice"][1]
    more = int(weak["advice"][0].split()[1])
    helped = clamp.answer(MOLD | {"clamps": [{"kind": "spring", "count": 2 + more}]})
    assert helped["lift_share"] <= 0.06
    short = clamp.answer(MOLD | {"clamps": [{"kind": "spring", "count": 1 + more}]})
    assert short["lift_share"] > 0.05


def test_bare_halves_are_told_to_be_clamped():
    bare = clamp.answer(MOLD)
    assert bare["had_n"]["high"] == 0
    assert bare["lift_share"] == 1
    assert bare["advice"][0].startswith("Nothing holds the halves: clamp with")


def test_strong_bolts_hold_and_say_where_to_sit():
    held = clamp.answer(MOLD | {"clamps": [{"kind": "bolt", "count": 6, "torque_n_m": 1}]})
    assert held["lift_share"] == 0
    (advice,) = held["advice"]
    assert advice.startswith("The clamps hold this push.")
    # Torque known, only friction is left: a third either way.
    had = held["had_n"]
    assert 0.15 < (had["high"] - had["low"]) / had["typical"] / 2 < 0.45


def test_a_clamp_too_weak_for_good_is_said():
    mold = MOLD | {"shadow_cm2": 3000, "clamps": [{"kind": "spring", "grip_n": 50}]}
    assert "will not do" in clamp.answer(mold)["advice"][0]


def test_a_wide_gap_flashes_whatever_the_clamps():
    wide = clamp.answer(MOLD | {"gap_mm": 0.3, "clamps": [{"kind": "bar", "count": 4}]})
    assert any("gap alone makes flash" in a for a in wide["advice"])
    tight = clamp.answer(MOLD | {"clamps": [{"kind": "bar", "count": 4}]})
    assert not any("gap alone" in a for a in tight["advice"])


def test_a_hot_rubber_mold_has_no_skin_to_stop_flash():
    hot = clamp.answer(MOLD | {"material": "silicone", "mold_c": 110})
    assert any(n.startswith("flash_mm: in ") and "too warm" in n for n in hot["notes"])
    cold = clamp.answer(MOLD)
    assert not any("too warm" in n for n in cold["notes"])


def test_notes_name_defaults_of_mold_and_clamps():
    notes = clamp.answer({"shadow_cm2": 38, "clamps": [{"kind": "bolt"}]})["notes"]
    for name in ("push_n", "bore_mm", "gap_mm", "mold_c", "clamps[0].torque_n_m", "melt_pa_s"):
        assert any(n.startswith(f"{name} was left out") for n in notes)
    told = clamp.answer(MOLD | {"melt_pa_s": {"low": 1.8, "typical": 2, "high": 2.2}})
    assert not any("melt_pa_s was left out" in n for n in told["notes"])
    guessed = clamp.answer(MOLD)
    narrow, wide = (a["flash_mm"]["high"] - a["flash_mm"]["low"] for a in (told, guessed))
    assert narrow < wide


def test_shallow_vents_are_told_how_deep():
    shallow = air.answer({"cavity_ml": 30, "fill_s": 1, "vents": [{"depth_mm": 0.02}]})
    assert shallow["in_time_share"] < 0.1
    assert "hold the plastic back" in shallow["advice"][0]
    assert "in deep" in shallow["advice"][0]
    deep = shallow["deep_enough_mm"]["high"]
    cured = air.answer({"cavity_ml": 30, "fill_s": 1, "vents": [{"depth_mm": deep}]})
    assert cured["in_time_share"] > 0.9


def test_no_vent_is_advised_deeper_than_plastic_flashes_into():
    huge = air.answer({"cavity_ml": 800, "fill_s": 0.3, "vents": [{"depth_mm": 0.02}]})
    assert "add vents or make them wider" in huge["advice"][0]
    assert not any("cut the vents" in a for a in huge["advice"])
    limit = float(huge["advice"][0].split("Deeper than ")[1].split()[0])
    at = clamp.answer({"shadow_cm2": 38, "gap_mm": limit})
    assert at["flash_mm"]["typical"] == pytest.approx(0.5, rel=0.15)
    assert huge["deep_enough_mm"]["high"] > limit


def test_deep_vents_flash():
    deep = air.answer({"cavity_ml": 30, "vents": [{"depth_mm": 0.3, "count": 4}]})
    assert deep["in_time_share"] > 0.95
    assert any("wider instead of deeper" in a for a in deep["advice"])
    good = air.answer({"cavity_ml": 30, "vents": [{"depth_mm": 0.08, "count": 6}], "push_n": 110})
    assert good["advice"] == [
        "The vents do: keep them clean, plastic and release agent close them."
    ]


def test_no_vent_keeps_its_air():
    none = air.answer({"cavity_ml": 30})
    assert none["advice"][0].startswith("Cut or scratch a vent")
    assert (none["out_s"], none["creep_mm"]) == (None, None)
    assert not any(n.startswith("fill_s") for n in none["notes"])


def test_bubbles_say_vacuum_for_raw_liquid_only_where_there_is_one():
    plain = bubbles.answer({"bubble_mm": 0.3})
    assert plain["vacuum_min"] is None
    assert not any("Vacuum" in n for n in plain["notes"])
    assert not any(n.startswith("air_share") for n in plain["notes"])
    chamber = bubbles.answer({"bubble_mm": 0.3, "chamber_hpa": 30})
    assert any("rated for vacuum" in n for n in chamber["notes"])
    assert any("water boils at 24 °C" in n for n in chamber["notes"])
    foamy = bubbles.answer({"bubble_mm": 0.3, "chamber_hpa": 30, "air_share": 0.2})
    assert foamy["fill_most_share"] == pytest.approx(1 / foamy["swell_ratio"]["high"])
    assert foamy["fill_most_share"] < 1 / 3
    # Unsure how much air there is, the cup is filled for the most there may be.
    unsure = bubbles.answer({"bubble_mm": 0.3, "chamber_hpa": 10})
    assert unsure["swell_ratio"]["low"] < 3 < unsure["swell_ratio"]["high"]
    assert unsure["fill_most_share"] == pytest.approx(1 / unsure["swell_ratio"]["high"])


def test_a_measured_viscosity_narrows_the_rest():
    wide, narrow = (
        bubbles.answer({"bubble_mm": 0.5} | more)["rest_min"]
        for more in ({}, {"viscosity_pa_s": 1.5})
    )
    assert narrow["high"] - narrow["low"] < 0.5 * (wide["high"] - wide["low"])


def test_warm_liquid_lets_its_bubbles_go_sooner():
    cold, warm = (
        bubbles.answer({"bubble_mm": 0.5, "liquid_c": c})["rest_min"]["typical"] for c in (15, 35)
    )
    assert warm < 0.7 * cold


def test_the_cup_is_to_blame_for_settled_salt_and_flake_stays():
    salt = settle.answer({"particle": "salt", "size_mm": 0.3, "stand_s": 180, "set_s": 10})
    assert salt["blame"] == "the cup"
    assert any("stir before every load" in a for a in salt["advice"])
    assert any("four times slower" in a for a in salt["advice"])
    assert any("bone dry" in n for n in salt["notes"])
    flake = settle.answer({"size_mm": 0.4, "stand_s": 30})
    assert flake["blame"] == "neither"
    assert any("stays where it is put" in a for a in flake["advice"])


def test_twice_the_time_is_twice_the_way():
    short, long = (
        settle.answer({"size_mm": 0.4, "stand_s": s})["in_cup_mm"]["typical"] for s in (100, 200)
    )
    assert long == pytest.approx(2 * short)


def test_a_slow_mold_takes_the_blame():
    slow = settle.answer({"particle": "salt", "size_mm": 0.5, "set_s": 300, "stand_s": 5})
    assert slow["blame"] == "the mold"
    assert slow["shows_in_mold_share"] > slow["shows_share"]
    assert not any("stir before every load" in a for a in slow["advice"])
    both = settle.answer({"particle": "salt", "size_mm": 0.5, "set_s": 300, "stand_s": 300})
    assert both["blame"] == "the mold"
    assert any("stir before every load" in a for a in both["advice"])


def test_a_jug_has_no_mold():
    jug = settle.answer({"particle": "salt", "size_mm": 0.2, "plastic": "liquid"})
    assert jug["in_mold_mm"] is None
    assert any("mix the jug" in n for n in jug["notes"])
    assert any(n.startswith("liquid_pa_s was left out") for n in jug["notes"])
    assert not any(n.startswith(("film_um", "set_s", "melt_pa_s")) for n in jug["notes"])


def test_near_its_own_density_a_grain_may_go_either_way():
    near = settle.answer({"particle": "salt", "size_mm": 0.2, "density_g_ml": 0.95})
    assert near["rate_mm_min"]["low"] < 0 < near["rate_mm_min"]["high"]
    assert any("may sink or rise" in n for n in near["notes"])
