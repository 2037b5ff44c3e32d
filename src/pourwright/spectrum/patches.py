"""The 24 patches of a camera test target, for correcting photos and as colors to match."""

from __future__ import annotations

import numpy as np

from pourwright.spectrum.patch_table import PATCHES

ROWS, COLUMNS = 4, 6
PATCH_NAMES = tuple(PATCHES)
"""Left to right, row by row; the last row runs from white over gray to black."""

PATCH_REFLECTANCE = np.array(list(PATCHES.values()))
"""Shape (24, 31), 0 to 1. Targets differ from print to print by about one CIEDE2000."""
PATCH_REFLECTANCE.setflags(write=False)
