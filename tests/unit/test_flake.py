"""A flake in a tinted bait, step by step."""

from __future__ import annotations

import pytest

from pourwright.base.errors import BadInput
from pourwright.color.cover import flake_cover

COPPER = {"size_mm": 0.4, "film_um": 25, "grams_per_100g": 0.3, "color_hex": "#b0713a"}


def tint(drops):
    return {"name": "green", "per_100g": drops, "drop_mass_g": 0.036,
            "colorant": {"kind": "dye", "color_hex": "#4f6b2a"}}  # fmt: skip


def ask(**changes):
    return flake_cover.answer(COPPER | changes)


def test_a_tint_dims_flakes_and_takes_them_to_the_top():
    weak, strong = (ask(doses=[tint(n)], backing="dark") for n in (1, 12))
    assert strong["contrast_by_depth"][0]["typical"] < weak["contrast_by_depth"][0]["typical"]
    assert strong["signal_by_depth"][0]["typical"] > weak["signal_by_depth"][0]["typical"]
    assert strong["cover"] == weak["cover"]


def test_the_words_follow_what_is_seen():
    assert "still show as points" in ask()["texture"]
    assert "run together" in ask(size_mm=0.1)["texture"]
    assert "still show as points" in ask(size_mm=0.1, arm_m=0.2)["texture"]
    assert "close up, and hardly any plastic" in ask(grams_per_100g=8)["texture"]
    assert ask(grams_per_100g=0)["texture"] == "no flake in it"


def test_a_flake_of_the_color_of_its_plastic_is_lost_in_it():
    # The bait's own color as a screen shows it, given to the flake.
    plain = ask(doses=[tint(6)])["plain_hex"]
    answer = ask(doses=[tint(6)], color_hex=plain)
    assert answer["flake_de00"]["typical"] < 1
    assert "lost in it" in answer["texture"]
    assert answer["points"] is False


def test_no_flake_is_an_answer_too():
    answer = ask(grams_per_100g=0)
    assert answer["close_up"]["plates"] == []
    assert answer["whole_hex"] == answer["plain_hex"]
    assert answer["spoons"] == "none"
    assert answer["in_sight_per_cm2"]["high"] == 0


def test_another_seed_is_another_piece_of_the_bait():
    assert ask(seed=1)["close_up"] == ask(seed=1)["close_up"]
    assert ask(seed=1)["close_up"] != ask(seed=2)["close_up"]


def test_a_spoon_nobody_weighed_widens_the_teaspoons_and_says_so():
    rough, fine = ask(), ask(spoon_g=2.8)
    assert rough["teaspoons"]["high"] > 2 * rough["teaspoons"]["low"]
    assert fine["teaspoons"]["high"] == pytest.approx(fine["teaspoons"]["low"])
    assert any("weigh five level teaspoons" in n for n in rough["notes"])
    assert not any("spoon_g" in n for n in fine["notes"])


def test_what_stands_in_is_named():
    notes = " ".join(ask(color_hex="")["notes"])
    assert "silver (#b8b8b8) stands in" in notes
    assert "no tint was given" in notes
    assert "counted as clear" in " ".join(ask(doses=[{"name": "oil", "per_100g": 2}])["notes"])
    assert "uncalibrated" in " ".join(ask(doses=[tint(2)])["notes"])


@pytest.mark.parametrize(
    ("changes", "match"),
    [
        ({"size_mm": 0}, "size_mm: must lie between 0.05 and 6"),
        ({"grams_per_100g": 31}, "grams_per_100g: must lie between 0 and 30"),
        ({"color_hex": "copper"}, "color_hex: must look like"),
        ({"backing": "other"}, "goes with the ground 'other'"),
        (
            {"doses": [tint(1) | {"colorant": {"kind": "flake", "color_hex": "#ffffff"}}]},
            "is flake",
        ),
    ],
)
def test_bad_input_is_named(changes, match):
    with pytest.raises(BadInput, match=match):
        ask(**changes)
