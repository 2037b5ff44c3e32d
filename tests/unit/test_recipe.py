"""Scaling a recipe: drops, spoons, scale steps, refusals and notes."""

from __future__ import annotations

import pytest

from pourwright.base.errors import BadInput
from pourwright.color import spoon
from pourwright.color.recipe import recipe_scale


def scaled(plastic_g=200.0, *, doses, **more):
    return recipe_scale.answer({"plastic_g": plastic_g, "doses": doses, **more})


def test_the_example_answers_itself():
    answer = recipe_scale.answer(recipe_scale.example)
    green, flake, stabilizer = answer["doses"]
    # 6 drops × 3.36 = 20.16; 0.25 tsp × 3.36 = 0.84; 1 g × 3.36 on a scale of 0.1 g.
    assert (green["drops"], green["spoons"]) == (20, "")
    assert green["error_share"] == pytest.approx(20 / 20.16 - 1)
    assert green["error_g"] == pytest.approx(-0.16 * 0.036)
    assert (flake["drops"], flake["spoons"]) == (None, "1/2 + 1/4 + 1/8 tsp")
    assert flake["measured_g"] == pytest.approx(0.875 * 2.8)
    assert stabilizer["scale_g"] == 3.4
    assert 0 < answer["color_shift"] < 1


def test_the_scale_shows_what_was_dripped():
    (dose,) = scaled(doses=[{"name": "green", "per_100g": 10, "drop_mass_g": 0.033}])["doses"]
    assert dose["drops"] == 20
    assert dose["measured_g"] == pytest.approx(0.66)
    assert dose["scale_g"] == 0.7


@pytest.mark.parametrize(("per_100g", "drops"), [(0.2, 0), (0.6, 1)])
def test_a_drop_or_none_asks_for_a_bigger_cup(per_100g, drops):
    (dose,) = scaled(doses=[{"name": "green", "per_100g": per_100g}])["doses"]
    assert dose["drops"] == drops
    assert "bigger cup" in dose["note"]
    assert "1:10" in dose["note"]


def test_half_a_drop_is_left_out():
    (dose,) = scaled(50, doses=[{"name": "green", "per_100g": 5}])["doses"]
    assert dose["drops"] == 2
    assert dose["error_share"] == pytest.approx(-0.2)
    assert "-20%" in dose["note"]


def test_no_dose_needs_no_drops():
    (dose,) = scaled(doses=[{"name": "green", "per_100g": 0}])["doses"]
    assert (dose["drops"], dose["error_share"], dose["note"]) == (0, 0, "")


def test_an_unweighed_drop_gives_a_range_and_says_so():
    answer = scaled(doses=[{"name": "green", "per_100g": 10}])
    grams = answer["doses"][0]["grams"]
    # 20 drops of 0.02 to 0.05 g.
    assert grams["low"] == pytest.approx(0.4, rel=0.05)
    assert grams["high"] == pytest.approx(1.0, rel=0.05)
    assert any("weigh 20 drops" in n for n in answer["notes"])


def test_an_unweighed_spoon_gives_a_range_and_says_so():
    answer = scaled(doses=[{"name": "flake", "per_100g": 0.5, "measure": "level teaspoons"}])
    grams = answer["doses"][0]["grams"]
    assert grams["low"] == pytest.approx(1.5, rel=0.1)
    assert grams["high"] == pytest.approx(5, rel=0.1)
    assert any("five level teaspoons" in n for n in answer["notes"])
    assert not any("drop" in n for n in answer["notes"])


@pytest.mark.parametrize(
    ("tsp", "sizes", "words"),
    [
        (1.25, spoon.KITCHEN_SPOONS, "1 + 1/4 tsp"),
        (2.26, spoon.KITCHEN_SPOONS, "2 × 1 + 1/4 tsp"),
        (0.75, spoon.KITCHEN_SPOONS, "1/2 + 1/4 tsp"),
        (0.66, (1.0, 1 / 3, 0.25), "2 × 1/3 tsp"),
        (1.0, (3.0, 0.5, 0.125), "2 × 1/2 tsp"),
        (3.1, (3.0, 1.0), "3 tsp"),
        (0.03, spoon.KITCHEN_SPOONS, "none"),
        (0.51, (0.507,), "0.507 tsp"),
    ],
)
def test_spoons_in_words(tsp, sizes, words):
    assert spoon.in_words(spoon.spooned(tsp, sizes)) == words


def test_too_little_for_the_smallest_spoon_is_weighed():
    (dose,) = scaled(
        20, doses=[{"name": "pearl", "per_100g": 0.25, "measure": "level teaspoons", "spoon_g": 2}]
    )["doses"]
    assert dose["spoons"] == "none"
    assert dose["error_share"] == -1
    assert "weigh it instead" in dose["note"]


def test_a_spoon_bigger_than_the_batch_is_refused():
    # 3 tsp hold 14.8 mL; 10 g of plastic are under 10 mL.
    with pytest.raises(BadInput, match="bigger than the whole batch") as refusal:
        scaled(10, doses=[{"name": "salt", "per_100g": 1}], spoon_sizes_tsp=[0.5, 3])
    assert (refusal.value.field, refusal.value.value) == ("spoon_sizes_tsp", 3)


def test_a_spoonful_heavier_than_the_batch_is_refused():
    with pytest.raises(BadInput, match="weighs more than the whole batch"):
        scaled(
            5,
            doses=[{"name": "salt", "per_100g": 1, "measure": "level teaspoons", "spoon_g": 12}],
            spoon_sizes_tsp=[0.9],
        )


@pytest.mark.parametrize(
    "dose",
    [
        {"name": "salt", "per_100g": 101, "measure": "grams"},
        {"name": "salt", "per_100g": 20, "measure": "level teaspoons", "spoon_g": 5.8},
    ],
)
def test_a_dose_that_outweighs_its_plastic_is_refused(dose):
    with pytest.raises(BadInput, match="outweighs") as refusal:
        scaled(doses=[dose])
    assert refusal.value.field == "doses[0].per_100g"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"plastic_g": -1}, "plastic_g"),
        ({"plastic_g": float("nan")}, "plastic_g"),
        ({"plastic_g": False}, "plastic_g"),
        ({"doses": []}, "doses"),
        ({"scale_step_g": 0}, "scale_step_g"),
        ({"spoon_sizes_tsp": [-1]}, "spoon_sizes_tsp"),
        ({"spoon": 1}, "spoon"),
    ],
)
def test_nonsense_is_refused_by_name(change, field):
    with pytest.raises(BadInput, match=r".") as refusal:
        recipe_scale.answer({"plastic_g": 100, "doses": [{"name": "x", "per_100g": 1}]} | change)
    assert refusal.value.field == field


def test_without_colors_the_shift_is_unknown_and_said_so():
    answer = scaled(doses=[{"name": "salt", "per_100g": 5, "measure": "grams"}])
    assert answer["color_shift"] is None
    assert any("unknown" in n for n in answer["notes"])


def test_rounding_a_strong_color_shows():
    green = {"kind": "dye", "color_hex": "#1f6b2a"}
    few = scaled(30, doses=[{"name": "green", "per_100g": 5, "colorant": green}])
    many = scaled(3000, doses=[{"name": "green", "per_100g": 5, "colorant": green}])
    # 1.5 drops become 1; 150 stay 150.
    assert few["color_shift"] > 2
    assert many["color_shift"] == pytest.approx(0, abs=1e-9)


def test_the_same_seed_gives_the_same_answer():
    doses = [{"name": "green", "per_100g": 7}]
    assert scaled(doses=doses, seed=4) == scaled(doses=doses, seed=4)
