"""Fresh and salt water."""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

# Mean between 20 and 40 °C at one atmosphere, J/(kg·K). IAPWS-95 gives 4184.1 at 20 °C.
HEAT_CAPACITY_J_KGK = 4182.0
# Fresh water at 20 °C and 589 nm: IAPWS R9-97 (1997); 1.343 at 400 nm, 1.331 at 700 nm.
REFRACTIVE_INDEX = 1.333


LOWEST_C, HIGHEST_C = 0.0, 40.0
SALTIEST = 42.0
SEA_SALINITY = 35.0
# Grams of salt in a kilogram of sea water for each unit of practical salinity: Millero et al.,
# Deep-Sea Res. I 55 (2008) 50, eq. 6.5.
_G_KG_PER_UNIT = 35.16504 / 35


class Water(StrEnum):
    """Waters by their salt; brackish is taken as half of the sea."""

    FRESH = "fresh"
    BRACKISH = "brackish"
    SEA = "sea"

    @property
    def salinity(self) -> float:
        """Practical salinity."""
        return {Water.FRESH: 0.0, Water.BRACKISH: SEA_SALINITY / 2, Water.SEA: SEA_SALINITY}[self]


def density_kg_m3(temp_c: float, salinity: float = 0.0) -> float:
    """Density of water at one atmosphere, 0 to 40 °C, practical salinity 0 to 42.

    Raises: BadInput outside of that.
    Source: UNESCO Technical Papers in Marine Science 36 (1981), one-atmosphere equation of state.

    >>> round(density_kg_m3(5.0), 5), round(density_kg_m3(5.0, 35.0), 5)
    (999.96675, 1027.67547)
    """
    if not LOWEST_C <= temp_c <= HIGHEST_C:
        raise BadInput("water_c", temp_c, "must lie between 0 and 40 °C")
    if not 0 <= salinity <= SALTIEST:
        raise BadInput("salinity", salinity, "must lie between 0 and 42")
    return float(drawn_density_kg_m3(np.asarray(temp_c), salinity))


def drawn_density_kg_m3(temp_c: Array, salinity: float) -> Array:
    """The same for many temperatures at once, within the same limits."""
    t, s = temp_c, salinity
    pure = (
        999.842594 + 6.793952e-2 * t - 9.095290e-3 * t**2 + 1.001685e-4 * t**3
        - 1.120083e-6 * t**4 + 6.536332e-9 * t**5
    )  # fmt: skip
    a = 8.24493e-1 - 4.0899e-3 * t + 7.6438e-5 * t**2 - 8.2467e-7 * t**3 + 5.3875e-9 * t**4
    b = -5.72466e-3 + 1.0227e-4 * t - 1.6546e-6 * t**2
    return np.asarray(pure + a * s + b * s * math.sqrt(s) + 4.8314e-4 * s**2)


def viscosity_pa_s(temp_c: Array | float, salinity: float = 0.0) -> Array:
    """Viscosity of water at one atmosphere, 0 to 40 °C, practical salinity 0 to 42, Pa·s.

    Good to 1.5 %, pure water to 0.05 %.
    Source: Sharqawy, Lienhard and Zubair, Desalination and Water Treatment 16 (2010) 354, eqs. 22
    and 23.

    >>> (1000 * viscosity_pa_s(20.0)).round(3).item()
    1.002
    """
    t = np.asarray(temp_c, dtype=float)
    s = salinity * _G_KG_PER_UNIT / 1000
    pure = 4.2844e-5 + 1 / (0.157 * (t + 64.993) ** 2 - 91.296)
    a = 1.541 + 1.998e-2 * t - 9.52e-5 * t**2
    b = 7.974 - 7.561e-2 * t + 4.724e-4 * t**2
    return np.asarray(pure * (1 + a * s + b * s**2))
