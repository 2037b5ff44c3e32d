"""How much the plastic's own slow currents add to conduction."""

from __future__ import annotations

import numpy as np

from speed.kitchen.air import GRAVITY_M_S2
from speed.kitchen.draws import Array
from speed.kitchen.grid import RINGS, ROW_EDGE, plastic_mean
from speed.kitchen.plastic import Plastic, ln_viscosity_pas

ONSET_RAYLEIGH = 1708.0
"""Where a layer heated from below begins to turn (H. Jeffreys 1928, in S. Chandrasekhar,
Hydrodynamic and Hydromagnetic Stability, 1961, table III)."""


def _away_from_edges() -> Array:
    ring = (np.arange(RINGS) + 0.5) / RINGS
    row = ROW_EDGE[1:] + ROW_EDGE[:-1] - 1
    return np.asarray(((1 - row**4)[:, None] * (1 - ring**4))[:, :, None])


AWAY = _away_from_edges()
"""0 at wall, floor and surface, where nothing moves; 1 in the middle."""


def conduct_factor(
    plastic: Plastic, temp_c: Array, gelled: Array, fused: Array, size_m: Array
) -> Array:
    """What conductivity is multiplied by in each plastic cell, 1 or more.

    Currents grow with the Rayleigh number of a hollow of size `size_m`, of the spread of
    temperature in the cup and of the cell's own viscosity, and die in the gel.
    """
    mean = plastic_mean(temp_c)
    apart = 2 * np.sqrt(plastic_mean((temp_c - mean) ** 2)) + 0.05
    push = GRAVITY_M_S2 * plastic.swell_per_k * apart * size_m**3 * plastic.density_kg_m3
    ease = plastic.density_kg_m3 * plastic.heat_j_kgk / plastic.conduct_w_mk
    ln_rayleigh = np.log(push * ease) - ln_viscosity_pas(plastic, temp_c, gelled, fused)
    drive = np.exp(plastic.mixing_power * ln_rayleigh)
    onset = ONSET_RAYLEIGH**plastic.mixing_power
    fourth = (drive / onset) ** 2
    fourth *= fourth
    stirred = np.minimum(plastic.mixing_gain * drive * (fourth / (1 + fourth)), plastic.mixing_cap)
    return 1 + stirred * AWAY
