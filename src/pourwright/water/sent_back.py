"""The light a bait sends back, entered in one of three ways."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.color_space import xyz_of_hex, xyz_of_lab
from pourwright.spectrum.light import white_xyz
from pourwright.spectrum.smooth import smooth_spectrum

# A glowing color sends back more than it gets in a band; estimate.
MOST_RETURNED = 1.5


def sent_back(reflectance: tuple[float, ...], lab: tuple[float, ...], color_hex: str) -> Array:
    """Share of light sent back, (31,): as measured, or the smoothest that shows the color.

    Raises: NoAnswer for a color no surface shows.
    """
    if reflectance:
        return np.array(reflectance)
    if lab:
        return smooth_spectrum(xyz_of_lab(np.array(lab), white_xyz()))
    return smooth_spectrum(xyz_of_hex(color_hex))
