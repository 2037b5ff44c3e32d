"""Middle of mass of a solid of one density: where it hangs, and where water lifts it."""

from __future__ import annotations

import numpy as np

from pourwright.body.columns import triangles
from pourwright.body.loft import Solid


def center_mm(solid: Solid) -> tuple[float, float, float]:
    """Center of mass of a plain bait, which is its center of buoyancy too, mm.

    Tetrahedra from one point to every triangle, those that face the point counted as negative.
    Source: Tonon, Explicit exact formulas for the 3-D tetrahedron inertia tensor (2005), eq. 4.
    """
    corners = triangles(solid)
    middle = corners.mean(axis=(0, 1))
    a, b, c = np.moveaxis(corners - middle, 1, 0)
    volume = np.einsum("ij,ij->i", a, np.cross(b, c))
    x, y, z = middle + volume @ (a + b + c) / (4 * volume.sum())
    return float(x), float(y), float(z)
