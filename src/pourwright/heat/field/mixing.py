"""How the cup's own slow currents carry heat: conduction raised where the plastic can flow."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.field.grid import Grid
from pourwright.matter import flow, plastisol
from pourwright.physics.convection import GRAVITY_M_S2

MOST_RAISED = 14.0
_RAISED_BY_RAYLEIGH = 0.25


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
