"""Triangles as files hold them, and whether they enclose a solid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.body import weld
from pourwright.body.loft import Solid
from pourwright.body.shell import arrays
from pourwright.body.winding import edges_of

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
    points, corners = arrays(solid)
    # Adding zero leaves no negative zero, which a file would spell otherwise.
    return Facets(points.astype(np.float32) + np.float32(0), corners)


def welded(soup: Points) -> Facets:
    """Triangles that share no points, shape (n, 3, 3), joined where their points are equal."""
    loose = soup.reshape(-1, 3).astype(float)
    points, corners = weld.welded(loose, np.arange(len(loose)).reshape(-1, 3))
    return Facets(points.astype(np.float32), corners)


def loose_edges(facets: Facets) -> int:
    """Edges that do not have one triangle on either side, walked in opposite directions.

    None where the triangles enclose one solid: an edge at which two solids touch counts, and so
    does a triangle with two equal corners.
    """
    start, end = edges_of(facets.corners).T
    size = len(facets.points)
    ahead, times = np.unique(start * size + end, return_counts=True)
    back = np.unique(end * size + start)
    lonely = np.setxor1d(ahead, back, assume_unique=True)
    return int(np.count_nonzero(times > 1) + len(lonely) + np.count_nonzero(start == end))
