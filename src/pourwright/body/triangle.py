"""Where a point drops onto triangles."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array


def feet(corners: Array, point: Array) -> Array:
    """The place on each of some triangles that is nearest to a point, shape (triangles, 3).

    Source: Ericson, Real-Time Collision Detection (2005), section 5.1 (regions of a triangle):
    the foot of the plumb line if it falls on the triangle, the nearest edge otherwise.
    """
    a = corners - point
    edge = np.roll(a, -1, axis=1) - a
    length2 = np.einsum("ijk,ijk->ij", edge, edge)
    along = -np.einsum("ijk,ijk->ij", a, edge) / np.maximum(length2, 1e-30)
    on_edge = a + np.clip(along, 0, 1)[:, :, None] * edge
    nearest = np.einsum("ijk,ijk->ij", on_edge, on_edge).argmin(axis=1)
    foot = on_edge[np.arange(len(a)), nearest]
    normal = np.cross(edge[:, 0], edge[:, 1])
    norm2 = np.einsum("ij,ij->i", normal, normal)
    within = np.einsum("ijk,ijk->ij", np.cross(edge, -a), normal[:, None, :]).min(axis=1) >= 0
    plumb = np.einsum("ij,ij->i", a[:, 0], normal) / np.maximum(norm2, 1e-30)
    over = (within & (norm2 > 0))[:, None]
    return np.asarray(point + np.where(over, plumb[:, None] * normal, foot))
