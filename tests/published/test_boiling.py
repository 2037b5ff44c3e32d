"""Boiling water and the air above it against printed tables and an independent library.

Library: `iapws`, an independent implementation of the IAPWS releases.
"""

from __future__ import annotations

import numpy as np
import pytest
from iapws import IAPWS95
from scipy.optimize import brentq

from pourwright.base.errors import BadInput
from pourwright.base.units import convert
from pourwright.matter.boiling import boiling_c, standard_pressure_pa
from pourwright.matter.water import HEAT_CAPACITY_J_KGK, density_kg_m3


@pytest.mark.parametrize(
    ("mpa", "kelvin"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)]
)  # fmt: skip
def test_saturation_by_the_release(mpa, kelvin):
    # IAPWS-IF97, revised release (2007), table 36: saturation temperature from pressure.
    assert float(boiling_c(mpa * 1e6)) + 273.15 == pytest.approx(kelvin, abs=1e-6)


@pytest.mark.parametrize("celsius", [80.0, 90.0, 95.0, 100.0])
def test_saturation_by_another_equation(celsius):
    # Library: IAPWS-95 (another equation of state than IF97) on its own saturation line.
    pressure = IAPWS95(T=celsius + 273.15, x=0).P * 1e6
    assert float(boiling_c(pressure)) == pytest.approx(celsius, abs=0.005)


@pytest.mark.parametrize(
    ("meters", "pascal"),
    [(0, 101325), (1000, 89876), (2000, 79501), (3000, 70121), (4000, 61660), (5000, 54048)],
)
def test_standard_air(meters, pascal):
    # U.S. Standard Atmosphere (1976), table I, by geometric altitude (memory).
    assert standard_pressure_pa(meters) == pytest.approx(pascal, abs=1)


def test_boiling_at_a_mile():
    # From memory: kitchens a mile up boil water at about 203 °F (94.7 to 95 °C).
    assert float(boiling_c(standard_pressure_pa(1609.344))) == pytest.approx(94.7, abs=0.3)


@pytest.mark.parametrize("pressure", [600.0, 23e6])
def test_no_boiling_point_off_the_line(pressure):
    # The triple point lies at 611.657 Pa, the critical one at 22.064 MPa (same release).
    with pytest.raises(BadInput, match="must lie between"):
        boiling_c(np.array([101325.0, pressure]))


@pytest.mark.parametrize("meters", [-431.0, 5501.0])
def test_no_air_beyond_the_bench(meters):
    with pytest.raises(BadInput, match="altitude_m: must lie between -430 and 5500 m"):
        standard_pressure_pa(meters)


@pytest.mark.parametrize(("celsius", "cp"), [(10, 4195.16), (20, 4184.05), (80, 4196.75)])
def test_heat_capacity_of_water(celsius, cp):
    # Library: IAPWS-95 at one atmosphere. One figure stands for all within 0.4 %.
    library = IAPWS95(T=celsius + 273.15, P=0.101325).cp * 1e3
    assert library == pytest.approx(cp, abs=0.01)
    assert pytest.approx(library, rel=4e-3) == HEAT_CAPACITY_J_KGK


@pytest.mark.parametrize("celsius", [4.0, 10.0, 20.0, 30.0, 40.0])
def test_density_of_water(celsius):
    # Library: IAPWS-95 at one atmosphere; the oceanographers' equation is older: within 20 ppm.
    library = IAPWS95(T=celsius + 273.15, P=0.101325).rho
    assert density_kg_m3(celsius) == pytest.approx(library, rel=2e-5)


def test_boiling_point_turns_back_into_the_pressure():
    # Closed form of region 4 (same release, eq. 29): the implicit quadratic is zero at the answer.
    def left(kelvin: float) -> float:
        n = (
            1167.0521452767, -724213.16703206, -17.073846940092, 12020.824702470,
            -3232555.0322333, 14.915108613530, -4823.2657361591, 405113.40542057,
            -0.23855557567849, 650.17534844798,
        )  # fmt: skip
        theta, beta = kelvin + n[8] / (kelvin - n[9]), 0.09**0.25
        return float(
            beta**2 * theta**2 + n[0] * beta**2 * theta + n[1] * beta**2
            + n[2] * beta * theta**2 + n[3] * beta * theta + n[4] * beta
            + n[5] * theta**2 + n[6] * theta + n[7]
        )  # fmt: skip

    assert float(boiling_c(0.09e6)) + 273.15 == pytest.approx(brentq(left, 360, 380), abs=1e-7)


@pytest.mark.parametrize(
    ("value", "given", "wanted", "expected"),
    [
        # NIST SP 811 (2008), appendix B.8; 29.92 inHg is the standard atmosphere of aviation.
        (1, "ft", "m", 0.3048),
        (1, "inhg", "hpa", 33.86389),
        (29.92, "inhg", "hpa", 1013.21),
    ],
)
def test_units_of_altitude_and_air(value, given, wanted, expected):
    assert convert(value, given, wanted) == pytest.approx(expected, rel=3e-6)
