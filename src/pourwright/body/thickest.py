"""The thickest place of a solid: the largest ball that fits inside."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt
from scipy.optimize import minimize
from scipy.spatial import KDTree

from pourwright.base.draws import Array
from pourwright.body.loft import Solid

VOXELS = 40_000
FINEST_MM = 0.3
SEEDS = 4


@dataclass(frozen=True, slots=True)
class ThickestPlace:
    """Diameter and center of the largest inside ball, and whether the place is a slab."""

    diameter_mm: float
    center_mm: tuple[float, float, float]
    flat: bool


def thickest_place(solid: Solid) -> ThickestPlace:
    """A voxel distance map finds the place; nearest surface points then refine it."""
    vertices, faces = _mesh(solid)
    seeds, pitch = _seeds(solid, vertices)
    tree = KDTree(_surface_points(vertices, faces, min(pitch / 2, 0.35)))

    def negative_radius(p: Array) -> float:
        return -float(tree.query(p)[0])

    best = min(
        (
            minimize(negative_radius, seed, method="Nelder-Mead", options=_options(pitch))
            for seed in seeds
        ),
        key=lambda r: float(r.fun),
    )
    center = np.asarray(best.x)
    radius = -float(best.fun)
    return ThickestPlace(
        2 * radius,
        (float(center[0]), float(center[1]), float(center[2])),
        _flat(solid, center, radius),
    )


def _options(pitch: float) -> Any:
    return {"xatol": pitch / 100, "fatol": pitch / 200, "maxiter": 120}


def _mesh(solid: Solid) -> tuple[Array, Array]:
    mesh = solid.to_mesh()
    return np.asarray(mesh.vert_properties)[:, :3].astype(float), np.asarray(mesh.tri_verts)


def _seeds(solid: Solid, vertices: Array) -> tuple[Array, float]:
    """Deepest voxel centers, well apart; cuts of the solid fill the voxels."""
    low, high = vertices.min(axis=0), vertices.max(axis=0)
    extent = high - low
    pitch = max(float(np.prod(extent) / VOXELS) ** (1 / 3), FINEST_MM)
    filled = _filled(solid, low, extent, pitch)
    depth = distance_transform_edt(np.pad(filled, 1))[1:-1, 1:-1, 1:-1]
    order = np.argsort(depth, axis=None)[::-1][:2000]
    points = np.stack(np.unravel_index(order, depth.shape), axis=1)
    centers = low + (points + 0.5) * pitch
    chosen: list[Array] = []
    for center in centers:
        if all(np.linalg.norm(center - c) > 4 * pitch for c in chosen):
            chosen.append(center)
        if len(chosen) == SEEDS:
            break
    return np.array(chosen), pitch


def _filled(solid: Solid, low: Array, extent: Array, pitch: float) -> NDArray[np.bool_]:
    """Voxels whose center lies inside, slice by slice along the pull."""
    shape = np.maximum(np.ceil(extent / pitch).astype(int), 1)
    filled = np.zeros(shape, dtype=bool)
    x = low[0] + (np.arange(shape[0]) + 0.5) * pitch
    y = low[1] + (np.arange(shape[1]) + 0.5) * pitch
    for k in range(shape[2]):
        section = solid.slice(float(low[2] + (k + 0.5) * pitch))
        filled[:, :, k] = _inside(section.to_polygons(), x, y)
    return filled


def _inside(polygons: list[Array], x: Array, y: Array) -> NDArray[np.bool_]:
    """Even-odd rule on a grid: each edge toggles the cells beyond its crossing."""
    grid = np.zeros((len(x), len(y) + 1), dtype=np.int64)
    if not polygons:
        return grid[:, :-1] > 0
    a = np.vstack(polygons)
    b = np.vstack([np.roll(p, -1, axis=0) for p in polygons])
    near, far = np.minimum(a[:, 0], b[:, 0]), np.maximum(a[:, 0], b[:, 0])
    first, last = np.searchsorted(x, near), np.searchsorted(x, far)
    crossings = last - first
    edge = np.repeat(np.arange(len(a)), crossings)
    column = np.arange(len(edge)) - np.repeat(np.cumsum(crossings) - crossings, crossings)
    column = column + first[edge]
    run = b[edge, 0] - a[edge, 0]
    at = a[edge, 1] + (x[column] - a[edge, 0]) * (b[edge, 1] - a[edge, 1]) / run
    np.add.at(grid, (column, np.searchsorted(y, at)), 1)
    return np.asarray(np.cumsum(grid, axis=1)[:, :-1] % 2 == 1)


def _surface_points(vertices: Array, faces: Array, spacing: float) -> Array:
    """Points spread over every triangle, no farther apart than the spacing."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    longest = np.max([np.linalg.norm(b - a, axis=1), np.linalg.norm(c - b, axis=1),
                      np.linalg.norm(a - c, axis=1)], axis=0)  # fmt: skip
    parts = np.clip(np.ceil(longest / spacing).astype(int), 1, 12)
    points = [vertices]
    for n in np.unique(parts):
        chosen = parts == n
        for i in range(n + 1):
            for j in range(n + 1 - i):
                u, v = i / n, j / n
                points.append(a[chosen] + u * (b - a)[chosen] + v * (c - a)[chosen])
    return np.vstack(points)


def _flat(solid: Solid, center: Array, radius: float) -> bool:
    """A slab's section through its thickest place is much wider than thick."""
    turned = solid.translate(tuple(-center)).rotate((0, 90, 0))
    section = turned.slice(0.0)
    return bool(section.area() > 1.9 * np.pi * radius**2)
