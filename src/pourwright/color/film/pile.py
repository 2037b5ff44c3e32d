"""Pearl flakes in plastic as a pile of plates: what they scatter."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.matter.additive import DENSITY_G_ML
from pourwright.matter.plastisol import COLD_DENSITY_G_ML

POWDER_G_ML = DENSITY_G_ML["pearl_powder"].band.typical


def plates_per_mm(grams_per_100g: Array, plate_nm: float) -> Array:
    """Plates that a straight way through the plastic meets per mm, did they all lie across it."""
    grams_per_mm3 = grams_per_100g / 100 * COLD_DENSITY_G_ML.typical / 1000
    return np.asarray(grams_per_mm3 / (POWDER_G_ML / 1000 * plate_nm * 1e-6))


def pile_scatter(plates: Array, mirrored: Array) -> Array:
    """Reduced scattering per mm of clear plates that each mirror the share R, below 1; (draws, 31).

    N clear plates send back NR/(1 + (N - 1)R), whatever lies between them; a layer that only
    scatters sends back Sd/(1 + Sd), so that S = mR/(1 - R) for m plates per mm. Two-flux
    scattering is three quarters of the reduced one.
    Source: G. G. Stokes, Proc. R. Soc. London 11 (1862) 545: pile of plates (from memory).
    """
    return np.asarray(plates[:, None] * mirrored / (1 - mirrored) / 0.75)
