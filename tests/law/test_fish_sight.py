"""Plastic in a water fades into it with distance, whoever looks and whatever it is made of.

Source: S. Q. Duntley, "Light in the Sea", J. Opt. Soc. Am. 53 (1963) 214: on a level path contrast
falls as exp(-c r), and what is as bright as the water behind it is not seen at any distance.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fish_told_apart import told_apart
from pourwright.color.face import PLASTIC_INDEX, WATER_INDEX
from pourwright.color.layer import Mixture
from pourwright.forecast.fish_sight import Plastic, fish_sight, plastic
from pourwright.spectrum.light import BANDS
from pourwright.water.field import light_field
from pourwright.water.fish.species import KNOWN, Species
from pourwright.water.fish.surroundings import OVERCAST_LX, light_lx, under_water
from pourwright.water.kind import WaterKind
from pourwright.water.scaled import typical_water

BASS = KNOWN[Species.LARGEMOUTH_BASS].eye
SHARES = st.lists(st.floats(0.02, 0.9), min_size=3, max_size=3)


def field_in(kind: WaterKind, depth_m: float = 1.5):
    return light_field(typical_water(kind), depth_m=depth_m)


def smooth(shares: list[float]) -> np.ndarray:
    return np.interp(np.linspace(0, 2, BANDS), [0, 1, 2], shares)


def seen(piece: Plastic, field, away_m: float):
    return fish_sight({"it": piece}, (), field, away_m=away_m, eye=BASS).on_water["it"]


@given(st.sampled_from(WaterKind), SHARES, SHARES, st.floats(0.02, 3))
def test_contrast_falls_as_a_straight_beam_does(kind, back, through, away_m):
    field = field_in(kind)
    piece = Plastic(smooth(back) / 2, smooth(through) / 2)
    near, far = (
        under_water(field, away_m=m).light_of(piece.back, piece.through) / field.level - 1
        for m in (0.0, away_m)
    )
    beam = np.exp(-field.medium.beam_per_m * away_m)
    assert far == pytest.approx(near * beam, rel=1e-9, abs=1e-9)


@given(st.sampled_from(WaterKind), SHARES)
def test_what_sends_and_lets_through_as_the_water_does_is_not_seen(kind, through):
    """R E / pi + T L = L where R = (1 - T) pi L / E."""
    field = field_in(kind)
    lets = smooth(through)
    piece = Plastic((1 - lets) * np.pi * field.level / field.face, lets)
    found = seen(piece, field, 0.3)
    assert found.color_jnd.high < 1e-6
    assert found.brightness_jnd.high < 1e-6


@given(st.sampled_from(WaterKind), SHARES)
def test_close_by_it_is_the_two_looks_of_the_plain_rule(kind, back):
    """At no distance: the same steps as of a reflectance with the water's light let through."""
    field = field_in(kind)
    piece = Plastic(smooth(back) / 2, np.full(BANDS, 0.4))
    white = field.face / np.pi
    whole = piece.back + piece.through * field.level / white
    plain = told_apart(whole, whole, white, field.level, BASS, light_lx=light_lx(field))
    found = seen(piece, field, 0.0)
    assert found.color_jnd.typical == pytest.approx(plain.first_on_water.color_jnd.typical)
    assert found.brightness_jnd.high == pytest.approx(plain.first_on_water.brightness_jnd.high)


@pytest.mark.parametrize("kind", WaterKind)
def test_black_is_clear_close_by_fades_and_is_gone_far_off(kind):
    """Of one reflectance all through, what is darker than the water in every band stays so."""
    black = Plastic(np.full(BANDS, 0.01), np.zeros(BANDS))
    field = field_in(kind, 0.5)
    steps = [seen(black, field, m).brightness_jnd.typical for m in (0.0, 0.2, 0.6, 60.0)]
    assert steps == sorted(steps, reverse=True)
    assert steps[0] > 3
    assert steps[-1] < 0.01


def test_a_pair_is_one_against_the_other_and_never_negative():
    field = field_in(WaterKind.CLEAR)
    white, black = (Plastic(np.full(BANDS, v), np.zeros(BANDS)) for v in (0.8, 0.03))
    found = fish_sight(
        {"white": white, "black": black}, (("white", "black"), ("black", "white")), field,
        away_m=0.3, eye=BASS,
    )  # fmt: skip
    one, two = (found.pairs[p].brightness_jnd for p in (("white", "black"), ("black", "white")))
    assert one.typical == pytest.approx(two.typical)
    assert one.low > 3


def test_daylight_fails_with_depth_until_no_cone_is_asked():
    surface = light_lx(field_in(WaterKind.CLEAR, 0.0))
    assert 0.2 * OVERCAST_LX < surface < OVERCAST_LX
    lit = [light_lx(field_in(WaterKind.MUDDY, m)) for m in (0.1, 1.0, 5.0)]
    assert lit == sorted(lit, reverse=True)
    dark = fish_sight(
        {"it": Plastic(np.full(BANDS, 0.5), np.zeros(BANDS))}, (("it", "it"),),
        field_in(WaterKind.MUDDY, 30.0), away_m=0.3, eye=BASS,
    )  # fmt: skip
    assert dark.on_water == {}
    assert dark.pairs == {}


@given(st.floats(0.0, 2.0), st.floats(0.01, 2.0), st.floats(1.0, 20.0))
def test_plastic_gives_no_more_than_it_gets(absorb, scatter, thick_mm):
    flat = np.ones((1, BANDS))
    mixed = Mixture(absorb * flat, scatter * flat, np.zeros(1), np.zeros((1, 1)))
    piece = plastic(mixed, thick_mm)
    assert (piece.back >= 0).all()
    assert (piece.through >= 0).all()
    assert (piece.back + piece.through <= 1 + 1e-6).all()


def test_clear_plastic_in_water_loses_light_at_both_of_its_faces():
    """Fresnel, straight on: r = ((n - m) / (n + m))²; two faces let (1 - r) / (1 + r) through."""
    none = np.zeros((1, BANDS))
    piece = plastic(Mixture(none, none, np.zeros(1), np.zeros((1, 1))), 10.0)
    face = ((PLASTIC_INDEX - WATER_INDEX) / (PLASTIC_INDEX + WATER_INDEX)) ** 2
    assert piece.through == pytest.approx((1 - face) / (1 + face), abs=5e-4)
