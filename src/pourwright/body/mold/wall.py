"""How the wall of a cavity stands to the pull, and where mold between two cuts is thin."""

from __future__ import annotations

import math

import numpy as np

from pourwright.body.columns import triangles
from pourwright.body.loft import Solid

STEEP_DEGREES = 1.0
FIN_MM = 2.0


def steep_share(solid: Solid) -> float:
    """Share of a skin that stands within a degree of the pull."""
    corners = triangles(solid)
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    twice = np.linalg.norm(across, axis=1)
    steep = abs(across[:, 2]) < math.sin(math.radians(STEEP_DEGREES)) * twice
    return float(twice[steep].sum() / twice.sum())


def fin_mm2(solid: Solid) -> float:
    """Mold thinner than `FIN_MM` between cuts, on the parting plane: what closing them fills."""
    section = solid.slice(0.0)
    shut = section.offset(FIN_MM / 2).offset(-FIN_MM / 2)
    return max(float(shut.area() - section.area()), 0.0)
