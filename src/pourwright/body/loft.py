"""Solids lofted from rings: sections of true area strung along a path, their ends closed."""

from __future__ import annotations

import math
from typing import Any, TypeAlias

import manifold3d
import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array

# The library carries no types: a manifold3d.Manifold.
Solid: TypeAlias = Any

# A ring smaller than this is a tip; far under what a caliper reads.
TIP_MM = 1e-6


def section(points: int, power: float = 2.0) -> Array:
    """A unit superellipse |y|^p + |z|^p = 1 as a polygon of the same area, shape (points, 2).

    A polygon with its corners on the curve would lose area; growing it keeps every volume true.
    Source: Gradshteyn and Ryzhik, Table of Integrals, 4.635: area 4·Γ(1 + 1/p)²/Γ(1 + 2/p).
    """
    turn = np.arange(points) * (2 * math.pi / points)
    y, z = np.cos(turn), np.sin(turn)
    out = (abs(y) ** power + abs(z) ** power) ** (-1 / power)
    polygon = 0.5 * math.sin(2 * math.pi / points) * float(np.sum(out * np.roll(out, -1)))
    true = 4 * math.gamma(1 + 1 / power) ** 2 / math.gamma(1 + 2 / power)
    return np.asarray(np.stack([y, z], axis=1) * (out * math.sqrt(true / polygon))[:, None])


def stations(
    length_mm: float, nose_mm: float, tail_mm: float, *, middle: int = 40, dome: int = 48
) -> Array:
    """Where to cut a body along x: evenly in its middle, ever closer toward domed ends.

    Raises: ValueError if the two domes are longer than the body (a fault of the family).
    """
    if nose_mm + tail_mm > length_mm * (1 + 1e-9):
        raise ValueError("the domes are longer than the body")
    bend = 1 - np.cos(np.linspace(0, math.pi / 2, dome))
    plain = np.linspace(nose_mm, length_mm - tail_mm, middle)
    return np.unique(np.concatenate([nose_mm * bend, plain, length_mm - tail_mm * bend]))


def domed(x: Array, length_mm: float, nose_mm: float, tail_mm: float) -> Array:
    """Share of its full thickness that a body with half-ellipsoid ends has at x."""
    share = np.ones_like(x)
    for inward, dome in ((x, nose_mm), (length_mm - x, tail_mm)):
        if dome > 0:
            u = np.clip(inward / dome, 0, 1)
            share = share * np.sqrt(u * (2 - u))
    return share


def straight(
    x: Array, half_y: Array, half_z: Array, *, mid_y: Array | float = 0.0, points: int = 48
) -> Solid:
    """A body of elliptic sections along x; `mid_y` bends its middle within the parting plane."""
    zero = np.zeros_like(x)
    path = np.stack([x, zero + mid_y, zero], axis=1)
    return loft(path, np.tile([0.0, 1.0, 0.0], (len(x), 1)), half_y, half_z, points=points)


def swept(path_xy: Array, half_width: Array, half_thick: Array, *, points: int = 32) -> Solid:
    """A flat tail or claw along a curve in the parting plane, its sides at right angles to it.

    Shape of `path_xy` (stations, 2), of the halves (stations,), mm.
    """
    along = np.gradient(path_xy, axis=0)
    along = along / np.hypot(along[:, 0], along[:, 1])[:, None]
    zero = np.zeros(len(path_xy))
    across = np.stack([-along[:, 1], along[:, 0], zero], axis=1)
    path = np.column_stack([path_xy, zero])
    return loft(path, across, half_width, half_thick, points=points, power=2.5)


def loft(
    path: Array,
    across: Array,
    half_across: Array,
    half_z: Array,
    *,
    points: int,
    power: float = 2.0,
) -> Solid:
    """A closed solid through rings that stand on the parting plane.

    A ring without size at either end becomes a tip, any other end a flat face.
    Raises: ValueError if the rings do not make a solid (a fault of the family).
    """
    sized = (half_across > TIP_MM) & (half_z > TIP_MM)
    yz = section(points, power)
    rings = (
        path[sized, None, :]
        + across[sized, None, :] * (half_across[sized, None] * yz[:, 0])[:, :, None]
        + np.array([0.0, 0.0, 1.0]) * (half_z[sized, None] * yz[:, 1])[:, :, None]
    )
    vertices = np.vstack([rings.reshape(-1, 3), path[:1], path[-1:]])
    return solid_of(vertices, _triangles(len(rings), points))


def joined(*solids: Solid) -> Solid:
    """The union of solids that overlap."""
    return manifold3d.Manifold.batch_boolean(list(solids), manifold3d.OpType.Add)


def solid_of(vertices: Array, triangles: NDArray[np.int64]) -> Solid:
    """A solid from a closed mesh, turned right side out.

    Raises: ValueError if the mesh is open, or no solid.
    """
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    if float(np.sum(a * np.cross(b, c))) < 0:
        triangles = triangles[:, [0, 2, 1]]
    mesh = manifold3d.Mesh(
        vert_properties=np.ascontiguousarray(vertices, dtype=np.float32),
        tri_verts=np.ascontiguousarray(triangles, dtype=np.uint32),
    )
    solid = manifold3d.Manifold(mesh)
    if solid.status() != manifold3d.Error.NoError or solid.is_empty():
        raise ValueError(f"the rings do not close: {solid.status()}")
    return solid


def _triangles(rings: int, points: int) -> NDArray[np.int64]:
    """Two triangles between neighbors of neighboring rings, one fan at either end."""
    here = np.arange(rings * points).reshape(rings, points)
    beside = np.roll(here, -1, axis=1)
    nose, tail = np.full(points, rings * points), np.full(points, rings * points + 1)
    sheets = (
        (here[:-1], beside[:-1], beside[1:]),
        (here[:-1], beside[1:], here[1:]),
        (nose, beside[0], here[0]),
        (tail, here[-1], beside[-1]),
    )
    return np.vstack([np.stack([np.ravel(v) for v in sheet], axis=1) for sheet in sheets])
