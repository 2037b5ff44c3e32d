"""Thickness of a bait around each place of its skin: the largest inside ball that covers it."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Index
from pourwright.body.loft import Solid
from pourwright.body.skin_ball import skin_balls

# Relief does not count: a ball covers what it misses by this share of the thickest place, and by
# no more than this share of its own radius.
RELIEF, OWN_RELIEF = 0.08, 0.35
# A ball that the skin enters deeper than this share of its radius is none.
ENTERED = 0.03
# Facets make the balls a little small: each then moves off the nearest skin, by this share of the
# way to it and so many times, while that gives it room, and grows by no more than this.
CLIMB, CLIMBS, MOST_GROWTH = 0.03, 2, 1.06
# So many balls tell the thickness of a whole bait.
BALLS = 3000
# The middle of a ball is as far from much of the skin: the nearest is sought no closer than this.
NEAR = 0.01
# Balls are laid in groups whose sizes differ by this factor, so many of each group at a place.
GROUP, NEAREST = 1.1, 6


def covering_thickness(solid: Solid) -> tuple[Array, Array]:
    """Points of a solid's skin, and the diameter of the largest inside ball that covers each, mm.

    Rings and other low relief count to the body that bears them, so that a ringed worm is as thick
    as its body; a fin, a leg or a wall has its own thickness. Right within 5 % where triangles are
    not longer than the place is thick.
    Source: Hildebrand and Rüegsegger, A new method for the model-independent assessment of
    thickness in three-dimensional images (1997), eq. 1, with the balls that touch the skin.
    """
    mesh = solid.to_mesh()
    points = np.asarray(mesh.vert_properties)[:, :3].astype(float)
    middle, radius = _clear_balls(points, np.asarray(mesh.tri_verts).astype(np.int64))
    return points, 2 * _largest_cover(points, middle, radius)


def _clear_balls(points: Array, faces: Index) -> tuple[Array, Array]:
    """Middles and radii of the balls under the skin that the skin enters nowhere."""
    inward, felt = skin_balls(points, faces)
    tree, skin = _skin(points, faces)
    some = slice(None, None, max(1, len(points) // BALLS))
    middle, felt = (points + felt[:, None] * inward)[some], felt[some]
    room, nearest = tree.query(middle, eps=NEAR)
    clear = room >= felt * (1 - ENTERED)
    middle, felt, room, nearest = middle[clear], felt[clear], room[clear], nearest[clear]
    for _ in range(CLIMBS):
        tried = middle + CLIMB * (middle - skin[nearest])
        wider, touched = tree.query(tried, eps=NEAR)
        better = wider > room
        middle[better], room[better], nearest[better] = (
            tried[better],
            wider[better],
            touched[better],
        )
    return middle, np.minimum(room, felt * MOST_GROWTH)


def _skin(points: Array, faces: Index) -> tuple[Any, Array]:
    """Places spread over the skin, and the tree that finds the nearest of them."""
    from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

    corners = points[faces]
    between = (corners + np.roll(corners, 1, axis=1)) / 2
    between = between[faces < np.roll(faces, 1, axis=1)]
    skin = np.vstack([points, corners.mean(axis=1), between])
    return cKDTree(skin), skin


def _largest_cover(points: Array, middle: Array, radius: Array) -> Array:
    """Radius of the largest ball over each point; where there is none, that of the point beside."""
    from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

    found = np.zeros(len(points))
    top = float(radius.max())
    relief = 2 * RELIEF * top
    while top > radius.min() / GROUP and not found.all():
        group = (radius <= top) & (radius > top / GROUP)
        bare = np.flatnonzero(found == 0)
        if group.any():
            found[bare] = _cover(points[bare], middle[group], radius[group], relief)
        top /= GROUP
    beside = cKDTree(points[found > 0]).query(points)[1]
    return np.asarray(found[found > 0][beside])


def _cover(points: Array, middle: Array, radius: Array, relief: float) -> Array:
    """Radius of the largest of some balls over each point, 0 where none reaches."""
    from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

    far, ball = cKDTree(middle).query(points, k=range(1, min(NEAREST, len(middle)) + 1))
    reach = radius[ball] + np.minimum(relief, OWN_RELIEF * radius[ball])
    return np.asarray(np.where(far <= reach, radius[ball], 0.0).max(axis=1))
