"""Lights, eye, spaces and differences against an open color-science library."""

from __future__ import annotations

import colour
import numpy as np
import pytest

from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.lamp import daylight_power, filament_power, white_led_power
from pourwright.spectrum.light import WEIGHTS, Light, weights_of_power
from pourwright.spectrum.patches import COLUMNS, PATCH_NAMES, PATCH_REFLECTANCE, ROWS

FINE = colour.SpectralShape(380, 780, 5)
COARSE = colour.SpectralShape(400, 700, 10)
OBSERVER = "CIE 1931 2 Degree Standard Observer"
EYE_5_NM = colour.MSDS_CMFS[OBSERVER].copy().align(FINE).values

# The 99 color evaluation samples of ANSI/IES TM-30-18 (CIE 224:2017), 5 nm.
SAMPLES = colour.quality.cfi2017.load_TCS_CIE2017(FINE).values.T
SAMPLES_31 = SAMPLES[:, 4:65:2]


def fine_weights(name):
    weights = colour.SDS_ILLUMINANTS[name].copy().align(FINE).values[:, None] * EYE_5_NM
    return weights * 100 / weights[:, 1].sum()


def coarse_power(name):
    return colour.SDS_ILLUMINANTS[name].copy().align(COARSE).values


def miss(ours, name):
    """CIEDE2000 of 31 bands under `ours` against 5 nm under a light of the library."""
    fine = fine_weights(name)
    return delta_e00(
        lab_of(SAMPLES_31 @ ours, ours.sum(axis=0)), lab_of(SAMPLES @ fine, fine.sum(axis=0))
    )


@pytest.mark.parametrize(
    ("light", "name", "most"),
    [
        (Light.D65, "D65", 0.2),
        (Light.A, "A", 0.4),
        (Light.OFFICE, "FL11", 0.2),
        (Light.LED, "LED-B3", 0.1),
    ],
)
def test_31_bands_stand_in_for_5_nm_on_real_surfaces(light, name, most):
    missed = miss(WEIGHTS[light], name)
    assert missed.mean() < 0.02
    assert missed.max() < most


@pytest.mark.parametrize("name", ["D50", "D65", "D75", "A", "LED-B1", "LED-B3", "LED-B5"])
def test_a_typed_power_stands_in_for_its_light(name):
    missed = miss(weights_of_power(coarse_power(name)), name)
    assert missed.mean() < 0.03
    assert missed.max() < 0.45


@pytest.mark.parametrize("kelvin", [4000, 5003, 6999, 7001, 12000, 25000])
def test_daylight_equals_the_library(kelvin):
    xy = colour.temperature.CCT_to_xy_CIE_D(kelvin)
    library = colour.sd_CIE_illuminant_D_series(xy, M1_M2_rounding=False, shape=COARSE)
    assert daylight_power(kelvin) == pytest.approx(library.values, rel=1e-6)


@pytest.mark.parametrize("kelvin", [1500, 2200, 2856, 3500])
def test_filament_equals_the_library(kelvin):
    library = colour.sd_blackbody(kelvin, COARSE)
    assert filament_power(kelvin) == pytest.approx(library.values / library[560], rel=1e-4)


@pytest.mark.parametrize("kelvin", [2200, 2700, 4000, 5000, 6500, 7000])
def test_a_white_led_has_its_color_temperature(kelvin):
    white = weights_of_power(white_led_power(kelvin)).sum(axis=0) / 100
    uv = colour.UCS_to_uv(colour.XYZ_to_UCS(white))
    found, off_locus = colour.temperature.uv_to_CCT_Ohno2013(uv)
    assert found == pytest.approx(kelvin, rel=2e-3)
    assert abs(off_locus) < 2e-4


@pytest.mark.parametrize(
    ("name", "kelvin"),
    # CIE 15:2018, blue-pumped white LEDs and their color temperatures (library).
    [("LED-B1", 2733), ("LED-B2", 2998), ("LED-B3", 4103), ("LED-B4", 5109), ("LED-B5", 6598)],
)
def test_a_white_led_shows_surfaces_as_the_standard_lamps_do(name, kelvin):
    missed = miss(weights_of_power(white_led_power(kelvin)), name)
    assert missed.mean() < 0.7
    assert missed.max() < 1.4


@pytest.mark.parametrize(
    ("name", "kelvin", "low", "high"),
    # CIE 15:2018: a red chip beside the blue one, violet chips, three colored chips (library).
    [
        ("LED-BH1", 2851, 3.5, 7),
        ("LED-V1", 2724, 3.5, 7),
        ("LED-V2", 4070, 3.5, 7),
        ("LED-RGB1", 2840, 7, 13),
    ],
)
def test_other_white_leds_are_as_far_off_as_the_maker_is_told(name, kelvin, low, high):
    assert low < miss(weights_of_power(white_led_power(kelvin)), name).max() < high


def test_patches_look_as_the_target_was_first_printed():
    # McCamy, Marcus and Davidson, J. Appl. Photogr. Eng. 2 (1976) 95, x, y, Y under illuminant C
    # (from memory). Another print, 20 years older: about one CIEDE2000 apart.
    printed = np.array([
        (0.400, 0.350, 10.1), (0.377, 0.345, 35.8), (0.247, 0.251, 19.3), (0.337, 0.422, 13.3),
        (0.265, 0.240, 24.3), (0.261, 0.343, 43.1), (0.506, 0.407, 30.1), (0.211, 0.175, 12.0),
        (0.453, 0.306, 19.8), (0.285, 0.202, 6.6), (0.380, 0.489, 44.3), (0.473, 0.438, 43.1),
        (0.187, 0.129, 6.1), (0.305, 0.478, 23.4), (0.539, 0.313, 12.0), (0.448, 0.470, 59.1),
        (0.364, 0.233, 19.8), (0.196, 0.252, 19.8), (0.310, 0.316, 90.0), (0.310, 0.316, 59.1),
        (0.310, 0.316, 36.2), (0.310, 0.316, 19.8), (0.310, 0.316, 9.0), (0.310, 0.316, 3.1),
    ])  # fmt: skip
    x, y, luminance = printed.T
    xyz = np.stack([x / y * luminance, luminance, (1 - x - y) / y * luminance], axis=-1)
    weights = weights_of_power(coarse_power("C"))
    white = weights.sum(axis=0)
    apart = delta_e00(lab_of(PATCH_REFLECTANCE @ weights, white), lab_of(xyz, white))
    assert apart.max() < 1.5
    assert apart.mean() < 0.8


def test_every_patch_has_its_name_and_place():
    library = colour.SDS_COLOURCHECKERS["ISO 17321-1"]
    assert len(PATCH_NAMES) == ROWS * COLUMNS == len(library)
    for name, ours, (theirs, curve) in zip(
        PATCH_NAMES, PATCH_REFLECTANCE, library.items(), strict=True
    ):
        assert name.split()[0].replace("gray", "neutral") == theirs.split()[0]
        assert ours == pytest.approx(curve[np.arange(400.0, 701.0, 10.0)], abs=5e-5)


def test_differences_and_lab_equal_the_library_on_random_colors():
    draw = np.random.Generator(np.random.PCG64(20))
    one = draw.uniform((0, -100, -100), (100, 100, 100), (3000, 3))
    near = one + draw.normal(0, 3, one.shape)
    far = draw.permutation(one)
    for two in (near, far):
        assert delta_e00(one, two) == pytest.approx(
            colour.delta_E(one, two, method="CIE 2000"), abs=1e-9
        )
    xyz = draw.uniform(0, 110, (3000, 3))
    xy = np.array([0.3805, 0.3769])
    white = np.array(colour.xy_to_XYZ(xy) * 100, dtype=np.float64)
    assert lab_of(xyz, white) == pytest.approx(colour.XYZ_to_Lab(xyz / 100, xy), abs=1e-9)
