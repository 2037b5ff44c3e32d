"""A shelf, step by step."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.color.match.miss import miss_in_words
from pourwright.color.reach.survey import color_reach


def bottle(name, color_hex, kind="opaque", **more):
    colorant = {"kind": kind, "color_hex": color_hex}
    return {"name": name, "drop_mass_g": 0.035, "colorant": colorant, **more}


WHITE, BLACK = bottle("white", "#f4f4f0"), bottle("black", "#1c1c1e")
YELLOW, BLUE = bottle("yellow", "#e8c21a"), bottle("blue", "#1f3f9c")
GLOW = bottle("glow", "#ff2080", "fluorescent")
NAVY = {"name": "navy", "color": {"color_hex": "#27407f"}}
GRAY = {"name": "gray", "color": {"lab": {"lightness": 50, "a": 0, "b": 0}}}


def ask(*shelf, **changes):
    return color_reach.answer({"shelf": list(shelf), **changes})


def test_a_shelf_without_blue_is_told_to_buy_it():
    answer = ask(WHITE, BLACK, YELLOW, palette=[NAVY, GRAY], candidates=[GLOW, BLUE])
    assert answer["not_reached"] == ["navy"]
    assert [(p["name"], p["adds_names"]) for p in answer["purchases"]] == [("blue", ["navy"])]
    assert answer["next_purchase"] == "blue"
    assert any("glow is left out" in n for n in answer["notes"])


def test_nothing_is_bought_that_does_not_help():
    again = {**BLACK, "name": "another black"}
    answer = ask(WHITE, BLACK, palette=[GRAY], candidates=[again])
    assert answer["next_purchase"] is None
    assert ask(WHITE)["next_purchase"] is None


def test_the_small_shelf_keeps_what_the_palette_needs():
    answer = ask(WHITE, BLACK, YELLOW, BLUE, palette=[NAVY], k=2, most_colorants=2)
    assert "blue" in answer["small_shelf"]["names"]
    assert answer["small_shelf"]["reached"] == 1
    assert answer["small_shelf"]["tried"] == 6


def test_a_small_shelf_larger_than_the_shelf_is_the_shelf():
    answer = ask(WHITE, BLACK, palette=[GRAY])
    assert answer["small_shelf"]["names"] == ["white", "black"]
    assert any("is the whole shelf" in n for n in answer["notes"])


def test_a_bottle_that_glows_changes_nothing():
    with_it, without = ask(WHITE, GLOW), ask(WHITE)
    assert with_it["palette"] == without["palette"]
    assert with_it["distinct"] == without["distinct"]


def test_a_shelf_of_nothing_that_counts_has_no_answer():
    with pytest.raises(NoAnswer, match="glow is left out"):
        ask(GLOW)
    with pytest.raises(NoAnswer, match="less than one step"):
        ask({**WHITE, "on_hand_g": 0.01})


@pytest.mark.parametrize(
    ("changes", "match"),
    [
        ({"shelf": []}, "must have 1 to 25 entries"),
        ({"shelf": [WHITE, WHITE]}, "white.*|is there twice"),
        ({"shelf": [WHITE], "candidates": [WHITE]}, "is there twice"),
        ({"shelf": [WHITE], "palette": [GRAY, GRAY]}, "is there twice"),
        ({"shelf": [WHITE], "k": 0}, "k: must lie between 1 and 25"),
        ({"shelf": [WHITE], "most_colorants": 4}, "must lie between 1 and 3"),
        ({"shelf": [WHITE], "backing": "other"}, "goes with the ground 'other'"),
        ({"shelf": [bottle("f", "#c0c0c0", "flake")]}, "goes into `fixed`"),
    ],
)
def test_bad_input_is_named(changes, match):
    with pytest.raises(BadInput, match=match):
        color_reach.answer(changes)


def test_too_many_colors_for_so_many_bottles_are_refused():
    many = [bottle(f"b{i}", "#808080") for i in range(25)]
    some = [{**b, "name": f"c{i}"} for i, b in enumerate(many)]
    palette = [{"color": {"color_hex": f"#{i:06x}"}} for i in range(100)]
    with pytest.raises(BadInput, match=r"palette: is too long for so many bottles: at most \d+"):
        ask(*many, candidates=some, palette=palette)


def test_the_same_input_gives_the_same_answer_and_a_seed_another_sample():
    one, same, other = ask(WHITE, BLUE), ask(WHITE, BLUE), ask(WHITE, BLUE, seed=2)
    assert one == same
    assert one["not_reached"] == other["not_reached"]


def test_a_bigger_cup_counts_finer():
    # The drop of a small cup is too coarse; four times the plastic takes four times the drops.
    small, big = (
        ask(WHITE, BLACK, YELLOW, BLUE, plastic_g=g, most_drops=d)
        for g, d in ((50, 30), (400, 240))
    )
    means = [np.mean([c["counted_de00"] for c in a["palette"]]) for a in (small, big)]
    assert means[1] < means[0]
    assert small["reached_share"] == pytest.approx(big["reached_share"], abs=0.05)


def test_recipes_are_told_in_the_measure_of_their_bottle():
    salt = {"name": "salt", "measure": "grams", "colorant": {"kind": "salt"}}
    powder = bottle("powder", "#f0f0e8", "pearl", measure="level teaspoons", spoon_g=2.0)
    answer = ask(salt, powder, palette=[{"color": {"lab": {"lightness": 80, "a": 0, "b": 2}}}])
    assert any(word in answer["palette"][0]["counted"] for word in ("tsp", " g", "nothing"))


def test_bare_plastic_is_a_recipe():
    bare = ask(WHITE)["palette"]
    near = [c for c in bare if c["counted"] == "nothing: the plastic as it is"]
    assert near


def test_a_limit_on_drops_is_told_where_it_bites():
    answer = ask(BLUE, palette=[{"color": {"color_hex": "#10204a"}}], most_drops=1)
    assert any("take all 1 steps" in n or "takes all 1 steps" in n for n in answer["notes"])


def test_what_is_not_measured_is_said():
    plain = {"name": "white", "colorant": WHITE["colorant"]}
    notes = " ".join(ask(plain)["notes"])
    assert "uncalibrated" in notes
    assert "mass of one drop taken as typical for white" in notes
    assert "lower bound" in notes
    assert "24 patches" in notes


def test_dark_flake_in_the_cup_takes_colors_away():
    flake = {"name": "soot", "per_100g": 10, "measure": "grams",
             "colorant": {"kind": "flake", "color_hex": "#181818"}}  # fmt: skip
    shelf = (WHITE, BLACK, YELLOW, BLUE)
    without, with_it = (ask(*shelf, fixed=f, most_drops=6) for f in ([], [flake]))
    assert with_it["distinct"] < without["distinct"] / 2


@pytest.mark.parametrize(
    ("wanted", "nearest", "words"),
    [
        ((90, 0, 0), (80, 0, 0), "too dark"),
        ((20, 0, 0), (40, 0, 0), "too light"),
        ((50, 60, 0), (50, 40, 0), "too dull"),
        ((50, 40, 0), (50, 60, 0), "too bright"),
        ((50, 0, 60), (50, 20, 56.6), "too red"),
        ((50, 0, 60), (50, -20, 56.6), "too green"),
        ((50, 60, 0), (50, 56.6, -20), "too blue"),
        ((50, 1, 0), (50, 1, 12), "too yellow"),
        ((50, 60, 0), (40, 40, 0), "too dark and too dull"),
    ],
)
def test_a_miss_in_words(wanted, nearest, words):
    assert miss_in_words(np.array(wanted, float), np.array(nearest, float)) == words
