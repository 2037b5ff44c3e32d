"""Air at one atmosphere."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

ATMOSPHERE_PA = 101325.0
SOUND_M_S = 343.0
# From memory: heat capacity near 50 °C, gas constant of dry air.
HEAT_CAPACITY_J_KGK, GAS_J_KGK = 1007.0, 287.05


def viscosity_pa_s(temp_c: Array | float) -> Array:
    """Viscosity of air, -100 to 1500 °C, Pa·s.

    Source: U.S. Standard Atmosphere (1976), eq. 51 (Sutherland).

    >>> (1e6 * viscosity_pa_s(15.0)).round(2).item()
    17.89
    """
    kelvin = np.asarray(temp_c, dtype=float) + 273.15
    return np.asarray(1.458e-6 * kelvin**1.5 / (kelvin + 110.4))


def conductivity_w_mk(temp_c: Array | float) -> Array:
    """Conductivity of air, 0 to 300 °C, W/(m·K): a power law (from memory)."""
    kelvin = np.asarray(temp_c, dtype=float) + 273.15
    return np.asarray(0.02624 * (kelvin / 300) ** 0.865)
