"""What an eye far away meets of a bait, pixel by pixel: skin, depth of plastic, where it ends."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Crossings, Grid, Index, crossings
from pourwright.body.loft import Solid

# Rays along each side of a pixel: enough for a smooth outline.
RAYS = 2
# Left free on each side of a picture, as a share of it.
MARGIN = 0.04
# Sharper edges than this keep their crease.
CREASE_DEGREES = 40.0


@dataclass(frozen=True, slots=True)
class Eye:
    """From where a bait is looked at, far away: unit vectors to the right, upward, to the eye."""

    right: Array
    up: Array
    toward: Array

    @property
    def axes(self) -> Array:
        """The three as rows."""
        return np.stack([self.right, self.up, self.toward])


def eye_at(up: int, *, turn_rad: float = 0.0, tilt_rad: float = 0.0) -> Eye:
    """An eye beside the bait, nose to the left, that looks level at its side.

    `up` is the axis that its back points along (1 or 2). Turned, the eye goes round toward the
    nose; tilted, it rises toward the back: a quarter turn looks down on it.
    """
    long, back = np.eye(3)[0], np.eye(3)[up]
    side = np.cross(long, back)
    right = math.cos(turn_rad) * long + math.sin(turn_rad) * side
    level = math.cos(turn_rad) * side - math.sin(turn_rad) * long
    toward = math.cos(tilt_rad) * level + math.sin(tilt_rad) * back
    return Eye(right, math.cos(tilt_rad) * back - math.sin(tilt_rad) * level, toward)


@dataclass(frozen=True, slots=True)
class SeenSkin:
    """The pixels of a picture that hold some of the bait, in no order.

    `row` counts from the top, `column` from the left; `cover` is the share of the pixel that the
    bait fills, 0 to 1; `thick_mm` the plastic behind that part; `near_mm` and `far_mm` are where
    the first ray goes in and the last comes out, shape (n, 3), in the bait's own frame; `normal`
    points out of the skin that is met first.
    """

    rows: int
    columns: int
    pixel_mm: float
    eye: Eye
    row: Index
    column: Index
    cover: Array
    thick_mm: Array
    near_mm: Array
    far_mm: Array
    normal: Array


def seen_skin(solid: Solid, eye: Eye, *, columns: int, rows: int) -> SeenSkin:
    """The bait in the middle of a picture, as large as it fits with a margin on each side."""
    corners, normals = _skin(solid)
    placed = corners @ eye.axes.T
    grid = _frame(placed, columns, rows)
    rays = crossings(placed, Grid(grid.low, grid.pitch / RAYS, (columns * RAYS, rows * RAYS)))
    return _gathered(rays, placed, normals, eye, columns=columns, rows=rows)


def _skin(solid: Solid) -> tuple[Array, Array]:
    """Corners and their normals, (triangles, 3, 3) each."""
    mesh = solid.calculate_normals(0, CREASE_DEGREES).to_mesh()
    known = np.asarray(mesh.vert_properties)[np.asarray(mesh.tri_verts)].astype(float)
    return np.asarray(known[:, :, :3]), np.asarray(known[:, :, 3:6])


def _frame(placed: Array, columns: int, rows: int) -> Grid:
    low, high = placed.min(axis=(0, 1))[:2], placed.max(axis=(0, 1))[:2]
    room = (1 - 2 * MARGIN) * np.array([columns, rows])
    pitch = float(((high - low) / room).max())
    left, bottom = (low + high - pitch * np.array([columns, rows])) / 2
    return Grid((float(left), float(bottom)), pitch, (columns, rows))


def _gathered(
    rays: Crossings, placed: Array, normals: Array, eye: Eye, *, columns: int, rows: int
) -> SeenSkin:
    wide, tall = rays.grid.count
    size = wide * tall
    near, far = np.full(size, -np.inf), np.full(size, np.inf)
    np.maximum.at(near, rays.cell, rays.depth)
    np.minimum.at(far, rays.cell, rays.depth)
    first = np.flatnonzero(rays.depth == near[rays.cell])
    met = rays.cell[first]
    facing = np.zeros((size, 3))
    facing[met] = _normal_at(rays, placed, normals, first)
    chord = rays.chord().ravel()
    hit = np.isfinite(near) & (chord > 0)
    pixel = _pixel_of(np.arange(size), tall)
    count = np.bincount(pixel[hit], minlength=columns * rows)
    full = np.flatnonzero(count)

    def mean(values: Array) -> Array:
        total = np.bincount(pixel[hit], values[hit], minlength=columns * rows)
        return np.asarray(total[full] / count[full])

    column, from_below = np.divmod(full, rows)
    depths = mean(near), mean(far)
    pitch = rays.grid.pitch * RAYS
    across = rays.grid.low[0] + (column + 0.5) * pitch
    above = rays.grid.low[1] + (from_below + 0.5) * pitch
    normal = np.stack([mean(np.ascontiguousarray(facing[:, k])) for k in range(3)], axis=1)
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-9)
    ends = [np.stack([across, above, depth], axis=1) @ eye.axes for depth in depths]
    return SeenSkin(
        rows=rows,
        columns=columns,
        pixel_mm=pitch,
        eye=eye,
        row=np.asarray(rows - 1 - from_below),
        column=np.asarray(column),
        cover=np.asarray(count[full] / RAYS**2),
        thick_mm=mean(chord),
        near_mm=ends[0],
        far_mm=ends[1],
        normal=normal,
    )


def _pixel_of(ray: Index, tall: int) -> Index:
    column, row = np.divmod(ray, tall)
    return np.asarray((column // RAYS) * (tall // RAYS) + row // RAYS)


def _normal_at(rays: Crossings, placed: Array, normals: Array, which: Index) -> Array:
    """Normals where some rays meet the skin, straight between the corners of their triangle."""
    column, row = np.divmod(rays.cell[which], rays.grid.count[1])
    spot = np.stack([rays.grid.middles(0)[column], rays.grid.middles(1)[row]], axis=1)
    face = rays.face[which]
    a, b, c = (placed[face, k, :2] for k in range(3))
    one, two, reach = b - a, c - a, spot - a
    area = one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]
    second = (reach[:, 0] * two[:, 1] - reach[:, 1] * two[:, 0]) / area
    third = (one[:, 0] * reach[:, 1] - one[:, 1] * reach[:, 0]) / area
    share = np.clip(np.stack([1 - second - third, second, third], axis=1), 0, 1)
    return np.asarray(np.einsum("ij,ijk->ik", share, normals[face]))
