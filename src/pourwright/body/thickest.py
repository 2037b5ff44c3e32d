"""The thickest place of a solid: the largest ball that fits inside."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import manifold3d
import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.body.loft import Solid

VOXELS = 150_000
FINEST_MM = 0.25
# Fewer voxels from the middle to the skin than this, and they are cut once more.
LEAST_DEEP = 3.0
# Places looked at exactly, and how many of those are then refined.
CANDIDATES, REFINED, MOST_CLIMBS = 16, 2, 12
# A section this many times the ball's disk cools as a slab does; estimate.
SLAB_SECTION = 1.9


@dataclass(frozen=True, slots=True)
class ThickestPlace:
    """Diameter and center of the largest inside ball, and whether the place is a slab."""

    diameter_mm: float
    center_mm: tuple[float, float, float]
    flat: bool


def thickest_place(solid: Solid) -> ThickestPlace:
    """Voxels find the deep places; exact distances to the surface then settle them.

    Where many places are equally thick, the one found is the nearest to the nose.
    """
    mesh = solid.to_mesh()
    corners = np.asarray(mesh.vert_properties)[:, :3].astype(float)[np.asarray(mesh.tri_verts)]
    deep, pitch = _deep_places(solid)
    depths = np.array([_near(corners, place, pitch)(place) for place in deep])
    starts = deep[np.argsort(-depths, kind="stable")[:REFINED]]
    found = [_climbed(corners, start, pitch) for start in starts]
    radius, center = max(found, key=lambda ball: ball[0])
    x, y, z = (float(v) for v in center)
    return ThickestPlace(2 * radius, (x, y, z), _flat(solid, center, radius))


def distance(corners: Array, point: Array) -> float:
    """Distance from a point to the nearest of some triangles, shape (triangles, 3, 3).

    Source: Ericson, Real-Time Collision Detection (2005), section 5.1 (regions of a triangle):
    the foot of the plumb line if it falls on the triangle, the nearest edge otherwise.
    """
    a = corners - point
    edge = np.roll(a, -1, axis=1) - a
    length2 = np.einsum("ijk,ijk->ij", edge, edge)
    along = -np.einsum("ijk,ijk->ij", a, edge) / np.maximum(length2, 1e-30)
    foot = a + np.clip(along, 0, 1)[:, :, None] * edge
    least2 = np.einsum("ijk,ijk->ij", foot, foot).min(axis=1)
    normal = np.cross(edge[:, 0], edge[:, 1])
    inside = np.einsum("ijk,ijk->ij", np.cross(edge, -a), normal[:, None, :]).min(axis=1) >= 0
    norm2 = np.einsum("ij,ij->i", normal, normal)
    plumb2 = np.einsum("ij,ij->i", a[:, 0], normal) ** 2 / np.maximum(norm2, 1e-30)
    return math.sqrt(float(np.where(inside & (norm2 > 0), plumb2, least2).min()))


def _near(corners: Array, place: Array, pitch: float) -> Callable[[Array], float]:
    """Distance to the surface, right for points within two voxels of a place along each axis."""
    low, high = corners.min(axis=1), corners.max(axis=1)
    gap = np.linalg.norm(np.maximum(np.maximum(low - place, place - high), 0), axis=1)
    reach = np.linalg.norm(corners[:, 0] - place, axis=1).min() + 7 * pitch
    close = corners[gap <= reach]
    return lambda point: distance(close, point)


def _climbed(corners: Array, start: Array, pitch: float) -> tuple[float, Array]:
    """Radius and middle of the largest ball that a start grows into."""
    radius, top = _climb(corners, start, pitch)
    for _ in range(MOST_CLIMBS):
        if np.abs(top - start).max() < pitch:
            break
        start = top
        radius, top = _climb(corners, start, pitch)
    return radius, top


def _climb(corners: Array, start: Array, pitch: float) -> tuple[float, Array]:
    """The deepest point within two voxels of a start along each axis."""
    # Loaded here because it is slow to load and most runs never measure a body.
    from scipy.optimize import minimize  # noqa: PLC0415

    depth = _near(corners, start, pitch)

    def shallow(point: Array) -> float:
        return -depth(point)

    best = minimize(
        shallow,
        start,
        method="Nelder-Mead",
        bounds=[(float(v) - 2 * pitch, float(v) + 2 * pitch) for v in start],
        options={
            "initial_simplex": start + pitch * np.vstack([np.zeros(3), np.eye(3)]),
            "xatol": pitch / 50,
            "fatol": pitch / 2000,
        },
    )
    return -float(best.fun), np.asarray(best.x)


def _deep_places(solid: Solid) -> tuple[Array, float]:
    """Middles of the deepest voxels, apart from each other and the nearest to the nose first."""
    from scipy.ndimage import distance_transform_edt  # noqa: PLC0415  slow to load, as above

    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    pitch = max(float(np.prod(high - low) / VOXELS) ** (1 / 3), FINEST_MM)
    filled = _filled(solid, low, high, pitch)
    depth = distance_transform_edt(np.pad(filled, 1))[1:-1, 1:-1, 1:-1]
    if depth.max() < LEAST_DEEP:
        pitch /= 2
        filled = _filled(solid, low, high, pitch)
        depth = distance_transform_edt(np.pad(filled, 1))[1:-1, 1:-1, 1:-1]
    deepest = np.argwhere(depth >= depth.max() - 1)
    order = np.lexsort((deepest[:, 0], -depth[tuple(deepest.T)]))
    left = low + (deepest[order] + 0.5) * pitch
    apart = max(2 * pitch, float(np.ptp(left, axis=0).max()) / CANDIDATES)
    chosen: list[Array] = []
    while len(left) and len(chosen) < CANDIDATES:
        chosen.append(left[0])
        left = left[np.linalg.norm(left - left[0], axis=1) > apart]
    return np.array(chosen), pitch


def _filled(solid: Solid, low: Array, high: Array, pitch: float) -> NDArray[np.bool_]:
    """Voxels whose middle lies inside, slice by slice along the pull."""
    count = np.maximum(np.ceil((high - low) / pitch).astype(int), 1)
    x, y, z = (low[k] + (np.arange(count[k]) + 0.5) * pitch for k in range(3))
    return np.stack([_inside(solid.slice(float(h)).to_polygons(), x, y) for h in z], axis=2)


def _inside(rings: list[Array], x: Array, y: Array) -> NDArray[np.bool_]:
    """Even-odd rule on a grid: a column is inside between its odd and its even crossings."""
    crossed = np.zeros((len(x), len(y) + 1), dtype=np.int64)
    if rings:
        here = np.vstack(rings)
        there = np.vstack([np.roll(ring, -1, axis=0) for ring in rings])
        first, last = np.searchsorted(x, np.sort([here[:, 0], there[:, 0]], axis=0))
        times = last - first
        edge = np.repeat(np.arange(len(here)), times)
        column = first[edge] + np.arange(len(edge)) - (np.cumsum(times) - times)[edge]
        (x0, y0), (run, rise) = here[edge].T, (there - here)[edge].T
        at = np.searchsorted(y, y0 + (x[column] - x0) / run * rise)
        np.add.at(crossed, (column, at), 1)
    return np.asarray(np.cumsum(crossed, axis=1)[:, :-1] % 2 == 1)


def _flat(solid: Solid, center: Array, radius: float) -> bool:
    """Whether sections through the place, cut to twice the ball, are much more than its disk.

    Both the section across the bait and the one along it must be: a rod is narrow in one of them.
    """
    window = manifold3d.CrossSection.square((4 * radius, 4 * radius), center=True)
    there = solid.translate(tuple(-center))
    across, along = there.rotate((0.0, 90.0, 0.0)), there.rotate((90.0, 0.0, 0.0))
    least = min((turned.slice(0.0) ^ window).area() for turned in (across, along))
    return bool(least > SLAB_SECTION * math.pi * radius**2)
