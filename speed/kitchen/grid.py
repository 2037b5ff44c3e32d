"""Cells of a round cup: rows from under the floor to the surface, rings from axis to outside.

Arrays are (rows, rings, n) with the cups last, so that every slice of a line of cells lies in
one piece of memory. Plastic rows grow thinner toward the surface, where the cold skin is.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speed.kitchen.draws import Array
from speed.kitchen.glass import Glass

ROWS, RINGS = 36, 24
FLOOR_ROWS, WALL_RINGS = 3, 3
PLASTIC = (slice(FLOOR_ROWS, None), slice(0, RINGS))
WALL = (slice(FLOOR_ROWS, None), slice(RINGS, None))


def _row_shares() -> Array:
    row = np.arange(ROWS)
    thick = np.minimum(np.minimum(0.2 * 1.3 ** row[::-1], 0.5 * 1.25**row), 1)
    return np.asarray(thick / thick.sum())


ROW_SHARE = _row_shares()
ROW_EDGE = np.concatenate([[0.0], np.cumsum(ROW_SHARE)])
ROW_EDGE[-1] = 1.0
RING_SHARE = (2 * np.arange(RINGS) + 1) / RINGS**2
CELL_SHARE = (ROW_SHARE[:, None] * RING_SHARE)[:, :, None]
"""Share of the plastic in each of its cells, (rows, rings, 1)."""


@dataclass(frozen=True, slots=True, eq=False)
class Grid:
    """Sizes in meters: `high` (rows, n), `wide` (rings, n), `edge` (rings + 1, n); `area` of
    each ring in m², (rings, n).
    """

    high: Array
    wide: Array
    edge: Array
    area: Array

    def volume_m3(self) -> Array:
        """Of every cell."""
        return np.asarray(self.high[:, None] * self.area)


def grid(glass: Glass, level_m: Array) -> Grid:
    """The cells of cups filled so high."""
    floor = np.broadcast_to(glass.floor_m / FLOOR_ROWS, (FLOOR_ROWS, *level_m.shape))
    high = np.concatenate([floor, ROW_SHARE[:, None] * level_m])
    ring = np.broadcast_to(glass.inner_m / RINGS, (RINGS, *level_m.shape))
    wall = np.broadcast_to(glass.wall_m / WALL_RINGS, (WALL_RINGS, *level_m.shape))
    wide = np.concatenate([ring, wall])
    edge = np.concatenate([np.zeros((1, *level_m.shape)), np.cumsum(wide, axis=0)])
    return Grid(high, wide, edge, np.pi * np.diff(edge**2, axis=0))


def plastic_mean(values: Array) -> Array:
    """By mass over the plastic cells: (rows, rings, n) to (n,)."""
    return np.asarray((values * CELL_SHARE).sum(axis=(0, 1)))


def stretched(rows: Array, beyond: Array, ratio: Array) -> Array:
    """Rows of new heights over the same column, nothing lost.

    `rows` (rows, rings, n) fill the column up to 1 and `beyond` (rings, n) what lies above; the
    new rows fill it up to `ratio` (n,).
    """
    reach = ROW_EDGE[:, None] * ratio
    inside = np.clip(np.searchsorted(ROW_EDGE, reach, side="right") - 1, 0, ROWS)
    piled = np.cumsum(rows * ROW_SHARE[:, None, None], axis=0)
    below = np.concatenate([np.zeros_like(piled[:1]), piled])
    here = np.concatenate([rows, beyond[None]])
    cell = inside[:, None]
    upto = np.take_along_axis(below, cell, 0) + (reach - ROW_EDGE[inside])[
        :, None
    ] * np.take_along_axis(here, cell, 0)
    return np.asarray(np.diff(upto, axis=0) / (ROW_SHARE[:, None, None] * ratio))
