"""A maker types the light of the shed."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.base.errors import BadInput
from pourwright.base.record import from_json, to_json
from pourwright.base.units import unit_of
from pourwright.spectrum.lamp import filament_power
from pourwright.spectrum.light import BANDS, WAVELENGTHS_NM
from pourwright.spectrum.shed import LightSort, ShedLight

EVEN = (1.0,) * BANDS


@pytest.mark.parametrize(
    ("sort", "kelvin"),
    [("filament", 2700), ("daylight", 6500), ("white LED", 4000)],
)
def test_a_light_off_its_pack(sort, kelvin):
    light = from_json(ShedLight, {"sort": sort, "color_temperature_kelvin": kelvin})
    assert light.weights().shape == (BANDS, 3)
    assert light.weights()[:, 1].sum() == pytest.approx(100)
    assert from_json(ShedLight, to_json(light)) == light
    assert light.note()


def test_a_measured_light_counts_by_its_shape_alone():
    # Closed form: relative power has no scale.
    one, two = (ShedLight(sort=LightSort.MEASURED, power=(p,) * BANDS) for p in (1e-310, 1e9))
    assert one.weights() == pytest.approx(two.weights(), rel=1e-12)
    # Equal power has the chromaticity 1/3, 1/3 by the definition of the observer (CIE 15).
    assert one.weights().sum(axis=0) == pytest.approx((100, 100, 100), abs=0.05)


@pytest.mark.parametrize(
    ("typed", "field", "why"),
    [
        ({"sort": "candle"}, "sort", "must be one of filament, daylight, white LED, measured"),
        ({"sort": "filament"}, "color_temperature_kelvin", "is required for filament"),
        (
            {"sort": "filament", "color_temperature_kelvin": 4000},
            "color_temperature_kelvin",
            "must lie between 1500 and 3500 K",
        ),
        (
            {"sort": "daylight", "color_temperature_kelvin": 3000},
            "color_temperature_kelvin",
            "must lie between 4000 and 25000 K",
        ),
        (
            {"sort": "white LED", "color_temperature_kelvin": 9000},
            "color_temperature_kelvin",
            "must lie between 2200 and 7000 K",
        ),
        (
            {"sort": "white LED", "color_temperature_kelvin": 0},
            "color_temperature_kelvin",
            "must lie between 1500 and 25000",
        ),
        (
            {"sort": "white LED", "color_temperature_kelvin": 4000, "power": EVEN},
            "power",
            "goes with the sort 'measured', and only there",
        ),
        (
            {"sort": "measured", "color_temperature_kelvin": 4000, "power": EVEN},
            "color_temperature_kelvin",
            "does not go with the sort 'measured'; leave it out",
        ),
        ({"sort": "measured"}, "power", "must have 31 entries, one for every 10 nm"),
        ({"sort": "measured", "power": EVEN[1:]}, "power", "must have 31 entries"),
        ({"sort": "measured", "power": (*EVEN, 1.0)}, "power", "must have 0 to 31 entries"),
        ({"sort": "measured", "power": (0.0,) * BANDS}, "power", "must hold some light"),
        ({"sort": "measured", "power": (-1.0, *EVEN[1:])}, "power", "must lie between 0 and"),
    ],
)
def test_what_does_not_fit_is_refused(typed, field, why):
    with pytest.raises(BadInput) as refused:
        from_json(ShedLight, typed)
    assert refused.value.field == field
    assert why in refused.value.why


@pytest.mark.parametrize(
    ("nm", "missing"), [(400, "green"), (450, "green"), (530, "blue"), (590, "blue"), (650, "blue")]
)
def test_light_of_one_color_is_refused(nm, missing):
    # A colored diode or a sodium lamp: nearly every surface looks the same under it.
    power = np.exp(-(((WAVELENGTHS_NM - nm) / 12) ** 2))
    with pytest.raises(BadInput, match=f"power: holds next to no {missing}"):
        ShedLight(sort=LightSort.MEASURED, power=tuple(power))


def test_a_measured_candle_and_a_measured_tube_pass():
    candle = ShedLight(sort=LightSort.MEASURED, power=tuple(filament_power(1500)))
    # Three lines on a low floor, as a three-band tube has them; invented.
    lines = np.exp(-(((WAVELENGTHS_NM - np.array([[440], [545], [610]])) / 6) ** 2)).sum(axis=0)
    tube = ShedLight(sort=LightSort.MEASURED, power=tuple(0.02 + lines))
    for light in (candle, tube):
        assert np.all(np.isfinite(light.weights()))
        assert light.weights().sum(axis=0).min() > 1


def test_a_color_temperature_is_never_turned_into_fahrenheit():
    assert unit_of("color_temperature_kelvin") is None
