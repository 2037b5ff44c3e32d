"""Waves that fade in a lossy medium."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

LIGHT_M_S = 299_792_458.0


def penetration_depth_m(real: Array | float, loss: Array | float, hertz: float) -> Array:
    """Depth at which the power of a plane wave has fallen to 1/e, for permittivity real - j·loss.

    Source: Metaxas and Meredith, Industrial Microwave Heating (1983), eq. 2.51 (from memory).

    >>> penetration_depth_m(3.3, 0.3, 2.45e9).round(5).item()
    0.11805
    """
    squared = (np.asarray(loss) / np.asarray(real)) ** 2
    steep = np.sqrt(np.sqrt(1 + squared) - 1)
    return np.asarray(LIGHT_M_S / (2 * np.pi * hertz * np.sqrt(2 * np.asarray(real)) * steep))
