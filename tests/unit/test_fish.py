"""What a maker may ask of a fish's eye, and what is refused."""

from __future__ import annotations

import re

import numpy as np
import pytest

from fish_told_apart import told_apart
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.spectrum.lamp import daylight_power
from pourwright.spectrum.light import BANDS
from pourwright.water.fish.contrast import fish_contrast
from pourwright.water.fish.species import KNOWN, UNKNOWN, Species, known

RED = [0.05] * 20 + [0.6] * 11
WHITE = [0.85] * BANDS
BASS = "largemouth bass"
ASKED = {"first": {"reflectance": RED}, "second": {"reflectance": WHITE}, "species": BASS}


def asked(**changes):
    """An answer to the usual question with changes; a change to None leaves a field out."""
    given = ASKED | changes
    return fish_contrast.answer({k: v for k, v in given.items() if v is not None})


@pytest.mark.parametrize("species", UNKNOWN)
def test_a_fish_whose_cones_nobody_here_has_read_of_is_refused_with_the_reason(species):
    with pytest.raises(BadInput, match=r"no cone peaks here: .*type them as cones") as refusal:
        asked(species=species.value)
    assert UNKNOWN[species] in refusal.value.why


def test_known_fish_come_with_their_paper():
    for species in KNOWN:
        assert "(published)" in str(known(species).source)
        assert species.value == known(species).eye.name
    assert known(Species.LARGEMOUTH_BASS).note in asked()["notes"]


def test_own_cones_answer_as_the_fish_that_has_them():
    own = [{"peak_nm": 614, "cells": 2}, {"peak_nm": 535, "cells": 1}]
    mine = asked(species=None, cones=own, a2_share=1.0)
    bass = asked(a2_share=1.0)
    assert mine["color_jnd"]["typical"] == pytest.approx(bass["color_jnd"]["typical"])
    assert mine["color_jnd"]["high"] < bass["color_jnd"]["high"]


def test_own_cones_of_an_unknown_chromophore_are_less_sure():
    own = [{"peak_nm": 430, "cells": 1}, {"peak_nm": 600, "cells": 1}]
    known_share, open_share = (
        asked(species=None, cones=own, noise=0.05, **more)["color_jnd"]
        for more in ({"a2_share": 0.5}, {})
    )
    assert known_share["low"] == known_share["high"] == pytest.approx(open_share["typical"])
    assert open_share["low"] < open_share["typical"] < open_share["high"]


@pytest.mark.parametrize(
    ("changes", "field", "why"),
    [
        ({"species": None}, "species", "not both"),
        ({"cones": [{"peak_nm": 500}, {"peak_nm": 600}]}, "species", "not both"),
        ({"species": None, "cones": [{"peak_nm": 500}]}, "cones", "two or more"),
        ({"species": None, "cones": [{"peak_nm": 500}] * 2}, "cones", "all different"),
        ({"light": [1.0] * 30}, "light", "31"),
        ({"light": [0.0] * BANDS}, "light", "some light"),
        ({"background": [1.0] * 3}, "background", "31"),
        ({"background": [0.0] * BANDS}, "background", "some light"),
        ({"first": {}}, "first.color_hex", "give one"),
        ({"first": {"lab": [50, 0, 0], "color_hex": "#808080"}}, "first.color_hex", "give one"),
        ({"first": {"lab": [50, 0]}}, "first.lab", "needs L"),
        ({"first": {"lab": [120, 0, 0]}}, "first.lab", "needs L"),
        ({"second": {"reflectance": RED[:9]}}, "second.reflectance", "31"),
        ({"second": {"reflectance": [0.0] * BANDS}}, "second.reflectance", "blacker"),
        ({"first": {"color_hex": "#fff", "transmittance": [1]}}, "first.color_hex", "pattern|like"),
        ({"first": {"reflectance": RED, "transmittance": [1]}}, "first.transmittance", "31"),
        ({"first": {"reflectance": RED, "transmittance": [0.5] * BANDS}}, "first.transmittance",
         "more than all"),
        ({"depth_m": 2}, "water", "required with depth_m"),
        ({"away_m": 2}, "water", "required with away_m"),
        ({"water": "green", "light": [1.0] * BANDS}, "light", "brings its own"),
        ({"water": "green", "background": [1.0] * BANDS}, "background", "brings its own"),
    ],
)  # fmt: skip
def test_half_a_question_is_refused_by_name(changes, field, why):
    with pytest.raises(BadInput, match=why) as refusal:
        asked(**changes)
    assert refusal.value.field == field


def test_a_color_no_surface_shows_has_no_answer():
    with pytest.raises(NoAnswer, match="no surface shows"):
        asked(first={"lab": [90, 0, -120]})


def test_three_ways_to_name_a_gray_agree():
    gray = [asked(first=look)["brightness_jnd"]["typical"]
            for look in ({"reflectance": [0.2159] * BANDS}, {"color_hex": "#808080"},
                         {"lab": [53.59, 0, 0]})]  # fmt: skip
    assert gray == pytest.approx([gray[0]] * 3, rel=2e-3)


def test_a_color_by_three_numbers_says_that_its_spectrum_is_a_guess():
    def guesses(answer):
        return any("smoothest spectrum" in note for note in answer["notes"])

    assert guesses(asked(first={"color_hex": "#ff0000"}))
    assert not guesses(asked())


def test_what_was_left_out_is_said():
    said = " ".join(asked()["notes"])
    for name in ("water and light", "background", "light_lx", "noise"):
        assert f"{name} w" in said
    wet = " ".join(asked(water="clear")["notes"])
    for name in ("depth_m", "away_m"):
        assert f"{name} was left out" in wet
    assert "a white disk" in wet
    full = asked(light=[1.0] * BANDS, background=[0.1] * BANDS, light_lx=50, noise=0.06)
    full_wet = asked(water="clear", secchi_m=4, depth_m=1, away_m=0.5, light_lx=50, noise=0.06)
    for answer in (full, full_wet):
        assert not re.search(r"w(as|ere) left out", " ".join(answer["notes"]))


def test_the_water_behind_is_a_share_of_white():
    """Before water as bright as the bait itself nothing is left to see."""
    answer = asked(background=RED)
    assert answer["first_on_water"]["color_jnd"]["high"] == pytest.approx(0, abs=1e-9)
    assert answer["first_on_water"]["brightness_jnd"]["high"] == pytest.approx(0, abs=1e-9)
    assert answer["second_on_water"]["color_words"] == answer["color_words"] == "clear"


def test_blue_water_takes_the_red_out_of_red():
    """With no light beyond 580 nm a red bait is a dark one."""
    blue = [1.0] * 19 + [0.0] * 12
    found = asked(light=blue, second={"reflectance": [0.05] * BANDS})
    assert found["color_words"] == found["brightness_words"] == "hard to tell"


def test_dusk_takes_the_color():
    day, dusk, night = (asked(light_lx=lx)["color_jnd"]["typical"] for lx in (10_000, 1, 0.01))
    assert day == pytest.approx(asked()["color_jnd"]["typical"], rel=0.01)
    assert night < dusk / 3 < day / 3


def test_no_answer_promises_a_bite():
    for answer in (asked(), asked(species="brown trout")):
        assert "says nothing of whether the fish cares, or bites" in answer["notes"][-1]
        words = [place[f"{way}_words"] for place in (answer, answer["first_on_water"])
                 for way in ("color", "brightness")]  # fmt: skip
        assert all(w.split(";")[0] in {"hard to tell", "close", "clear"} for w in words)


def test_the_same_question_has_the_same_answer():
    assert asked() == asked()
    assert asked(seed=2)["color_jnd"] != asked()["color_jnd"]


def test_pages_ask_the_same_eye():
    light = daylight_power(6504)
    found = told_apart(
        np.array(RED), np.array(WHITE), light, 0.2 * light, KNOWN[Species.LARGEMOUTH_BASS].eye
    )
    assert found.looks.color_jnd.typical == asked()["color_jnd"]["typical"]
    assert found.second_on_water.brightness_jnd.high == pytest.approx(
        asked()["second_on_water"]["brightness_jnd"]["high"]
    )


@pytest.mark.parametrize("which", ["first", "second", "light", "background"])
def test_a_page_s_spectrum_without_light_is_refused_by_name(which):
    light = daylight_power(6504)
    arrays = {
        "one": np.array(RED), "two": np.array(WHITE), "light": light, "background": 0.2 * light,
    }  # fmt: skip
    arrays[{"first": "one", "second": "two"}.get(which, which)] = np.zeros(BANDS)
    trout = KNOWN[Species.BROWN_TROUT].eye
    with pytest.raises(BadInput, match="some light") as refusal:
        told_apart(arrays["one"], arrays["two"], arrays["light"], arrays["background"], trout)
    assert refusal.value.field == which


def test_a_clear_bait_shows_the_water_behind_it():
    """What lets all light through and sends none back is not there."""
    ghost = {"reflectance": [0.003] * BANDS, "transmittance": [0.997] * BANDS}
    for where in ({"water": "tea-stained"}, {}):
        answer = asked(first=ghost, **where)
        assert answer["first_on_water"]["brightness_jnd"]["high"] < 0.6
        assert answer["first_on_water"]["color_words"] == "hard to tell"


def test_tea_colored_water_takes_the_blue_and_green_water_the_red():
    def steps(water, depth_m):
        return asked(water=water, depth_m=depth_m)["color_jnd"]["typical"]

    assert steps("clear", 1) > steps("clear", 12)
    trout = {
        water: asked(
            species="brown trout", water=water, depth_m=4,
            first={"color_hex": "#3030d0"}, second={"color_hex": "#303030"},
        )["color_jnd"]["typical"]
        for water in ("clear", "tea-stained")
    }  # fmt: skip
    assert trout["clear"] > 2 * trout["tea-stained"]


def test_far_off_every_look_fades_into_the_water():
    near, far, farther = (asked(water="green", away_m=m) for m in (0, 3, 12))
    for way in ("color_jnd", "brightness_jnd"):
        steps = [a["first_on_water"][way]["typical"] for a in (near, far, farther)]
        assert steps[0] > 2 * steps[1] > 4 * steps[2]
    assert farther["color_words"] == farther["brightness_words"] == "hard to tell"


def test_a_white_disk_tells_of_the_water():
    kind, disk = (asked(water="green", away_m=1, **more) for more in ({}, {"secchi_m": 0.6}))
    assert disk["color_jnd"]["typical"] < kind["color_jnd"]["typical"]


def test_each_look_lets_its_own_light_through():
    light = daylight_power(6504)
    red, black = np.array(RED), np.full(BANDS, 0.01)
    clear = np.full(BANDS, 0.99)
    bass = KNOWN[Species.LARGEMOUTH_BASS].eye
    found = told_apart(red, black, light, 0.2 * light, bass, lets=(0 * clear, clear))
    plain = told_apart(red, black, light, 0.2 * light, bass)
    assert found.first_on_water == plain.first_on_water
    assert found.second_on_water.brightness_jnd.high < 1.5
    assert plain.second_on_water.brightness_jnd.low > 10


def test_a_keener_eye_tells_more():
    keen, dull = (asked(noise=noise)["color_jnd"]["typical"] for noise in (0.05, 0.10))
    assert keen == pytest.approx(2 * dull)


def test_in_the_dark_nothing_is_told():
    with pytest.raises(NoAnswer, match="night to cones"):
        asked(water="muddy", depth_m=60)
