"""Predicting a look: ranges, notes, modes and refusals."""

from __future__ import annotations

import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.color.cover import flake_cover
from pourwright.color.difference import difference
from pourwright.color.predict import predict
from pourwright.spectrum.color_space import xyz_of_hex

DYE = {"kind": "dye", "color_hex": "#4f6b2a"}
GREEN = {
    "name": "green", "per_100g": 0.2, "measure": "grams",
    "colorant": DYE,
}  # fmt: skip
MEASURED = {"strength": 1, "hiding": 0.01}


def look(**inputs):
    return predict.answer(inputs)


def test_the_example_answers_itself():
    answer = predict.answer(predict.example)
    assert len(answer["reflectance"]) == len(answer["wavelengths_nm"]) == 31
    assert not answer["calibrated"]
    assert any(n.startswith("uncalibrated") for n in answer["notes"])
    assert any("no glint" in n for n in answer["notes"])


def test_a_starter_color_is_shown_by_its_reference_puck():
    # By its own rule: 5 mm of 0.2 g in 100 g, poured on white.
    assert look(doses=[GREEN], thick_mm=5)["srgb_hex"] == "#4f6b2a"


@pytest.mark.parametrize(("kind", "widest"), [("dye", 22), ("opaque", 12), ("pearl", 14)])
def test_the_range_of_a_starter_color_is_wide_but_not_empty_talk(kind, widest):
    dose = GREEN | {"colorant": {"kind": kind, "color_hex": "#4f6b2a"}}
    lab = look(doses=[dose])["lab"]
    for value in lab.values():
        half = (value["high"] - value["low"]) / 2
        assert 3 < half < widest


def test_measured_fields_narrow_the_range():
    rough = look(doses=[GREEN])["lab"]["lightness"]
    known = GREEN | {"colorant": DYE | MEASURED}
    fine = look(doses=[known])["lab"]["lightness"]
    assert fine["high"] - fine["low"] < rough["high"] - rough["low"]


def test_the_notes_name_what_to_measure():
    notes = look(doses=[GREEN | {"measure": "drops", "per_100g": 5}])["notes"]
    assert any(n.startswith("green: strength was left out") for n in notes)
    assert any("weigh 20 drops" in n for n in notes)
    assert any(n.startswith("L*: the range comes mostly from") for n in notes)


def test_raw_plastic_is_light_slightly_yellow_and_slightly_hazy():
    white, dark = (look(backing=b)["lab"] for b in ("white", "dark"))
    assert white["lightness"]["typical"] > 75
    assert white["b"]["typical"] > 0
    assert 10 < dark["lightness"]["typical"] < 35


def test_raw_plastic_counts_as_measured_only_when_it_was():
    assert not look()["calibrated"]
    assert look(plastic={"haze_share": 0.03, "yellow_share": 0.05})["calibrated"]


def test_an_opaque_color_hides_its_ground_and_a_dye_does_not():
    for kind, most, least in (("opaque", 3, 0), ("dye", 100, 20)):
        dose = GREEN | {"colorant": {"kind": kind, "color_hex": "#d4476e"}}
        white, dark = (
            look(doses=[dose], backing=b)["lab"]["lightness"]["typical"] for b in ("white", "dark")
        )
        assert least <= white - dark <= most


def test_an_air_gap_is_not_contact():
    contact, gap = (look(placing=c) for c in ("contact", "air gap"))
    assert gap["reflectance"] != contact["reflectance"]


def test_a_ground_by_its_reflectance():
    same = look(backing="other", ground_share=0.85)
    assert same["reflectance"] == look(backing="white")["reflectance"]


@pytest.mark.parametrize("inputs", [{"backing": "other"}, {"ground_share": 0.5}])
def test_a_ground_and_its_reflectance_go_together(inputs):
    with pytest.raises(BadInput, match="goes with the ground") as refusal:
        look(**inputs)
    assert refusal.value.field == "ground_share"


def test_a_lamp_shifts_a_color():
    day, lamp = (look(doses=[GREEN], light=light)["xyz"] for light in ("D65", "A"))
    assert lamp[2] < day[2] / 2


def test_a_gray_stays_gray_under_a_lamp():
    gray = {"kind": "opaque", "color_hex": "#6e6e6e"}
    lab = look(doses=[GREEN | {"colorant": gray}], light="A")["lab"]
    assert abs(lab["a"]["typical"]) < 2
    assert abs(lab["b"]["typical"]) < 2


def test_a_color_beyond_the_screen_is_flagged():
    deep = {"kind": "dye", "color_hex": "#00c8a0"} | MEASURED
    dose = {"name": "teal", "per_100g": 2, "measure": "grams", "colorant": deep}
    assert not look(doses=[dose])["in_gamut"]
    assert look(doses=[GREEN], thick_mm=3)["in_gamut"]


def test_a_color_may_be_entered_as_lab():
    lab = {"kind": "dye", "lab": {"lightness": 41.6, "a": -19.3, "b": 33.0}}
    answer = look(doses=[GREEN | {"colorant": lab | MEASURED}], thick_mm=5)["lab"]
    assert answer["lightness"]["typical"] == pytest.approx(41.6, abs=0.01)
    assert answer["a"]["typical"] == pytest.approx(-19.3, abs=0.01)
    assert answer["b"]["typical"] == pytest.approx(33.0, abs=0.01)


@pytest.mark.parametrize(
    "colorant",
    [
        {"kind": "dye"},
        {"kind": "dye", "color_hex": "#112233", "lab": {"lightness": 1, "a": 0, "b": 0}},
    ],
)
def test_a_colorant_has_one_color(colorant):
    with pytest.raises(BadInput, match="give the color") as refusal:
        look(doses=[GREEN | {"colorant": colorant}])
    assert refusal.value.field == "doses[0].colorant.color_hex"


def test_an_impossible_color_has_no_answer():
    blaze = {"kind": "dye", "lab": {"lightness": 95, "a": 140, "b": -140}}
    with pytest.raises(NoAnswer, match="no surface shows the color"):
        look(doses=[GREEN | {"colorant": blaze}])


def test_an_unknown_kind_is_refused_with_the_kinds_there_are():
    with pytest.raises(BadInput, match="dye, opaque, pearl, flake"):
        look(doses=[GREEN | {"colorant": {"kind": "paint", "color_hex": "#112233"}}])


@pytest.mark.parametrize("color_hex", ["#12345", "123456", "#+1+1+1", "#1234567", "#ggffff"])
def test_only_six_hex_digits_are_a_screen_color(color_hex):
    with pytest.raises(BadInput, match="must look like"):
        xyz_of_hex(color_hex)


def test_a_dose_without_color_counts_as_clear_and_is_named():
    salt = {"name": "salt", "per_100g": 10, "measure": "grams"}
    answer = look(doses=[salt])
    assert answer["reflectance"] == look()["reflectance"]
    assert any("counted as clear" in n and "salt" in n for n in answer["notes"])


def test_more_flake_covers_more():
    copper = {"kind": "flake", "color_hex": "#b0713a"}
    seen = [
        look(doses=[GREEN, {"name": "copper", "per_100g": g, "measure": "grams",
                            "colorant": copper}])["lab"]["a"]["typical"]
        for g in (0, 0.3, 1)
    ]  # fmt: skip
    assert seen[0] < seen[1] < seen[2]


def test_a_difference_in_words():
    gray = {"lightness": 50, "a": 0, "b": 0}
    for step, words in ((0.5, "no difference to see"), (30, "another color")):
        answer = difference.answer({"first": gray, "second": gray | {"lightness": 50 + step}})
        assert answer["words"] == words
        assert answer["delta_e76"] == pytest.approx(step)


def test_cover_of_flake_grows_with_depth_to_the_whole():
    answer = flake_cover.answer(flake_cover.example)
    shares = [s["typical"] for s in answer["cover_by_depth"]]
    assert shares == sorted(shares)
    assert shares[-1] == answer["cover"]["typical"]
    assert answer["depths_mm"][-1] == 10
    # 0.3 g in 100 g of 10 g baits is 0.03 g a bait.
    assert answer["flakes_each"]["typical"] == pytest.approx(
        0.03 * answer["flakes_per_gram"]["typical"]
    )


def test_a_film_nobody_measured_widens_the_cover_and_says_so():
    rough = flake_cover.answer({"size_mm": 0.4, "grams_per_100g": 0.3})
    fine = flake_cover.answer({"size_mm": 0.4, "grams_per_100g": 0.3, "film_um": 25})
    width = [a["cover"]["high"] - a["cover"]["low"] for a in (rough, fine)]
    assert width[1] < width[0] < 0.5
    assert any("read the supplier's sheet" in n for n in rough["notes"])
