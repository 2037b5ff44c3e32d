"""A solid cut into cubes, and the deepest of them."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Grid, Mask, crossings, triangles
from pourwright.body.loft import Solid

VOXELS = 150_000
FINEST_MM = 0.25
# Fewer voxels from the middle to the skin than this, and they are cut once more.
LEAST_DEEP = 3.0
PLACES = 12


def deep_places(solid: Solid) -> tuple[Array, float]:
    """Middles of the deepest voxels, apart from each other and the nearest to the nose first.

    Returns: places, shape (places, 3), and the side of a voxel, mm.
    """
    corners = triangles(solid)
    low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
    pitch = max(float(np.prod(high - low) / VOXELS) ** (1 / 3), FINEST_MM)
    depth = _depth(corners, low, high, pitch)
    if depth.max() < LEAST_DEEP:
        pitch /= 2
        depth = _depth(corners, low, high, pitch)
    deepest = np.argwhere(depth >= depth.max() - 1)
    order = np.lexsort((deepest[:, 0], -depth[tuple(deepest.T)]))
    return _apart(low + (deepest[order] + 0.5) * pitch, 2 * pitch), pitch


def _apart(places: Array, least: float) -> Array:
    """Some of the places that keep away from each other, the first ones first."""
    apart = max(least, float(np.ptp(places, axis=0).max()) / PLACES)
    chosen: list[Array] = []
    while len(places) and len(chosen) < PLACES:
        chosen.append(places[0])
        places = places[np.linalg.norm(places - places[0], axis=1) > apart]
    return np.array(chosen)


def _depth(corners: Array, low: Array, high: Array, pitch: float) -> Array:
    """Distance of each voxel within to the nearest one without, in voxels."""
    from scipy.ndimage import distance_transform_edt  # noqa: PLC0415  slow to load

    filled = voxels(corners, low, high, pitch)
    return np.asarray(distance_transform_edt(np.pad(filled, 1))[1:-1, 1:-1, 1:-1])


def voxels(corners: Array, low: Array, high: Array, pitch: float) -> Mask:
    """Voxels whose middle lies within a closed mesh, column by column along the pull."""
    wide, long, tall = (max(math.ceil(v / pitch), 1) for v in high - low)
    grid = Grid((float(low[0]), float(low[1])), pitch, (wide, long))
    cell, enter, leave = crossings(corners, grid).gaps()
    upright = Grid((float(low[2]), 0.0), pitch, (tall, 1))
    turns = np.zeros((wide * long, tall + 1), dtype=np.int32)
    np.add.at(turns, (cell, upright.first(0, enter)), 1)
    np.add.at(turns, (cell, upright.first(0, leave)), -1)
    return np.asarray(np.cumsum(turns, axis=1)[:, :-1].reshape(wide, long, tall) > 0)
