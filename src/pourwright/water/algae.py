"""What drifting algae absorb: two numbers to a band, 400 to 700 nm by 10."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.source import published

SOURCE = published(
    "Bricaud, Babin, Morel and Claustre, J. Geophys. Res. 100 (1995) 13321, table 2: absorption "
    "per mg of chlorophyll falls with chlorophyll"
)
# The range of the samples it was fitted to.
LEAST_MG_M3, MOST_MG_M3 = 0.02, 25.0

_PER_MG = np.array([
    0.0263, 0.0313, 0.0356, 0.0386, 0.0403, 0.0371, 0.0350, 0.0332, 0.0301, 0.0274,
    0.0230, 0.0180, 0.0143, 0.0117, 0.0097, 0.0080, 0.0062, 0.0053, 0.0053, 0.0056,
    0.0054, 0.0057, 0.0065, 0.0071, 0.0077, 0.0083, 0.0115, 0.0189, 0.0182, 0.0083, 0.0030,
])  # fmt: skip
_FALL = np.array([
    0.282, 0.283, 0.299, 0.314, 0.332, 0.359, 0.365, 0.368, 0.377, 0.361,
    0.321, 0.260, 0.196, 0.139, 0.090, 0.052, 0.016, 0.005, 0.035, 0.073,
    0.092, 0.071, 0.064, 0.078, 0.098, 0.124, 0.121, 0.149, 0.155, 0.086, -0.034,
])  # fmt: skip


def absorb_per_m(chlorophyll_mg_m3: Array) -> Array:
    """Absorption of living algae; shape of the chlorophyll, then the bands.

    Good for 0.02 to 25 mg/m³; the sea's samples, taken for lakes too.
    """
    return np.asarray(_PER_MG * chlorophyll_mg_m3[..., None] ** (1 - _FALL))
