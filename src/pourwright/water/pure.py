"""What water itself does to light, on the 31 bands, 400 to 700 nm by 10."""

from __future__ import annotations

import numpy as np

from pourwright.base.source import memory, published
from pourwright.spectrum.light import WAVELENGTHS_NM

ABSORPTION_SOURCE = published("Pope and Fry, Appl. Opt. 36 (1997) 8710, table 3")
SCATTERING_SOURCE = memory("Morel, in Optical Aspects of Oceanography (1974): fresh water")

ABSORB_PER_M = np.array([
    0.00663, 0.00473, 0.00454, 0.00495, 0.00635, 0.00922, 0.00979, 0.0106, 0.0127, 0.015,
    0.0204, 0.0325, 0.0409, 0.0434, 0.0474, 0.0565, 0.0619, 0.0695, 0.0896, 0.1351,
    0.2224, 0.2644, 0.2755, 0.2916, 0.3108, 0.34, 0.41, 0.439, 0.465, 0.516, 0.624,
])  # fmt: skip
ABSORB_PER_M.setflags(write=False)

SCATTER_PER_M = 0.00222 * (500 / WAVELENGTHS_NM) ** 4.32
SCATTER_PER_M.setflags(write=False)
"""Half of it goes backward."""
