"""Conductances between neighboring cells, W/K: half of each cell in series with half the next."""

from __future__ import annotations

import numpy as np

from speed.kitchen.draws import Array
from speed.kitchen.grid import FLOOR_ROWS, PLASTIC, RINGS, Grid


def ring_links(cells: Grid, conduct_w_mk: Array) -> Array:
    """From each ring to the next one out, (rows, rings - 1, n)."""
    half = cells.wide / conduct_w_mk
    around = 4 * np.pi * cells.high[:, None] * cells.edge[1:-1]
    return np.asarray(around / (half[:, :-1] + half[:, 1:]))


def row_links(cells: Grid, still_w_mk: Array, stirred_w_mk: Array, temp_c: Array) -> Array:
    """From each row to the next one up, (rows - 1, rings, n).

    Plastic currents help only where the row below is the warmer one.
    """
    high = cells.high[:, None]
    half = high / still_w_mk
    resist = half[:-1] + half[1:]
    rises = (slice(FLOOR_ROWS, None), slice(0, RINGS))
    mixed = high[FLOOR_ROWS:] / stirred_w_mk[PLASTIC]
    below, above = temp_c[FLOOR_ROWS:-1, :RINGS], temp_c[FLOOR_ROWS + 1 :, :RINGS]
    resist[rises] = np.where(below > above, mixed[:-1] + mixed[1:], resist[rises])
    return np.asarray(2 * cells.area / resist)
