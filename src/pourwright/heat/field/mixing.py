"""How the cup's own slow currents carry heat: conduction raised where the plastic can flow."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.field.grid import Grid
from pourwright.matter import flow, plastisol
from pourwright.physics.convection import GRAVITY_M_S2

MOST_RAISED = 14.0
_RAISED_BY_RAYLEIGH = 0.25


def conductivity_w_mk(temp_c: Array) -> Array:
    """Conductivity of plastisol, 0 to 250 °C, W/(m·K).

    A quarter of resin at 0.165 and plasticizer at 0.137 falling by 0.19 mW to a kelvin (handbook
    values for phthalates and adipates carried by open property libraries, fitted by hand).
    """
    resin = 1 / (1 + 3.0 + 0.04)
    return np.asarray(resin * 0.165 + (1 - resin) * (0.137 - 1.9e-4 * (temp_c - 25)))


def raised(
    cells: Grid, temp_c: Array, gelled: Array, fused: Array, *, currents: float
) -> tuple[Array, Array]:
    """Factors on conduction across and up, in the shape of the plastic; one in the gel.

    From the Rayleigh number of the cup's radius by the local viscosity; Ra^¼ as in an enclosure
    (estimate). Up only where it is warmer below. `currents` scales the whole.
    """
    radius = float(cells.columns_m[: cells.plastic_columns].sum())
    spread = max(float(temp_c.max() - temp_c.min()), 0.1)
    drive = GRAVITY_M_S2 * flow.EXPANSION_PER_K * spread * radius**3
    density = plastisol.COLD_DENSITY_G_ML.typical * 1000
    nu_alpha = flow.viscosity_pa_s(temp_c, gelled, fused) / density
    rayleigh = drive / (nu_alpha * plastisol.DIFFUSIVITY_M2_S.typical)
    factor = np.clip(currents * _RAISED_BY_RAYLEIGH * rayleigh**0.25, 1.0, MOST_RAISED)
    layered = np.zeros(temp_c.shape, bool)
    layered[:-1] = temp_c[1:] >= temp_c[:-1]
    layered[-1] = layered[-2]
    return factor, np.where(layered, 1.0, factor)
