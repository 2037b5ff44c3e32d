"""Solids lofted from rings: sections of equal true area strung along a path."""

from __future__ import annotations

import math
from typing import Any, TypeAlias

import manifold3d
import numpy as np

from pourwright.base.draws import Array

# The library carries no types: a manifold3d.Manifold.
Solid: TypeAlias = Any

# Below this, triangles of a pointed end collapse; far under what a caliper reads.
LEAST_MM = 2e-3


def ring(points: int, power: float = 2.0) -> Array:
    """A unit superellipse as a polygon, scaled so that its area is the true one.

    Area of |x|^p + |y|^p <= 1: 4·Γ(1 + 1/p)² / Γ(1 + 2/p) (Gradshteyn and Ryzhik, 4.635).
    """
    angle = np.linspace(0, 2 * math.pi, points, endpoint=False)
    c, s = np.cos(angle), np.sin(angle)
    xy = np.stack([np.sign(c) * abs(c) ** (2 / power), np.sign(s) * abs(s) ** (2 / power)], axis=1)
    x, y = xy.T
    polygon = 0.5 * abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1)))
    true = 4 * math.gamma(1 + 1 / power) ** 2 / math.gamma(1 + 2 / power)
    return np.asarray(xy * math.sqrt(true / polygon))


def along(length_mm: float, stations: int, start_mm: float = 0.0) -> Array:
    """Stations along a bait, denser toward both ends."""
    return start_mm + length_mm * (1 - np.cos(np.linspace(0, math.pi, stations))) / 2


def rounded(x: Array, length_mm: float, nose_mm: float, tail_mm: float) -> Array:
    """A profile of height 1 with elliptic ends of the given lengths."""
    height = np.ones_like(x)
    nose = np.clip((nose_mm - x) / nose_mm, 0, 1) if nose_mm > 0 else np.zeros_like(x)
    tail = np.clip((x - (length_mm - tail_mm)) / tail_mm, 0, 1) if tail_mm > 0 else np.zeros_like(x)
    return np.asarray(height * np.sqrt(1 - nose**2) * np.sqrt(1 - tail**2))


def axial(x: Array, half_y: Array, half_z: Array, *, points: int = 48, power: float = 2.0) -> Solid:
    """A body along a straight line."""
    path = np.stack([x, np.zeros_like(x), np.zeros_like(x)], axis=1)
    return loft(path, _axis(x, 1), _axis(x, 2), half_y, half_z, points=points, power=power)


def ribbon(path_xy: Array, half_width: Array, half_thick: Array, *, points: int = 32) -> Solid:
    """A flat tail along a curve in the parting plane; width lies in the plane."""
    tangent = np.gradient(path_xy, axis=0)
    tangent = tangent / np.linalg.norm(tangent, axis=1)[:, None]
    zero = np.zeros(len(path_xy))
    across = np.stack([-tangent[:, 1], tangent[:, 0], zero], axis=1)
    path = np.column_stack([path_xy, zero])
    return loft(path, across, _axis(zero, 2), half_width, half_thick, points=points, power=2.5)


def loft(
    path: Array,
    across: Array,
    up: Array,
    half_across: Array,
    half_up: Array,
    *,
    points: int,
    power: float = 2.0,
) -> Solid:
    """A closed solid through rings, its ends closed by fans.

    `path`, `across`, `up`: shape (stations, 3), mm; half sizes: shape (stations,), mm.
    Raises: ValueError if the rings do not make a solid (a fault of the family).
    """  # fmt: skip
    section = ring(points, power)
    a = np.maximum(half_across, LEAST_MM)[:, None, None]
    b = np.maximum(half_up, LEAST_MM)[:, None, None]
    vertices = (
        path[:, None, :]
        + section[None, :, 0, None] * a * across[:, None, :]
        + section[None, :, 1, None] * b * up[:, None, :]
    ).reshape(-1, 3)
    vertices = np.vstack([vertices, path[0], path[-1]])
    return solid_of(vertices, _faces(len(path), points))


def solid_of(vertices: Array, faces: Array) -> Solid:
    """A solid from a closed mesh, turned right side out."""
    corners = vertices[faces.astype(int)]
    signed = float(np.einsum("ij,ij->", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])))
    turned = faces[:, ::-1] if signed < 0 else faces
    mesh = manifold3d.Mesh(
        vert_properties=vertices.astype(np.float32), tri_verts=turned.astype(np.uint32)
    )
    solid = manifold3d.Manifold(mesh)
    if solid.status() != manifold3d.Error.NoError:
        raise ValueError(f"the rings do not close: {solid.status()}")
    return solid


def _axis(like: Array, axis: int) -> Array:
    unit = np.zeros((len(like), 3))
    unit[:, axis] = 1.0
    return unit


def _faces(stations: int, points: int) -> Array:
    i = np.arange(points)
    j = (i + 1) % points
    rows = []
    for k in range(stations - 1):
        near, far = k * points, (k + 1) * points
        rows.append(np.stack([near + i, near + j, far + j], axis=1))
        rows.append(np.stack([near + i, far + j, far + i], axis=1))
    first, last = stations * points, stations * points + 1
    end = (stations - 1) * points
    rows.append(np.stack([np.full(points, first), j, i], axis=1))
    rows.append(np.stack([np.full(points, last), end + i, end + j], axis=1))
    return np.vstack(rows)
