"""Rays through a solid on a grid: where each of them goes in and comes out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.body.loft import Solid

Index = NDArray[np.int64]
Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Grid:
    """Middles of square cells in a plane, `count` of them along either axis."""

    low: tuple[float, float]
    pitch: float
    count: tuple[int, int]

    def middles(self, axis: int) -> Array:
        """Where the middles lie along an axis."""
        return np.asarray(self.low[axis] + (np.arange(self.count[axis]) + 0.5) * self.pitch)

    def first(self, axis: int, value: Array) -> Index:
        """The first middle at or after a value, from 0 to `count`."""
        cell = np.ceil((value - self.low[axis]) / self.pitch - 0.5)
        return np.asarray(np.clip(cell, 0, self.count[axis]).astype(np.int64))


@dataclass(frozen=True, slots=True)
class Crossings:
    """Every place where a ray of a grid meets the skin, in no order.

    `cell` counts row by row (first axis first); `sign` is 1 where the ray comes out of the solid
    and -1 where it goes in; `face` is the triangle that it meets.
    """

    grid: Grid
    cell: Index
    depth: Array
    sign: Array
    face: Index

    def chord(self) -> Array:
        """Material that each ray crosses, shape of the grid: the sum of signed depths."""
        return self._sum(self.sign * self.depth)

    def balance(self) -> Array:
        """How often more each ray comes out than it goes in: 0 unless the mesh is open."""
        return self._sum(self.sign)

    def gaps(self) -> tuple[Index, Array, Array]:
        """Runs of material along the rays, cell by cell: cell, entry, exit; for closed meshes."""
        enter, leave = self._side(-1), self._side(1)
        return self.cell[enter], self.depth[enter], self.depth[leave]

    def _side(self, sign: int) -> Index:
        side = np.flatnonzero(self.sign == sign)
        return np.asarray(side[np.lexsort((self.depth[side], self.cell[side]))])

    def _sum(self, weights: Array) -> Array:
        total = np.bincount(self.cell, weights, minlength=self.grid.count[0] * self.grid.count[1])
        return np.asarray(total.reshape(self.grid.count), dtype=np.float64)


def triangles(solid: Solid) -> Array:
    """Corners of the triangles of a solid, shape (triangles, 3, 3), mm."""
    mesh = solid.to_mesh()
    points = np.asarray(mesh.vert_properties)[:, :3].astype(float)
    return np.asarray(points[np.asarray(mesh.tri_verts)])


def crossings(corners: Array, grid: Grid) -> Crossings:
    """Where rays along the third axis, through the middles of a grid, meet some triangles.

    Neighbors share their edges to the last bit and a middle on an edge belongs to one side only,
    so a closed mesh leaves no ray unbalanced, however thin its triangles.
    """
    there = np.roll(corners, -1, axis=1)
    onward = corners[:, :, 0] < there[:, :, 0]
    left = np.where(onward[:, :, None], corners, there)
    right = np.where(onward[:, :, None], there, corners)
    first, last = grid.first(0, left[:, :, 0]), grid.first(0, right[:, :, 0])
    start = first.min(axis=1)
    wide = last.max(axis=1) - start
    slot = np.cumsum(wide) - wide - start
    edge, step = _spread((last - first).ravel())
    column = first.ravel()[edge] + step
    where = slot[edge // 3] + column
    left, run = left.reshape(-1, 3)[edge], (right - left).reshape(-1, 3)[edge]
    share = (grid.middles(0)[column] - left[:, 0]) / run[:, 0]
    yz = left[:, 1:] + share[:, None] * run[:, 1:]
    ends = np.zeros((2, int(wide.sum()), 2))
    ends[onward.ravel()[edge].astype(int), where] = yz
    columns = np.zeros(int(wide.sum()), dtype=np.int64)
    columns[where] = column
    owner = np.repeat(np.arange(len(wide)), wide)
    return _filled(grid, columns, owner, begin=ends[1], end=ends[0])


def _filled(grid: Grid, column: Index, owner: Index, *, begin: Array, end: Array) -> Crossings:
    """The middles between the two sides of a triangle in a column of the grid.

    Seen along the ray a face that looks back has its sides the other way round.
    """
    low, high = grid.first(1, begin[:, 0]), grid.first(1, end[:, 0])
    piece, step = _spread(abs(high - low))
    row = np.minimum(low, high)[piece] + step
    (y, z), rise = begin[piece].T, (end - begin)[piece].T
    share = (grid.middles(1)[row] - y) / rise[0]
    sign = np.sign(high - low).astype(float)[piece]
    cell = column[piece] * grid.count[1] + row
    return Crossings(grid, cell, z + share * rise[1], sign, owner[piece])


def _spread(times: Index) -> tuple[Index, Index]:
    """Each index as often as told, and the how-manieth time that is."""
    owner = np.repeat(np.arange(len(times)), times)
    return owner, np.arange(len(owner)) - (np.cumsum(times) - times)[owner]
