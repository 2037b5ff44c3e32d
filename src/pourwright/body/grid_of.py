"""The grid that columns of a bait or a cavity stand on."""

from __future__ import annotations

import math

import numpy as np

from pourwright.body.columns import Grid
from pourwright.body.loft import Solid

CELLS = 12_000
FINEST_MM, COARSEST_MM = 0.25, 0.8


def grid_over(solid: Solid, pitch_mm: float | None = None) -> Grid:
    """A grid over the shadow of a solid; by default some thousand of its cells are full."""
    low, high = np.array(solid.bounding_box()).reshape(2, 3)[:, :2]
    wide, long = (float(v) for v in high - low)
    pitch = pitch_mm or _usual_pitch_mm(solid)
    count = (max(math.ceil(wide / pitch), 1), max(math.ceil(long / pitch), 1))
    return Grid((float(low[0]), float(low[1])), pitch, count)


def _usual_pitch_mm(solid: Solid) -> float:
    shadow = float(solid.project().area())
    return min(max(math.sqrt(shadow / CELLS), FINEST_MM), COARSEST_MM)
