"""What a person reads when a bait is measured, weighed or blended."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json
from pourwright.blend.density import density
from pourwright.blend.hardness import hardness
from pourwright.body.families.craw import Craw
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.tube import Tube
from pourwright.body.families.worm import Worm
from pourwright.body.measure import MeasureInput, measure
from pourwright.body.weigh import WeighInput, weigh


@pytest.mark.parametrize("calculation", [measure, weigh, hardness, density])
def test_a_calculation_answers_its_own_example(calculation):
    assert calculation.answer(calculation.example)["notes"]


@pytest.mark.parametrize(
    ("kind", "values", "field"),
    [
        ("worm", {"tail_diameter_mm": 12}, "tail_diameter_mm"),
        ("worm", {"length_mm": 20, "diameter_mm": 15}, "diameter_mm"),
        ("stick", {"end_mm": 11}, "end_mm"),
        ("stick", {"length_mm": 20, "middle_mm": 11}, "middle_mm"),
        ("curl_tail_grub", {"tail_thick_mm": 9}, "tail_thick_mm"),
        ("curl_tail_grub", {"root_mm": 14}, "root_mm"),
        ("curl_tail_grub", {"tail_width_mm": 20}, "tail_width_mm"),
        ("curl_tail_grub", {"body_length_mm": 12}, "body_mm"),
        ("curl_tail_grub", {"curl_radius_mm": 80, "curl_degrees": 270}, "curl_radius_mm"),
        ("paddle_tail", {"stem_mm": 14}, "stem_mm"),
        ("paddle_tail", {"height_mm": 61}, "height_mm"),
        ("paddle_tail", {"paddle_thick_mm": 11}, "paddle_thick_mm"),
        ("paddle_tail", {"paddle_height_mm": 61}, "paddle_height_mm"),
        ("craw", {"claw_length_mm": 60}, "claw_length_mm"),
        ("craw", {"claw_thick_mm": 11}, "claw_thick_mm"),
        ("craw", {"claw_width_mm": 33}, "claw_width_mm"),
        ("craw", {"body_mm": 35}, "body_mm"),
        ("tube", {"wall_mm": 7}, "wall_mm"),
        ("tube", {"slits": 7}, "slits"),
        ("tube", {"skirt_mm": 80}, "skirt_mm"),
        ("tube", {"slits": 40, "slit_mm": 1}, "slit_mm"),
        ("tube", {"wall_mm": 4, "nose_mm": 3}, "nose_mm"),
    ],
)
def test_impossible_measures_are_refused_by_name(kind, values, field):
    with pytest.raises(BadInput, match=rf"^family\.{field}: "):
        from_json(MeasureInput, {"family": {"kind": kind, **values}})


def test_an_unknown_family_is_refused_with_the_list():
    with pytest.raises(BadInput, match=r"^family\.kind: must be one of worm, stick"):
        measure.answer({"family": {"kind": "spoon"}})


def test_only_the_tube_needs_a_core_pin():
    tube = measure(MeasureInput(family=Tube()))
    assert "core pin" in tube.undercut
    assert any("core pin" in note for note in tube.notes)
    assert measure(MeasureInput(family=Craw())).undercut == ""


def test_a_craw_shows_its_legs_and_claws_in_its_outline():
    bare, legged = (measure(MeasureInput(family=Craw(leg_pairs=n))) for n in (0, 3))
    assert legged.shadow_cm2 > bare.shadow_cm2
    (outline,) = bare.outline_mm
    y = np.array(outline)[:, 1]
    assert y.max() == pytest.approx(-y.min(), abs=0.1)
    assert y.max() > 12


def test_a_swimbait_hangs_its_belly_lower_than_its_back():
    (outline,) = measure(MeasureInput(family=PaddleTail())).outline_mm
    y = np.array(outline)[:, 1]
    assert -y.min() > y.max() + 1


def test_a_ruler_note_says_what_a_slip_costs():
    # Skin pi 10 160 mm2 times 0.125 mm over pi 25 150 + 4/3 pi 125 mm3: 5.1 %.
    rod = Worm(length_mm=160, diameter_mm=10, tail_diameter_mm=10, rings=0, sac_mm=0)
    assert any("moves the volume by 5%" in n for n in measure(MeasureInput(family=rod)).notes)


def test_the_answer_is_kept_for_the_same_bait():
    assert measure(MeasureInput(family=Craw())) is measure(MeasureInput(family=Craw()))


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"gained_g": 0}, "gained_g"),
        ({"gained_g": 1}, "gained_g"),
        ({"gained_g": 100}, "gained_g"),
        ({"air_g": 0}, "air_g"),
        ({"water_c": 41}, "water_c"),
        ({"water_c": float("nan")}, "water_c"),
        ({"scale_step_g": 5}, "scale_step_g"),
        ({"repeat_g": 4}, "repeat_g"),
    ],
)
def test_an_impossible_weighing_is_refused_by_name(values, field):
    with pytest.raises(BadInput, match=f"^{field}: "):
        from_json(WeighInput, {"air_g": 12.1, "gained_g": 11.4} | values)


def test_a_wrong_weighing_says_what_may_have_happened():
    with pytest.raises(BadInput, match=r"12\.10 g/mL.*did it touch the glass"):
        WeighInput(air_g=12.1, gained_g=1.0)


def test_a_weighing_warns_of_wet_plastic_and_names_its_defaults():
    notes = weigh(WeighInput(air_g=12.1, gained_g=11.4)).notes
    assert any("flashes to steam" in note for note in notes)
    assert any(note.startswith("water_c was left out") for note in notes)
    assert any("steps by 0.1 g" in note for note in notes)
    assert any("weigh it three times" in note for note in notes)


def test_repeated_weighings_narrow_the_band():
    usual = weigh(WeighInput(air_g=12.1, gained_g=11.4))
    steady = weigh(WeighInput(air_g=12.1, gained_g=11.4, repeat_g=0.02))
    assert steady.volume_ml.half_width < 0.8 * usual.volume_ml.half_width


SOFT = {"name": "soft", "hardness_oo": 30, "grams_g": 60}
FIRM = {"name": "firm", "hardness_oo": 70, "grams_g": 40}


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"grades": [SOFT]}, "^grades: must have 2 to 8"),
        ({"grades": [SOFT, {}]}, r"^grades\[1\]\.hardness_oo: give either"),
        ({"grades": [SOFT, FIRM | {"hardness_a": 20}]}, r"^grades\[1\]\.hardness_oo: give either"),
        (
            {"grades": [SOFT, SOFT, FIRM], "target_oo": 40},
            "^grades: a target or own pucks need two",
        ),
        (
            {"grades": [{"hardness_oo": 30}, {"hardness_oo": 70}]},
            "^grades: give grams, or a target",
        ),
        ({"grades": [SOFT, FIRM], "softener_per_100g": -1}, "^softener_per_100g: must lie"),
        ({"grades": [SOFT, FIRM], "pucks": [{"share": 0.5, "hardness_oo": 50}]}, "^pucks: a line"),
    ],
)
def test_an_impossible_blend_is_refused_by_name(values, why):
    with pytest.raises(BadInput, match=why):
        hardness.answer(values)


def test_two_equal_grades_reach_no_target():
    with pytest.raises(NoAnswer, match="equally hard"):
        hardness.answer({"grades": [SOFT, SOFT], "target_oo": 30})


def test_a_stiff_grade_says_that_its_scale_was_turned():
    stiff = {"name": "hardener", "hardness_a": 40, "grams_g": 10}
    notes = hardness.answer({"grades": [SOFT, stiff]})["notes"]
    assert any("Shore A turns into Shore OO" in note for note in notes)


def test_softener_is_marked_an_estimate():
    answer = hardness.answer({"grades": [SOFT, FIRM], "softener_per_100g": 8})
    assert any("pour a puck of the blend" in note for note in answer["notes"])


def test_a_blend_beyond_the_pucks_says_so():
    pucks = [{"share": 0.1, "hardness_oo": 66}, {"share": 0.4, "hardness_oo": 54}]
    answer = hardness.answer({"grades": [SOFT, FIRM], "pucks": pucks})
    assert any("beyond your pucks" in note for note in answer["notes"])


def test_a_share_near_its_end_says_that_it_stops_there():
    answer = hardness.answer({"grades": [SOFT, FIRM], "target_oo": 31})
    assert answer["share"]["high"] == 1
    assert any("the share stops there" in note for note in answer["notes"])


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({}, "^target_g_ml: give one of parts, share and target"),
        ({"share": 0.1, "target_g_ml": 1.1}, "^target_g_ml: give one of"),
        ({"additive": "other", "share": 0.1}, "^additive_g_ml: is required"),
        ({"additive": "sand", "share": 0.1}, "^additive: must be one of salt, hollow_glass"),
        ({"share": 0.9}, "^share: must lie between 0 and 0.8"),
    ],
)
def test_an_impossible_density_is_refused_by_name(values, why):
    with pytest.raises(BadInput, match=why):
        density.answer(values)


def test_salt_leaches_and_neutral_names_its_water():
    notes = density.answer({"base_g_ml": 1.05, "target_g_ml": 1.12})["notes"]
    assert any("leaches" in note for note in notes)
    assert any("fresh water" in note and "sinks" in note for note in notes)
    assert any("bone dry" in note for note in notes)


def test_glass_floats_a_bait_in_both_waters():
    answer = density.answer(
        {"base_g_ml": 1.05, "additive": "hollow_glass", "additive_g_ml": 0.2, "target_g_ml": 0.9}
    )
    floats = [note for note in answer["notes"] if "plain bait floats" in note]
    assert len(floats) == 2
    assert any("of the volume" in note for note in answer["notes"]) is False


def test_a_heavy_load_of_salt_pours_thick():
    notes = density.answer({"base_g_ml": 1.05, "parts_per_100g": 90})["notes"]
    assert any("pour thick" in note for note in notes)


def test_an_unmeasured_base_may_not_reach_a_close_target():
    notes = density.answer({"target_g_ml": 1.06})["notes"]
    assert any("cannot reach the target" in note for note in notes)
    assert any(note.startswith("base_g_ml was left out") for note in notes)
