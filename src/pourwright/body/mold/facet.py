"""Triangles as files hold them, and whether they enclose a solid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.body.loft import Solid

Points = NDArray[np.float32]
Corners = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Facets:
    """Points in mm, shape (points, 3), as 32-bit floats; triangles by their points, (n, 3)."""

    points: Points
    corners: Corners

    @property
    def volume_mm3(self) -> float:
        """Volume enclosed, by the divergence theorem."""
        a, b, c = (self.points[self.corners[:, k]].astype(float) for k in range(3))
        return float(np.sum(a * np.cross(b, c)) / 6)

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Extents along x, y and z."""
        x, y, z = (self.points.max(axis=0) - self.points.min(axis=0)).tolist()
        return x, y, z


def facets_of(solid: Solid) -> Facets:
    """The skin of a solid, rounded to what an STL file can hold."""
    mesh = solid.to_mesh64()
    points = np.asarray(mesh.vert_properties)[:, :3].astype(np.float32)
    return Facets(points + np.float32(0), np.asarray(mesh.tri_verts).astype(np.int64))


def welded(soup: Points) -> Facets:
    """Triangles that share no points, shape (n, 3, 3), joined where their points are equal."""
    flat = np.ascontiguousarray(soup.reshape(-1, 3) + np.float32(0))
    rows = flat.view([("x", "<f4"), ("y", "<f4"), ("z", "<f4")]).reshape(-1)
    _, first, place = np.unique(rows, return_index=True, return_inverse=True)
    return Facets(flat[first], place.reshape(-1, 3).astype(np.int64))


def open_edges(facets: Facets) -> int:
    """Edges that do not have one triangle on either side, walked in opposite directions.

    None where the triangles enclose a solid. A triangle with two equal corners counts as well.
    """
    start, end = facets.corners.ravel(), np.roll(facets.corners, -1, axis=1).ravel()
    size = len(facets.points)
    ahead, times = np.unique(start * size + end, return_counts=True)
    back = np.unique(end * size + start)
    lonely = np.setxor1d(ahead, back, assume_unique=True)
    return int(np.count_nonzero(times > 1) + len(lonely) + np.count_nonzero(start == end))
