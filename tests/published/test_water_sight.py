"""From how far a bait is seen, against printed figures and closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.spectrum.light import BANDS, EYE
from pourwright.water import sight
from pourwright.water.daylight import Daylight
from pourwright.water.field import LightField, light_field
from pourwright.water.kind import WaterKind
from pourwright.water.medium import Medium
from pourwright.water.scaled import typical_water
from pourwright.water.seen import water_sight

NOTHING = np.zeros(BANDS)


def flat_field(absorb: float, scatter: float, back: float, depth_m: float = 2.0) -> LightField:
    medium = Medium(*(np.full(BANDS, v) for v in (absorb, scatter, back)))
    return light_field(medium, depth_m=depth_m, light=Daylight(0.86, 1.0))


def gray(share: float) -> np.ndarray:
    return np.full(BANDS, share)


def test_black_is_seen_to_four_lengths_of_the_beam():
    # Duntley, J. Opt. Soc. Am. 53 (1963) 214: a dark thing is lost at about four attenuation
    # lengths, that is ln(1 / 0.02) = 3.91.
    field = flat_field(0.1, 0.3, 0.006)
    line = sight.sight_line(field, sends=NOTHING, lets=NOTHING, sine=0.0)
    assert 0.4 * sight.eye_range_m(line, np.asarray(0.02)) == pytest.approx(3.91, abs=0.01)


def test_black_is_seen_to_nearly_five_lengths_by_another_count():
    # Zaneveld and Pegau, Opt. Express 11 (2003) 2997: 4.8 over the photopic beam attenuation.
    black = {"color_hex": "#000000", "kind": "clear"}
    answer = water_sight.answer(black)
    beam = typical_water(WaterKind.CLEAR).beam_per_m @ EYE[:, 1] / 100
    steady = water_sight.answer(black | {"threshold": 0.0082})["range_m"]["typical"]
    assert beam * steady == pytest.approx(4.8, rel=0.05)
    assert beam * answer["range_m"]["low"] < 4.8 < beam * answer["range_m"]["high"]


@pytest.mark.parametrize(
    ("sine", "per_m"),
    # Duntley (1963): contrast along a slant falls as c - K sin of the angle looked up;
    # a = 0.1, b = 0.3, K = sqrt(0.01 + 0.1755 * 0.03) / 0.86 = 0.14368. Looking up, K stops at
    # a + bb = 0.106.
    [(0.0, 0.4), (-1.0, 0.54368), (-0.5, 0.47184), (1.0, 0.294), (0.5, 0.347)],
)
def test_contrast_falls_as_duntley_found(sine, per_m):
    line = sight.sight_line(flat_field(0.1, 0.3, 0.006), sends=gray(0.9), lets=NOTHING, sine=sine)
    near, far = line.eye_contrast(np.asarray(1.0)), line.eye_contrast(np.asarray(4.0))
    assert np.log(near / far) / 3.0 == pytest.approx(per_m, rel=1e-4)


def test_contrast_is_the_water_walked_into():
    # Closed form: bait exp(-c r) + water (1 - exp(-c r)), Koschmieder's law, band by band.
    field = light_field(typical_water(WaterKind.GREEN), depth_m=1.0)
    white = np.full(BANDS, 0.8)
    line = sight.sight_line(field, sends=white, lets=NOTHING, sine=0.0)
    left = np.exp(-field.medium.beam_per_m * 0.7)
    seen = 0.8 * field.face / np.pi * left + field.level * (1 - left)
    wanted = ((seen - field.level) @ EYE[:, 1]) / (field.level @ EYE[:, 1])
    assert line.eye_contrast(np.asarray(0.7)) == pytest.approx(wanted, rel=1e-9)


def test_what_hides_in_the_lake_that_was_measured():
    # Tyler, SIO Reference 58-25 (1958), at 29 m: radiance seen level 0.0245 of the downwelling
    # light, upright face 0.254: a bait of pi * 0.0245 / 0.254 = 0.30 is gone. Its a, b and bb by
    # Gershun's law, his beam and his reflectance of 0.023.
    field = flat_field(0.117, 0.279, 0.0066, depth_m=29.0)
    hiding = sight.hiding_reflectance(field, lets=NOTHING, sine=0.0)
    assert hiding == pytest.approx(0.30, rel=0.1)


def test_white_nearly_vanishes_in_milk():
    # Closed form: deep in a water that only scatters, radiance runs straight with the cosine, so
    # that an upright face meets just what its water shows.
    field = flat_field(0.001, 30.0, 0.6, depth_m=0.2)
    hiding = sight.hiding_reflectance(field, lets=NOTHING, sine=0.0)
    assert hiding == pytest.approx(1.0, rel=0.01)


def test_clear_plastic_is_seen_by_what_it_sends_alone():
    # Closed form: a bait that lets 0.7 through and sends 0.1 has the contrast 0.1 / rho* - 0.3,
    # rho* what hides an opaque one.
    field = flat_field(0.1, 0.3, 0.006)
    line = sight.sight_line(field, sends=gray(0.1), lets=gray(0.7), sine=0.0)
    opaque = sight.hiding_reflectance(field, lets=NOTHING, sine=0.0)
    assert line.contrast == pytest.approx(0.1 / opaque - 0.3)


def test_from_straight_below_a_bait_is_a_dark_shape():
    # Closed form: lit by R, against the radiance (m + 2) / 2 pi of downwelling light.
    field = flat_field(0.1, 0.3, 0.006)
    line = sight.sight_line(field, sends=gray(1.0), lets=NOTHING, sine=1.0)
    wanted = field.reflectance / np.pi / ((field.power + 2) / (2 * np.pi)) - 1
    assert line.contrast == pytest.approx(wanted)


def test_from_straight_above_a_bait_is_lit_in_full():
    # Closed form: lit by 1, against 0.6 of the even radiance R / pi (0.58 to 0.60 in Tyler's lake).
    field = flat_field(0.1, 0.3, 0.006)
    line = sight.sight_line(field, sends=gray(0.3), lets=NOTHING, sine=-1.0)
    assert line.contrast == pytest.approx(0.3 / (0.6 * field.reflectance) - 1)
