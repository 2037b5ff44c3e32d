"""A cavity seen along the pull, cell by cell, and when each cell fills."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Index


@dataclass(frozen=True, slots=True)
class FilledCells:
    """A cavity seen along the pull, cell by cell; every array has one entry a cell.

    `height_mm` is the plastic in a column, `gap_mm` how thick the cavity is around it, `edge_mm`
    how far the nearest edge of the shadow is, `cost` the
    sum of way / gap squared from the source (1/mm), `path_mm` the shortest way through plastic,
    `order` the share of the volume that is filled before the cell, `before` the cell that the
    front comes from (negative at the source). Where no plastic leads to, cost and path are
    infinite, the order is 1 and `before` is negative. `links` are pairs of joined cells.
    """

    xy: Array
    height_mm: Array
    gap_mm: Array
    edge_mm: Array
    cost: Array
    path_mm: Array
    order: Array
    before: Index
    pitch_mm: float
    links: tuple[Index, Index]

    @property
    def volume_mm3(self) -> float:
        """Volume of all columns."""
        return float(self.height_mm.sum()) * self.pitch_mm**2

    @property
    def unreached_share(self) -> float:
        """Share of the volume that no way leads to."""
        return float(self.height_mm[~np.isfinite(self.cost)].sum() / self.height_mm.sum())

    def at(self, xy: tuple[float, float] | Array) -> Index:
        """The nearest cell to each of some places, shape (..., 2)."""
        from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

        return np.asarray(cKDTree(self.xy).query(np.asarray(xy, dtype=float))[1], dtype=np.int64)

    def order_at(self, xy: Array) -> Array:
        """Share of the volume that is filled before each of some places, shape (places, 2)."""
        return np.asarray(self.order[self.at(xy)])

    def way(self, cell: int) -> Index:
        """The cells that the front passes from the source to a cell."""
        passed = [cell]
        while self.before[passed[-1]] >= 0:
            passed.append(int(self.before[passed[-1]]))
        return np.array(passed[::-1])
