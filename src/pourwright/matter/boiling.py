"""The boiling point of water, from the pressure of the air; and that pressure from the altitude."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

LEAST_PA, MOST_PA = 611.213, 22.064e6
LOWEST_M, HIGHEST_M = -430.0, 5500.0
# IAPWS-IF97 (revised release, 2007), table 34: coefficients n1 to n10 of region 4.
_N = (
    1167.0521452767, -724213.16703206, -17.073846940092, 12020.824702470, -3232555.0322333,
    14.915108613530, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
)  # fmt: skip
# U.S. Standard Atmosphere (1976), layer below 11 km: table 2 and sec. 1.2.
_SEA_PA, _SEA_K, _LAPSE_K_M = 101325.0, 288.15, 0.0065
_EARTH_M = 6356766.0
_EXPONENT = 9.80665 * 0.0289644 / (8.31432 * _LAPSE_K_M)


def boiling_c(pressure_pa: Array | float) -> Array:
    """Temperature at which pure water boils, from the triple point to the critical point, °C.

    Raises: BadInput outside of that.
    Source: IAPWS-IF97 (revised release, 2007), eq. 31.

    >>> boiling_c(101325.0).round(3).item(), boiling_c(80000.0).round(3).item()
    (99.974, 93.485)
    """
    pressure = np.asarray(pressure_pa, dtype=float)
    if not ((pressure >= LEAST_PA) & (pressure <= MOST_PA)).all():
        why = f"must lie between {LEAST_PA:g} and {MOST_PA:g} Pa"
        raise BadInput("pressure_pa", float(pressure.flat[0]), why)
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    beta = (pressure / 1e6) ** 0.25
    e = beta**2 + n3 * beta + n6
    f = n1 * beta**2 + n4 * beta + n7
    g = n2 * beta**2 + n5 * beta + n8
    d = 2 * g / (-f - np.sqrt(f**2 - 4 * e * g))
    kelvin = (n10 + d - np.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2
    return np.asarray(kelvin - 273.15)


def standard_pressure_pa(altitude_m: float) -> float:
    """Pressure of the standard air at an altitude between -430 and 5500 m.

    Raises: BadInput outside of that.
    Source: U.S. Standard Atmosphere (1976), eqs. 18 and 33a.

    >>> round(standard_pressure_pa(0)), round(standard_pressure_pa(1609.344))
    (101325, 83432)
    """
    if not LOWEST_M <= altitude_m <= HIGHEST_M:
        why = f"must lie between {LOWEST_M:g} and {HIGHEST_M:g} m"
        raise BadInput("altitude_m", altitude_m, why)
    height = _EARTH_M * altitude_m / (_EARTH_M + altitude_m)
    return _SEA_PA * math.pow(1 - _LAPSE_K_M * height / _SEA_K, _EXPONENT)
