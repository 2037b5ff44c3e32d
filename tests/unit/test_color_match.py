"""Recipes for a target: found, ranked, eased, proven, refused."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

import color_bench
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.color.match.answer import match
from pourwright.spectrum.difference import delta_e00

GLOW = {"name": "glow", "colorant": {"kind": "fluorescent", "color_hex": "#30ff40"}}


def wanted(wished, **more):
    light, a, b = (float(v) for v in wished)
    return match.answer(
        {
            "target": {"lab": {"lightness": light, "a": a, "b": b}},
            "shelf": color_bench.shelf(), "plastic": color_bench.plastic(),
            "backing": "other", "ground_share": 0.86, "thick_mm": 8, "plastic_g": 100,
        }
        | more
    )  # fmt: skip


def shown(drops, thick_mm=8.0):
    return color_bench.lab(drops, thick_mm=thick_mm, ground=color_bench.GROUNDS["white"])


def test_a_recipe_somebody_poured_is_found_again():
    answer = wanted(shown({"yellow": 7, "blue": 3}))
    best = answer["closest"][0]
    assert best["delta_e00"] < 0.05
    assert {d["name"]: d["steps"] for d in best["doses"]} == {"yellow": 7, "blue": 3}
    assert not answer["proven"]
    assert answer["gap"] is None


def test_no_recipe_of_three_is_nearer_than_the_one_found():
    # Brute force (closed form): every recipe of up to 8 drops of three bottles.
    target = shown({"yellow": 3.4, "blue": 1.3, "red": 0.6})
    grid = itertools.product(range(9), repeat=3)
    best = min(
        float(delta_e00(shown(dict(zip(("red", "yellow", "blue"), g, strict=True))), target))
        for g in grid
    )
    answer = wanted(target, most_colorants=3, shelf=color_bench.shelf()[1:])
    assert answer["closest"][0]["delta_e00"] <= best + 0.02


def test_a_proof_says_so_and_finds_nothing_nearer():
    target = shown({"yellow": 3.4, "blue": 1.3})
    quick = wanted(target, most_drops=20)
    sure = wanted(target, most_drops=20, proof=True)
    assert sure["proven"]
    assert sure["gap"] == pytest.approx(0, abs=1e-9)
    assert sure["closest"][0]["delta_e00"] <= quick["closest"][0]["delta_e00"] + 1e-9


def test_a_proof_around_flake_is_refused_in_words():
    flake = {"name": "flake", "per_100g": 0.5, "measure": "grams",
             "colorant": {"kind": "flake", "color_hex": "#c0c0c0"}}  # fmt: skip
    with pytest.raises(NoAnswer, match="flake"):
        wanted(shown({"yellow": 3}), fixed=[flake], proof=True)


def test_flake_is_part_of_what_a_target_means():
    flake = {"name": "flake", "per_100g": 0.6, "measure": "grams",
             "colorant": {"kind": "flake", "color_hex": "#d8d8d8", "film_um": 25}}  # fmt: skip
    target = shown({"blue": 6})
    plain = wanted(target)["closest"][0]
    around = wanted(target, fixed=[flake])["closest"][0]
    assert around["doses"] != plain["doses"]


def test_where_a_drop_is_too_coarse_a_bigger_cup_or_a_letdown_is_named():
    answer = wanted(shown({"yellow": 1.5, "red": 0.3, "blue": 0.35}), plastic_g=20, most_drops=5)
    assert answer["closest"][0]["delta_e00"] - answer["unrounded"] > 0.7
    words = " ".join(e["words"] for e in answer["eased"])
    assert "down 1:10" in words or "make 40 g" in words
    assert all(e["score"] < answer["closest"][0]["score"] for e in answer["eased"])


def test_a_color_no_shelf_reaches_is_told_why():
    answer = wanted([55, 80, -60])
    assert answer["closest"][0]["delta_e00"] > 4
    assert "too dull" in answer["why_none_is_close"]


def test_what_glows_is_left_out_in_words():
    answer = wanted(shown({"yellow": 5}), shelf=[*color_bench.shelf(), GLOW])
    assert any("glow" in n for n in answer["notes"])
    assert all(d["name"] != "glow" for r in answer["closest"] for d in r["doses"])
    with pytest.raises(NoAnswer, match="fluorescent"):
        wanted(shown({"yellow": 5}), shelf=[GLOW])


def test_limits_are_kept():
    target = shown({"yellow": 9, "blue": 4, "red": 2, "white": 3})
    answer = wanted(target, most_colorants=2, most_drops=6, most_cost_money=0.02)
    for recipe in answer["closest"]:
        assert len(recipe["doses"]) <= 2
        assert sum(d["steps"] for d in recipe["doses"]) <= 6
        assert recipe["cost_money"] <= 0.02


def test_stock_is_kept():
    shelf = color_bench.shelf()
    shelf[2] = shelf[2] | {"on_hand_g": 2.5 * color_bench.DROP_G}
    answer = wanted(shown({"yellow": 9}), shelf=shelf)
    yellow = [d["steps"] for r in answer["closest"] for d in r["doses"] if d["name"] == "yellow"]
    assert max(yellow, default=0) <= 2


def test_other_lights_count():
    target = shown({"yellow": 7, "blue": 3})
    answer = wanted(target, lights=["A", "office lamp"])
    best = answer["closest"][0]
    assert [m["light"] for m in best["by_light"]] == ["D65", "A", "office lamp"]
    assert best["score"] >= best["delta_e00"]
    assert any("stand-in" in n for n in answer["notes"])


def test_sensitivity_is_what_a_drop_does():
    best = wanted(shown({"yellow": 7, "blue": 3}))["closest"][0]
    home = shown({"yellow": 7, "blue": 3})
    steps = [
        float(delta_e00(shown({"yellow": 7 + y, "blue": 3 + b}), home))
        for y, b in ((1, 0), (-1, 0), (0, 1), (0, -1))
    ]
    assert best["one_step"] == pytest.approx(max(steps), abs=0.1)
    assert best["poured_typical"] <= best["poured_high"]


def test_the_robust_recipe_is_no_worse_on_average():
    answer = wanted(shown({"yellow": 2.5, "blue": 1.2}))
    assert answer["robust"]["poured_typical"] <= answer["closest"][0]["poured_typical"] + 0.3


@pytest.mark.parametrize(
    ("change", "field", "why"),
    [
        ({"target": {}}, "target", "one of"),
        ({"target": {"color_hex": "#123456", "lab": {"lightness": 1, "a": 0, "b": 0}}},
         "target", "one of"),
        ({"target": {"reflectance": [0.5] * 30}}, "reflectance", "31"),
        ({"backing": "other", "ground_share": None}, "ground_share", "goes with"),
        ({"lights": ["D65"]}, "lights", "daylight"),
        ({"shelf": []}, "shelf", "1 to 40"),
        ({"shelf": [GLOW, GLOW]}, "shelf", "share a name"),
        ({"shelf": [{"name": "f", "colorant": {"kind": "flake", "color_hex": "#ffffff"}}]},
         "colorant", "fixed"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(change, field, why):
    with pytest.raises(BadInput, match=why) as refusal:
        wanted([50, 0, 0], **change)
    assert field in refusal.value.field


def test_a_target_by_spectrum_holds_under_every_light_it_was_made_for():
    spectrum = color_bench.spectrum(
        {"yellow": 7, "blue": 3}, thick_mm=8, ground=color_bench.GROUNDS["white"]
    )
    answer = match.answer(
        {
            "target": {"reflectance": [float(v) for v in spectrum]},
            "shelf": color_bench.shelf(), "plastic": color_bench.plastic(),
            "backing": "other", "ground_share": 0.86, "thick_mm": 8, "lights": ["A"],
        }
    )  # fmt: skip
    assert np.max([m["delta_e00"] for m in answer["closest"][0]["by_light"]]) < 0.1
