"""In which order a cavity fills: the cheapest way from the gate to each place of it."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.body.columns import Grid, Index, Mask, crossings, triangles
from pourwright.body.dead_end import DeadEnd, dead_ends
from pourwright.body.filled_cells import FilledCells
from pourwright.body.grid_of import grid_over
from pourwright.body.local_gap import column_height, local_gap, to_edge
from pourwright.body.loft import Solid

# Steps from cell to cell: eight neighbors and the knight's moves, in half of the directions.
STEPS = ((1, 0), (0, 1), (1, 1), (1, -1), (2, 1), (2, -1), (1, 2), (1, -2))
# Cells lost behind a neck thinner than the grid, as a share of the volume, before it is cut finer.
LOST, CUTS = 0.002, 2


@dataclass(frozen=True, slots=True)
class FillingMap(FilledCells):
    """The cells of a cavity in their order of filling."""

    def dead_ends(self, *, least_mm: float | None = None) -> tuple[DeadEnd, ...]:
        """Places that fill last of all around them, the very last first.

        A place counts if its branch is longer than `least_mm`; left out, a share of the longest
        way, but a few cells at least.
        """
        return dead_ends(self, least_mm)


def filling_map(
    solid: Solid, source_xy: tuple[float, float], *, pitch_mm: float | None = None
) -> FillingMap:
    """The order in which a cavity, or a whole mold with its feed, fills from a source.

    In a gap of height h melt runs at a speed that goes with h squared (White, Viscous Fluid Flow,
    3rd ed., section 3-3.3), so a step costs its length over gap squared and the front takes the
    cheapest way. A guide, not a forecast: fronts that meet, and skins, are left out.

    Parameters: the cavity in mm, parted at z = 0; where melt comes in (the nearest place of the
    cavity is taken); the pitch of the grid, left out: by the size of the cavity.
    Raises: NoAnswer for a solid that no column meets.
    """
    corners = triangles(solid)
    filled = _filling_map(corners, source_xy, grid_over(solid, pitch_mm))
    for _ in range(CUTS if pitch_mm is None else 0):
        if filled.unreached_share <= LOST:
            break
        finer = grid_over(solid, filled.pitch_mm / math.sqrt(2))
        filled = _filling_map(corners, source_xy, finer)
    return filled


def nose_xy(solid: Solid) -> tuple[float, float]:
    """The tip that comes first along x."""
    points = triangles(solid).reshape(-1, 3)
    front = points[:, 0].min()
    tip = points[points[:, 0] <= front + 1e-3]
    return float(front), float(tip[:, 1].mean())


def _filling_map(corners: Array, source_xy: tuple[float, float], grid: Grid) -> FillingMap:
    rays = crossings(corners, grid)
    chord = rays.chord()
    full = chord > 0
    if not full.any():
        raise NoAnswer("the body is thinner than a hair: nothing fills it")
    pitch = grid.pitch
    xy = np.array(grid.low) + (np.argwhere(full) + 0.5) * pitch
    gap = local_gap(np.where(full, column_height(rays), 0.0), pitch)[full]
    here, there, long = _steps(full, pitch)
    source = int(np.argmin(np.hypot(*(xy - source_xy).T)))
    price = long * (gap[here] ** -2 + gap[there] ** -2) / 2
    cost, before = _cheapest(here, there, price, source, len(xy))
    path, _ = _cheapest(here, there, long, source, len(xy))
    order = _share_before(cost, chord[full])
    return FillingMap(
        xy, chord[full], gap, to_edge(full)[full] * pitch, cost, path, order, before, pitch,
        (here, there),
    )  # fmt: skip


def _steps(full: Mask, pitch: float) -> tuple[Index, Index, Array]:
    """Pairs of cells that a straight step through plastic joins, and its length."""
    number = np.where(full, np.cumsum(full).reshape(full.shape) - 1, -1)
    sheets = [_sheet(number, *step) for step in STEPS]
    here, there = (np.concatenate([sheet[k] for sheet in sheets]) for k in range(2))
    long = np.repeat([pitch * math.hypot(*step) for step in STEPS], [len(s[0]) for s in sheets])
    return here, there, long


def _sheet(number: Index, right: int, up: int) -> tuple[Index, Index]:
    """Cells with the cell so far away, where both and those that the step passes are full."""
    passed = sorted({(0, 0), (right, up), *_between(right, up)})
    seen = [_shifted(number, a, b, right, up) for a, b in passed]
    clear = functools.reduce(np.logical_and, [s >= 0 for s in seen])
    return seen[passed.index((0, 0))][clear], seen[passed.index((right, up))][clear]


def _between(right: int, up: int) -> tuple[tuple[int, int], ...]:
    """Cells on either side of a knight's move."""
    side = 1 if up > 0 else -1
    if abs(up) == 2:
        return (0, side), (1, side)
    return ((1, 0), (1, side)) if right == 2 else ()


def _shifted(number: Index, a: int, b: int, right: int, up: int) -> Index:
    """The part of a grid that lies (a, b) from where a step of (right, up) can begin."""
    rows, columns = number.shape
    low, high = max(0, -up), columns - max(0, up)
    return number[a : max(rows - right + a, a), low + b : max(high + b, low + b)]


def _cheapest(
    here: Index, there: Index, price: Array, source: int, count: int
) -> tuple[Array, Index]:
    """Cheapest sum of prices from the source to every cell, and the cell before it."""
    from scipy.sparse import coo_matrix  # noqa: PLC0415  slow to load
    from scipy.sparse.csgraph import dijkstra  # noqa: PLC0415

    graph = coo_matrix((price, (here, there)), shape=(count, count)).tocsr()
    cost, before = dijkstra(graph, directed=False, indices=[source], return_predecessors=True)
    return cost[0], before[0].astype(np.int64)


def _share_before(cost: Array, weight: Array) -> Array:
    """Share of all weight that is cheaper than each cell; 1 where nothing leads."""
    turn = np.argsort(cost, kind="stable")
    order = np.zeros_like(cost)
    order[turn] = (np.cumsum(weight[turn]) - weight[turn]) / weight.sum()
    return np.where(np.isfinite(cost), order, 1.0)
