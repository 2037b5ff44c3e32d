"""Starter constants of a colorant nobody has measured: from the color it shows."""

from __future__ import annotations

import functools

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.color_space import BANDS, smooth_spectrum, xyz_of_hex

# The reference at which a colorant of strength 1 shows its color: 10 mm over white with 0.2 g
# (about five drops) in 100 g. Estimate; own pucks replace it.
REFERENCE_MM = 10.0
REFERENCE_G = 0.2
# Scattering of an opaque colorant at the reference, per mm: it hides a ground at 10 mm. Estimate.
OPAQUE_SCATTER_MM = 0.4
TRANSLUCENT_SCATTER_MM = 0.01
PEARL_SCATTER_MM = 0.12

# Raw base: a trace of haze and of yellow. Estimates.
BASE_SCATTER_MM = 0.004
BASE_ABSORB_MM = 0.0015 + 0.004 * np.exp(-np.arange(BANDS) / 8.0)


@functools.lru_cache(maxsize=512)
def constants(color_hex: str, scatter_mm: float) -> tuple[Array, Array]:
    """Absorption and scattering per mm, for 1 g in 100 g, of a colorant of strength 1.

    The color is read as that of a hiding layer where it scatters, K/S = (1 - R)² / 2R, and as
    light that crosses the reference puck twice where it does not, K = -ln R / 2d.
    """
    shown = smooth_spectrum(xyz_of_hex(color_hex))
    if scatter_mm >= PEARL_SCATTER_MM:
        absorb = scatter_mm * (1 - shown) ** 2 / (2 * shown)
    else:
        absorb = -np.log(shown) / (2 * REFERENCE_MM)
    return absorb / REFERENCE_G, np.full(BANDS, scatter_mm / REFERENCE_G)
