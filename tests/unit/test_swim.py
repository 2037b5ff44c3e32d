"""What a person reads when a bait sinks, hangs or is pressed, and what is refused."""

from __future__ import annotations

import math
from typing import Any

import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.blend.hang import hang
from pourwright.blend.hardness import hardness
from pourwright.blend.press_test import press_test
from pourwright.blend.sink import sink

STICK: dict[str, Any] = {
    "mass_g": 8.2, "density_g_ml": 1.06, "length_mm": 127, "thick_mm": 9.5, "shadow_cm2": 11.1,
    "water_c": 18,
}  # fmt: skip
HOOK = {"name": "hook", "mass_g": 1.4, "at_mm": 30, "up_mm": -4}
PRESS = {"ball_mm": 12, "load_g": 100, "indent_mm": 1.2, "puck_mm": 20}


@pytest.mark.parametrize("calculation", [sink, hang, press_test])
def test_a_calculation_answers_its_own_example(calculation):
    done = calculation.answer(calculation.example)
    assert done["notes"]
    assert done == calculation.answer(dict(calculation.example))


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"density_g_ml": None}, "density_g_ml", "give two of"),
        ({"volume_ml": 8}, "density_g_ml", "give two of"),
        ({"mass_g": None, "hung_g": 0.4}, "hung_g", "goes with a mass or a volume"),
        ({"density_g_ml": None, "hung_g": 9}, "hung_g", "must be less than the weight in air"),
        (
            {"mass_g": None, "density_g_ml": None, "volume_ml": 5, "hung_g": -30},
            "hung_g",
            "leaves the bait no mass",
        ),
        ({"thick_mm": 90, "length_mm": 60}, "thick_mm", "must not exceed the length"),
        ({"center_x_mm": 130}, "center_x_mm", "must lie within the 127 mm"),
        ({"shadow_center_mm": 130}, "shadow_center_mm", "must lie within the 127 mm"),
        ({"salinity": 43}, "salinity", "between 0 and 42"),
        ({"water_c": 41}, "water_c", "between 0 and 40"),
        ({"length_mm": math.nan}, "length_mm", "finite"),
        ({"weights": [{"mass_g": 1}]}, "weights[0].at_mm", "is required"),
        ({"weights": [HOOK | {"metal": "gold"}]}, "weights[0].metal", "must be one of"),
    ],
)
def test_a_bait_that_cannot_be_is_refused_by_name(changed, field, words):
    with pytest.raises(BadInput, match=words) as caught:
        sink.answer(STICK | changed)
    assert caught.value.field == field


def test_notes_name_the_defaults_that_stand_in():
    bare = sink.answer({**STICK, "shadow_cm2": None, "water_c": None})["notes"]
    for name in ("water_c", "shadow_cm2", "center_x_mm"):
        assert any(note.startswith(f"{name} was left out") for note in bare)
    told = sink.answer(STICK | {"center_x_mm": 63.5})["notes"]
    assert not any("was left out" in note for note in told)


def test_close_to_neutral_it_says_so_and_how_to_settle_it():
    close = sink.answer(STICK | {"density_g_ml": 1.001})
    assert 0.05 < close["sinks_share"] < 0.95
    assert any("Close to neutral" in n for n in close["notes"])
    assert any("hang it on a thread in fresh water" in n for n in close["notes"])
    assert any("an hour stands in" in n for n in close["notes"])
    far = sink.answer(STICK)
    assert not any("neutral" in n for n in far["notes"])
    # The same bait weighed in water on a fine scale is settled.
    fine = sink.answer(STICK | {"density_g_ml": None, "hung_g": 0.023, "scale_step_g": 0.001})
    assert fine["sinks_share"] == 1
    assert fine["speed_m_s"]["low"] > 0


def test_the_same_bait_sinks_in_the_lake_and_floats_in_the_sea():
    lake, sea = (sink.answer(STICK | {"density_g_ml": 1.012, "salinity": s}) for s in (0, 35))
    assert lake["speed_m_s"]["low"] > 0 > sea["speed_m_s"]["high"]
    assert lake["to_depth_s"] is not None
    assert sea["to_depth_s"] is None


def test_a_hook_under_the_nose_glides_and_a_jig_head_dives():
    plain, hooked, jig = (
        sink.answer(STICK | {"weights": weights})
        for weights in ([], [HOOK], [HOOK | {"mass_g": 7, "at_mm": 4}])
    )
    assert (plain["attitude"], plain["level_share"]) == ("level", pytest.approx(1, abs=0.05))
    assert hooked["attitude"] == "slanting, nose ahead"
    assert hooked["path_deg"]["typical"] < 80
    assert jig["attitude"] == "nose first"
    assert jig["speed_m_s"]["typical"] > hooked["speed_m_s"]["typical"]


@pytest.mark.parametrize("calculation", [sink, hang])
def test_lead_is_warned_of(calculation):
    base = dict(calculation.example)
    for metal, said in (("lead", True), ("tungsten", False)):
        notes = calculation.answer(base | {"weights": [HOOK | {"metal": metal}]})["notes"]
        assert any(n.startswith("Lead is poisonous") for n in notes) is said


def test_a_bait_without_a_hook_sits_any_way():
    done = hang.answer({"mass_g": 10, "density_g_ml": 1.05, "buoyancy_at_mm": 50})
    assert (done["free"], done["free_deg"]) == ("any way", None)
    assert any("any twitch turns the bait" in n for n in done["notes"])


def test_a_floating_bait_and_a_turned_one_are_named():
    base = {"mass_g": 10, "density_g_ml": 0.9, "buoyancy_at_mm": 50}
    done = hang.answer(base | {"weights": [{"mass_g": 0.3, "at_mm": 50, "up_mm": 15}]})
    assert done["free"] == "turned over"
    assert any("rolls over onto its back" in n for n in done["notes"])
    assert any("It floats" in n for n in done["notes"])


def test_the_angle_band_is_a_few_degrees_where_the_rig_is_known():
    done = hang.answer(hang.example)
    for name in ("free_deg", "on_line_deg"):
        assert 0 < done[name]["high"] - done[name]["low"] < 20


def test_a_middle_of_mass_of_its_own_counts():
    base = {"mass_g": 10, "density_g_ml": 1.05, "buoyancy_at_mm": 50}
    done = hang.answer(base | {"mass_up_mm": -3, "mass_at_mm": 50})
    assert done["free"] == "level"
    ahead = hang.answer(base | {"mass_up_mm": -3, "mass_at_mm": 47})
    assert ahead["free_deg"]["typical"] == pytest.approx(45, abs=0.01)
    assert ahead["free"] == "nose down"


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"indent_mm": 7}, "press.indent_mm", "deeper than the ball's radius"),
        ({"indent_mm": 0.15}, "press.indent_mm", "too little to read"),
        ({"ball_mm": 40, "indent_mm": 10, "puck_mm": 12}, "press.puck_mm", "too thin"),
    ],
)
def test_a_dent_that_tells_nothing_is_refused(changed, field, words):
    with pytest.raises(BadInput, match=words) as caught:
        press_test.answer({"press": PRESS | changed})
    assert caught.value.field == field


def test_the_known_puck_is_checked_under_the_same_ball():
    known = {"indent_mm": 7, "puck_mm": 20, "hardness_oo": 30}
    with pytest.raises(BadInput, match="deeper than the ball's radius") as caught:
        press_test.answer({"press": PRESS, "known": known})
    assert caught.value.field == "known.indent_mm"


def test_a_puck_softer_than_the_gauge_has_a_modulus_all_the_same():
    soft = press_test.answer({"press": PRESS | {"load_g": 20, "indent_mm": 3}})
    assert soft["hardness_oo"] is None
    assert soft["modulus_kpa"]["typical"] < 30
    assert any("does not read so soft" in n for n in soft["notes"])


def test_a_pressed_ball_names_a_hardness_within_ten_or_so():
    done = press_test.answer({"press": PRESS})["hardness_oo"]
    assert 12 < done["high"] - done["low"] < 26


def test_a_thin_puck_is_said_to_be_thin():
    thin, thick = (press_test.answer({"press": PRESS | {"puck_mm": t}}) for t in (6, 80))
    assert any("or two stacked" in n for n in thin["notes"])
    assert not any("or two stacked" in n for n in thick["notes"])
    assert thin["floor_share"] > 0.3
    assert thick["floor_share"] < 0.1


def test_a_pressed_puck_stands_in_for_a_gauge_in_a_blend():
    pressed = press_test.answer({"press": PRESS})["hardness_oo"]
    grades = [{"press": PRESS, "grams_g": 50}, {"hardness_oo": 70, "grams_g": 50}]
    done = hardness.answer({"grades": grades})
    by_number = hardness.answer(
        {"grades": [{"hardness_oo": pressed["typical"], "grams_g": 50}, grades[1]]}
    )
    assert done["hardness_oo"]["typical"] == pytest.approx(by_number["hardness_oo"]["typical"])
    wide, narrow = (a["hardness_oo"]["high"] - a["hardness_oo"]["low"] for a in (done, by_number))
    assert wide > narrow
    assert any("pressed ball is a coarse gauge" in n for n in done["notes"])
    pucks = [{"share": 0.2, "press": PRESS}, {"share": 0.8, "hardness_oo": 60}]
    line = hardness.answer({"grades": grades, "pucks": pucks})
    assert pressed["typical"] < line["hardness_oo"]["typical"] < 60


def test_a_puck_read_twice_or_never_is_refused():
    grades = [{"hardness_oo": 30, "grams_g": 1}, {"hardness_oo": 70, "grams_g": 1}]
    for puck in ({"share": 0.2}, {"share": 0.2, "hardness_oo": 40, "press": PRESS}):
        with pytest.raises(BadInput, match="give either Shore OO"):
            hardness.answer({"grades": grades, "pucks": [puck, {"share": 0.9, "hardness_oo": 50}]})


def test_shore_a_says_that_two_laws_disagree():
    grades = [{"hardness_a": 50, "grams_g": 10}, {"hardness_oo": 40, "grams_g": 10}]
    notes = hardness.answer({"grades": grades})["notes"]
    assert any("Two printed laws disagree" in n and "+39% over Gent" in n for n in notes)
    soft = [{"hardness_a": 10, "grams_g": 10}, grades[1]]
    assert not any("disagree" in n for n in hardness.answer({"grades": soft})["notes"])


def test_the_softener_by_name_changes_the_blend():
    grades = [{"hardness_oo": 60, "grams_g": 50}, {"hardness_oo": 70, "grams_g": 50}]
    strong, plain, weak = (
        hardness.answer({"grades": grades, "softener_per_100g": 15, "softener": name})
        for name in ("dibutyl phthalate", None, "diisodecyl phthalate")
    )
    values = [a["hardness_oo"]["typical"] for a in (strong, plain, weak)]
    assert values == sorted(values)
    assert values[0] < values[2] - 0.5


def test_a_blend_softer_than_the_gauge_has_no_answer():
    grades = [{"hardness_oo": 6, "grams_g": 50}, {"hardness_oo": 8, "grams_g": 50}]
    with pytest.raises(NoAnswer, match="outside what a Shore OO gauge reads"):
        hardness.answer({"grades": grades, "softener_per_100g": 60})
