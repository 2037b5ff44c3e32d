"""The largest inside ball that touches each point of a skin."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Index

# Points laid on the skin between its vertices, so that a ball cannot slip out through a face.
LAID = 12_000
# A ball that shrinks by less than this share has settled; so many times at the most.
SETTLED, MOST_SHRINKS = 3e-3, 20
# Seen from its middle, a ball must touch the skin again at least this far away (as a cosine):
# nearer touches tell of facets, not of thickness.
AWAY = 0.8


def skin_balls(points: Array, faces: Index) -> tuple[Array, Array]:
    """The way inward at each vertex of a skin, and the radius of the ball that touches there, mm.

    A ball under the skin shrinks toward its point until nothing of the skin is inside.
    Source: Ma, Bae and Choi, 3D medial axis point approximation using nearest neighbors and the
    normal field (2012), algorithm 1.
    """
    inward = _inward(points, faces)
    most = float(np.ptp(points, axis=0).min()) / 2
    return inward, _shrunk(points, inward, np.vstack([points, _laid(points[faces])]), most)


def _inward(points: Array, faces: Index) -> Array:
    """Unit normals into the solid, each the mean of the faces around a vertex by their area."""
    a, b, c = (points[faces[:, k]] for k in range(3))
    out = np.cross(b - a, c - a)
    total = np.stack(
        [np.bincount(faces.ravel(), np.repeat(out[:, k], 3), len(points)) for k in range(3)],
        axis=1,
    )
    return np.asarray(-total / np.maximum(np.linalg.norm(total, axis=1), 1e-30)[:, None])


def _laid(corners: Array) -> Array:
    """Points spread over triangles by their area, the same every time.

    Source: Turk, Generating random points in triangles, Graphics Gems (1990): a point of the unit
    square, its root taken, is spread evenly; Kronecker's sequence in place of chance.
    """
    a, b, c = np.moveaxis(corners, 1, 0)
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1)
    steps = np.arange(1, LAID + 1)
    face = np.searchsorted(np.cumsum(area), (steps - 0.5) / LAID * area.sum())
    u, v = np.sqrt(steps * np.sqrt(2) % 1)[:, None], (steps * np.sqrt(3) % 1)[:, None]
    return np.asarray((1 - u) * a[face] + u * (1 - v) * b[face] + u * v * c[face])


def _shrunk(points: Array, inward: Array, skin: Array, most: float) -> Array:
    """Radius to which the ball at each point shrinks, from `most` downward."""
    from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

    tree = cKDTree(skin)
    radius = np.full(len(points), most)
    moving = np.arange(len(points))
    for _ in range(MOST_SHRINKS):
        start, into, size = points[moving], inward[moving], radius[moving]
        gap, nearest = tree.query(start + size[:, None] * into, eps=SETTLED)
        arm = skin[nearest] - start
        smaller = np.einsum("ij,ij->i", arm, arm) / np.maximum(
            2 * np.einsum("ij,ij->i", arm, into), 1e-30
        )
        far = np.einsum("ij,ij->i", arm / size[:, None] - into, -into) < AWAY
        still = (gap < size * (1 - SETTLED)) & far & (smaller < size)
        radius[moving[still]] = smaller[still]
        moving = moving[still]
        if not len(moving):
            break
    return radius
