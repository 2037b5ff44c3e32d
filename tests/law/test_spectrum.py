"""Promises that every light keeps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.spectrum import lamp
from pourwright.spectrum.light import BANDS, WEIGHTS, Light, weights_of_power, white_xyz, xyz_of
from pourwright.spectrum.patches import PATCH_REFLECTANCE

LAMPS = [
    (lamp.filament_power, lamp.FILAMENT_K),
    (lamp.daylight_power, lamp.DAYLIGHT_K),
    (lamp.white_led_power, lamp.WHITE_LED_K),
]
POWERS = st.lists(st.floats(1e-3, 1e3), min_size=BANDS, max_size=BANDS).map(np.array)


@pytest.mark.parametrize("light", list(Light))
def test_every_light_has_weights_with_white_at_100(light):
    assert WEIGHTS[light].shape == (BANDS, 3)
    assert white_xyz(light)[1] == pytest.approx(100, abs=1e-4)


@pytest.mark.parametrize("light", list(Light))
def test_no_surface_outshines_white(light):
    assert np.all(xyz_of(PATCH_REFLECTANCE, light) < white_xyz(light))


@given(power=POWERS, scale=st.floats(1e-6, 1e6))
def test_weights_of_a_power_have_no_scale(power, scale):
    weights = weights_of_power(power)
    assert weights[:, 1].sum() == pytest.approx(100)
    assert weights_of_power(power * scale) == pytest.approx(weights, rel=1e-9)


@pytest.mark.parametrize(("power_of", "limits"), LAMPS)
@given(share=st.floats(0, 1))
def test_power_is_never_negative(power_of, limits, share):
    low, high = limits
    assert np.all(power_of(low + share * (high - low)) > 0)


@pytest.mark.parametrize(("power_of", "limits"), LAMPS)
def test_hotter_is_bluer(power_of, limits):
    low, high = limits
    ladder = [weights_of_power(power_of(k)).sum(axis=0)[2] for k in np.linspace(low, high, 40)]
    assert np.all(np.diff(ladder) > 0)


@pytest.mark.parametrize(("power_of", "limits"), LAMPS)
@pytest.mark.parametrize("off", [0.999, 1.001])
def test_no_lamp_beyond_its_limits(power_of, limits, off):
    edge = limits[0] if off < 1 else limits[1]
    with pytest.raises(BadInput, match="color_temperature_kelvin: must lie between"):
        power_of(edge * off)


@pytest.mark.parametrize(("power_of", "limits"), LAMPS)
def test_a_color_temperature_that_is_no_number_is_refused(power_of, limits):
    with pytest.raises(BadInput, match="color_temperature_kelvin"):
        power_of(float("nan") * limits[0])
