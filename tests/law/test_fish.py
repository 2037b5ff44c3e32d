"""Promises that every eye and every pair of looks keeps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fish_told_apart import told_apart
from pourwright.base.band import Band, exact
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput
from pourwright.base.units import UNITS
from pourwright.spectrum.lamp import daylight_power
from pourwright.spectrum.light import BANDS, WAVELENGTHS_NM
from pourwright.water.fish.eye import Cone, Eye
from pourwright.water.fish.noise import color_steps, with_photons
from pourwright.water.fish.pigment import LONGEST_NM, SHORTEST_NM, sensitivity
from pourwright.water.fish.species import KNOWN, UNKNOWN, Species
from pourwright.water.fish.told_apart import CLEAR_FROM, CLOSE_FROM, in_words

steady = settings(derandomize=True, deadline=None, max_examples=25)

DAYLIGHT = daylight_power(6504)
GRAY = 0.2 * DAYLIGHT
SPECTRA = st.lists(st.floats(0.003, 1), min_size=BANDS, max_size=BANDS).map(np.array)
BASS = KNOWN[Species.LARGEMOUTH_BASS].eye
EYES = st.sampled_from([k.eye for k in KNOWN.values()])
CONES = st.integers(2, 6)
WIDEST = 4.0


@st.composite
def gaps_and_noises(draw):
    """Three sets of gaps, and noises, for one eye."""
    cones = draw(CONES)
    row = st.lists(st.floats(-3, 3), min_size=cones, max_size=cones).map(np.array)
    noise = st.lists(st.floats(0.01, 0.5), min_size=cones, max_size=cones).map(np.array)
    return draw(row), draw(row), draw(noise)


@given(gaps_and_noises(), st.floats(-2, 2))
@steady
def test_steps_are_a_distance_that_brightness_leaves_alone(made, shared):
    one, two, noises = made
    assert color_steps(one + shared, noises) == pytest.approx(color_steps(one, noises), abs=1e-6)
    assert color_steps(-one, noises) == pytest.approx(color_steps(one, noises))
    both = color_steps(one + two, noises)
    assert both <= color_steps(one, noises) + color_steps(two, noises) + 1e-9
    assert color_steps(one, 2 * noises) == pytest.approx(color_steps(one, noises) / 2)
    assert color_steps(one[::-1], noises[::-1]) == pytest.approx(color_steps(one, noises))


@given(st.floats(SHORTEST_NM, LONGEST_NM), st.booleans())
@steady
def test_a_pigment_catches_a_share(peak_nm, a2):
    caught = sensitivity(WAVELENGTHS_NM, peak_nm, a2=a2)
    assert np.all((caught > 0) & (caught < 1.1))


@given(SPECTRA, SPECTRA, EYES)
@steady
def test_looks_swap_without_a_change(one, two, eye):
    there = told_apart(one, two, DAYLIGHT, GRAY, eye)
    back = told_apart(two, one, DAYLIGHT, GRAY, eye)
    assert there.looks.color_jnd.typical == pytest.approx(back.looks.color_jnd.typical)
    assert there.first_on_water == back.second_on_water


@given(SPECTRA, SPECTRA, SPECTRA, EYES, st.floats(1e-6, 1e6))
@steady
def test_an_adapted_eye_cares_neither_for_the_unit_nor_for_what_lies_behind(
    one, two, water, eye, unit
):
    plain = told_apart(one, two, DAYLIGHT, GRAY, eye).looks
    other = told_apart(one, two, unit * DAYLIGHT, water * DAYLIGHT, eye).looks
    for name in ("color_jnd", "brightness_jnd"):
        assert getattr(other, name).typical == pytest.approx(getattr(plain, name).typical, rel=1e-6)


@given(SPECTRA, SPECTRA, EYES, st.floats(0.01, 1000))
@steady
def test_less_light_never_tells_more(one, two, eye, light_lx):
    bright = told_apart(one, two, DAYLIGHT, GRAY, eye).looks
    dim, dimmer = (
        told_apart(one, two, DAYLIGHT, GRAY, eye, light_lx=lx).looks
        for lx in (light_lx, light_lx / 4)
    )
    for name in ("color_jnd", "brightness_jnd"):
        steps = [getattr(t, name).typical for t in (dimmer, dim, bright)]
        assert steps == sorted(steps)


@given(SPECTRA, SPECTRA, EYES)
@steady
def test_bands_are_ordered_and_no_wider_than_they_must(one, two, eye):
    """The noise alone is a factor of 2."""
    looks = told_apart(one, two, DAYLIGHT, GRAY, eye).looks
    for steps in (looks.color_jnd, looks.brightness_jnd):
        assert steps.low <= steps.typical <= steps.high
    if looks.color_jnd.low > CLOSE_FROM:
        assert looks.color_jnd.high < WIDEST * looks.color_jnd.low


@given(st.tuples(*[st.floats(0, 30)] * 3).map(sorted))
@steady
def test_words_go_with_the_steps(ends):
    words = in_words(Band(*ends))
    first = words.split(";")[0]
    assert first == (
        "hard to tell" if ends[1] < CLOSE_FROM else "close" if ends[1] < CLEAR_FROM else "clear"
    )
    assert "bite" not in words
    crossed = [c for c in (CLOSE_FROM, CLEAR_FROM) if ends[0] < c <= ends[2]]
    assert ("may be" in words) == bool(crossed)


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        (Band(0.2, 0.5, 0.9), "hard to tell"),
        (Band(1.1, 2.0, 2.9), "close"),
        (Band(3.1, 6.0, 9.0), "clear"),
        (Band(0.9, 2.9, 3.1), "close; may be hard to tell or clear"),
    ],
)
def test_words_change_at_one_and_three(steps, words):
    assert in_words(steps) == words


def test_an_eye_needs_cones_in_order():
    one, two = Cone(500, exact(1)), Cone(600, exact(1))
    for cones in ((two, one), (one, one)):
        with pytest.raises(BadInput, match="different peaks"):
            Eye("", cones, exact(1))


def test_no_share_of_the_chromophore_lies_beyond_its_ends():
    draws = Draws()
    shares = Eye("", BASS.cones, Band(0, 0.5, 1)).drawn_a2(draws)
    assert shares.min() == 0
    assert shares.max() == 1


def test_more_cells_gather_more_in_dim_light_only():
    few, many = (Eye("", (Cone(535, exact(n)), Cone(614, exact(2 * n))), exact(1)) for n in (1, 10))
    pair = np.linspace(0.1, 0.6, BANDS), np.full(BANDS, 0.4), DAYLIGHT, GRAY
    for light_lx, gain in ((None, 1.0), (0.001, np.sqrt(10))):
        steps = [told_apart(*pair, e, light_lx=light_lx).looks.color_jnd.typical
                 for e in (few, many)]  # fmt: skip
        assert steps[1] == pytest.approx(gain * steps[0], rel=0.01)


def test_every_fish_is_known_or_says_why_not():
    assert set(Species) == set(KNOWN) | set(UNKNOWN)
    assert not set(KNOWN) & set(UNKNOWN)


def test_a_photon_more_is_noise_less():
    counts = np.array([1.0, 10.0, 1e9])
    noise = with_photons(np.full(3, 0.05), counts, counts)
    assert list(noise) == sorted(noise, reverse=True)
    assert noise[-1] == pytest.approx(0.05, abs=1e-6)


@given(st.floats(400, 630), st.floats(0, 1))
@steady
def test_the_chromophore_mixes_between_its_ends(peak_nm, share):
    eye = Eye("", (Cone(390, exact(1)), Cone(peak_nm, exact(1))), exact(0.5))
    sea, fresh, mixed = eye.caught(DAYLIGHT, np.array([0.0, 1.0, share]))
    assert mixed == pytest.approx(sea + share * (fresh - sea))


def test_the_light_is_in_lux():
    assert UNITS["lx"].to_si(3) == 3
