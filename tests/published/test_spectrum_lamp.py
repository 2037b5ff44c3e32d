"""Lights known by their color temperature, against printed tables and closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.spectrum.lamp import daylight_power, filament_power, white_led_power
from pourwright.spectrum.light import (
    WAVELENGTHS_NM,
    Light,
    weights_of_power,
    white_xyz,
)


@pytest.mark.parametrize(
    ("kelvin", "x", "z"),
    [
        # ASTM E308-01, table 5, 2 degree observer: D50, D55, D75 (from memory).
        (5003, 96.422, 82.521),
        (5503, 95.682, 92.149),
        (7504, 94.972, 122.638),
    ],
)
def test_white_of_daylight(kelvin, x, z):
    # Bands of 10 nm cut across the corners of daylight's curve: 0.2 % of Z.
    white = weights_of_power(daylight_power(kelvin)).sum(axis=0)
    assert white == pytest.approx((x, 100.0, z), rel=2e-3)


def test_daylight_of_6504_k_is_d65():
    # CIE 15:2004, table T.1, relative power of D65 at seven of the bands (from memory).
    printed = {400: 82.7549, 450: 117.008, 500: 109.354, 550: 104.046, 600: 90.0062,
               650: 80.0268, 700: 71.6091}  # fmt: skip
    power = daylight_power(6504)
    ours = {int(nm): float(power[i]) for i, nm in enumerate(WAVELENGTHS_NM) if int(nm) in printed}
    # The table rounds the two multipliers of daylight's curves to three places.
    assert ours == pytest.approx(printed, abs=0.03)


def test_filament_of_2856_k_is_illuminant_a():
    # ISO 11664-2:2007, eq. 1: Planck's law with 1.435e7 nm·K and 2848 K. In today's constant that
    # is 2855.54 K, by convention called 2856: up to 0.06 % at 400 nm.
    steep = 1.435e7 / 2848
    printed = (560 / WAVELENGTHS_NM) ** 5 * np.expm1(steep / 560) / np.expm1(steep / WAVELENGTHS_NM)
    assert filament_power(2856) == pytest.approx(printed, rel=7e-4)


def test_weights_of_a_filament_are_those_of_a():
    # ASTM E308-01, table 5 (published): the printed weights' sums.
    white = weights_of_power(filament_power(2856)).sum(axis=0)
    assert white == pytest.approx((109.850, 100.0, 35.585), abs=0.03)
    assert white == pytest.approx(white_xyz(Light.A), abs=0.03)


@pytest.mark.parametrize(
    ("kelvin", "x", "y"),
    [
        # CIE 15:2004, Planckian locus (Wyszecki and Stiles, table 1(3.11); from memory), 2 degree.
        (2500, 0.4770, 0.4137),
        (4000, 0.3805, 0.3768),
        (6500, 0.3135, 0.3237),
    ],
)
def test_a_white_led_lies_on_the_black_body_locus(kelvin, x, y):
    white = weights_of_power(white_led_power(kelvin)).sum(axis=0)
    assert white[:2] / white.sum() == pytest.approx((x, y), abs=5e-4)
