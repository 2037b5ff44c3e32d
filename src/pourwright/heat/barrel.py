"""Hot plastic in the barrel of an injector."""

from __future__ import annotations

import functools

import numpy as np
from scipy.special import jn_zeros

from pourwright.base.draws import Array
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial, volume_heat_j_m3k

LONGEST_S = 1800.0
_MELT = np.array(165.0)


def barrel_window(
    *,
    bore_m: Array,
    wall_m: Array,
    barrel_c: Array,
    alpha_m2_s: Array,
    melt_c: float,
    least_c: float,
) -> Array:
    """Seconds until the mean in the barrel falls to the limit; half an hour at most.

    The mean excess of a cylinder whose face is held is Σ 4/z²·exp(-z²·Fo) over the zeros z of J0
    (Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed., sec. 7.6). The wall counts as warm
    as what the plastic has given up makes it.
    """
    fall = melt_c - least_c
    gap = melt_c - barrel_c - _heat_ratio(bore_m, wall_m) * fall
    share = fall / np.maximum(gap, 1e-9)
    root, lost = _lost_table()
    seconds = np.interp(share, lost, root) ** 2 * (bore_m / 2) ** 2 / alpha_m2_s
    return np.where((gap > 0) & (share < lost[-1]), np.minimum(seconds, LONGEST_S), LONGEST_S)


def mixed_c(bore: Array, wall: Array, melt_c: float, barrel_c: Array) -> Array:
    """Temperature of plastic and barrel after they have shared their heat; any unit of length."""
    ratio = _heat_ratio(bore, wall)
    return np.asarray((ratio * melt_c + barrel_c) / (ratio + 1))


def _heat_ratio(bore: Array, wall: Array) -> Array:
    """Heat capacity of the plastic in a barrel against that of the barrel."""
    radius = bore / 2
    barrel = volume_heat_j_m3k(MoldMaterial.ALUMINUM) * ((radius + wall) ** 2 - radius**2)
    melt = plastisol.HOT_DENSITY_G_ML.typical * 1000 * plastisol.heat_capacity_j_kgk(_MELT)
    return np.asarray(melt * radius**2 / barrel)


@functools.cache
def _lost_table() -> tuple[Array, Array]:
    """Root of Fo, and the share of the excess that a cylinder has lost by then."""
    root = np.linspace(0.0, 1.5, 601)
    zeros = jn_zeros(0, 300)
    lost = 1 - np.exp(-np.outer(root**2, zeros**2)) @ (4 / zeros**2)
    lost[0] = 0.0
    return root, lost
