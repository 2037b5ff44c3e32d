"""Places of a cavity that fill after everything around them: where air is left."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Index
from pourwright.body.filled_cells import FilledCells

# A branch shorter than this share of the longest way, or than so many cells, is no dead end.
LEAST_SHARE, LEAST_CELLS = 0.04, 5.0
# Nor is one whose way hardly lengthens to its end: an edge that the front meets head on.
LEAST_RISE_CELLS = 2.0
# The tip of a branch, where it rounds off to nothing.
TIP_MM = 1.0
# A branch so many times as wide as thick is a fin and no leg.
FLAT = 2.0


@dataclass(frozen=True, slots=True)
class DeadEnd:
    """A place that fills last of all around it.

    `branch_mm` is how far it lies from the place where its branch left the rest, `thick_mm` the
    gap just before its very tip, `least_thick_mm` the least gap on the way there, `flat`
    whether the branch is wide for its thickness, `order` the share of the volume that is filled
    before it, `cell` its cell of the map.
    """

    x_mm: float
    y_mm: float
    path_mm: float
    branch_mm: float
    thick_mm: float
    least_thick_mm: float
    flat: bool
    order: float
    cell: int


def dead_ends(filled: FilledCells, least_mm: float | None = None) -> tuple[DeadEnd, ...]:
    """The dead ends of a cavity, the very last to fill first.

    A branch reaches from its last place back to where a front also goes on to a place that fills
    even later; the longest reaches back to the source. Source: Edelsbrunner, Letscher and
    Zomorodian, Topological persistence and simplification (2002): the branches that outlast a
    least length.
    """
    reached = np.isfinite(filled.cost)
    longest = float(filled.path_mm[reached].max())
    least = max(LEAST_SHARE * longest, LEAST_CELLS * filled.pitch_mm)
    branches = _branches(filled, np.where(reached, filled.cost, -1.0))
    kept = [pair for pair in branches if pair[1] >= (least if least_mm is None else least_mm)]
    ends = [_dead_end(filled, cell, branch) for cell, branch in kept]
    return tuple(sorted(ends, key=lambda end: (-end.order, end.cell)))


def _dead_end(filled: FilledCells, cell: int, branch: float) -> DeadEnd:
    x, y = (float(v) for v in filled.xy[cell])
    way = filled.way(cell)
    left = filled.path_mm[cell] - filled.path_mm[way]
    before_tip = way[left >= min(TIP_MM, float(left[0]))]
    halfway = way[np.argmin(abs(left - min(branch, float(left[0])) / 2))]
    return DeadEnd(
        x, y, float(filled.path_mm[cell]), branch, float(filled.gap_mm[before_tip[-1]]),
        float(filled.gap_mm[before_tip].min()), _is_flat(filled, int(halfway)),
        float(filled.order[cell]), cell,
    )  # fmt: skip


def _is_flat(filled: FilledCells, cell: int) -> bool:
    """Whether the cavity is wide for its thickness around a cell."""
    gap = filled.gap_mm[cell]
    around = np.hypot(*(filled.xy - filled.xy[cell]).T) <= FLAT * gap
    return bool(2 * filled.edge_mm[around].max() > FLAT * gap)


def _branches(filled: FilledCells, cost: Array) -> list[tuple[int, float]]:
    """Every last place with the length of its branch."""
    peak = _peaks(filled, cost)
    owner = {int(p): int(p) for p in np.unique(peak[cost >= 0])}

    def root(p: int) -> int:
        while owner[p] != p:
            owner[p] = owner[owner[p]]
            p = owner[p]
        return p

    branches = []
    for one, other, saddle in _saddles(filled, cost, peak):
        low, high = sorted((root(one), root(other)), key=lambda p: (cost[p], p))
        if low != high:
            owner[low] = high
            branches.append((low, _branch(filled, low, saddle)))
    left = [p for p in owner if owner[p] == p]
    return branches + [(p, float(filled.path_mm[p])) for p in left]


def _branch(filled: FilledCells, end: int, saddle: int) -> float:
    """Length of the branch between a last place and where it left the rest."""
    if filled.path_mm[end] - filled.path_mm[saddle] < LEAST_RISE_CELLS * filled.pitch_mm:
        return 0.0
    return float(np.hypot(*(filled.xy[end] - filled.xy[saddle])))


def _peaks(filled: FilledCells, cost: Array) -> Index:
    """The last place to which each cell leads when going to its latest neighbor again and again."""
    here, there = (np.concatenate(pair) for pair in (filled.links, filled.links[::-1]))
    turn = np.lexsort((cost[there], here))
    here, there = here[turn], there[turn]
    latest = np.arange(len(cost))
    last = np.flatnonzero(np.append(here[1:] != here[:-1], True))
    later = cost[there[last]] > cost[here[last]]
    latest[here[last][later]] = there[last][later]
    while not np.array_equal(onward := latest[latest], latest):
        latest = onward
    return latest


def _saddles(filled: FilledCells, cost: Array, peak: Index) -> list[tuple[int, int, int]]:
    """Pairs of neighboring last places with the latest cell between them, the latest first."""
    here, there = filled.links
    apart = (peak[here] != peak[there]) & (cost[here] >= 0) & (cost[there] >= 0)
    here, there = here[apart], there[apart]
    saddle = np.where(cost[here] < cost[there], here, there)
    low, high = np.sort([peak[here], peak[there]], axis=0)
    turn = np.lexsort((saddle, -cost[saddle]))
    pairs = np.stack([low[turn], high[turn]], axis=1)
    _, first = np.unique(pairs, axis=0, return_index=True)
    latest = turn[np.sort(first)]
    return list(zip(*(a[latest].tolist() for a in (low, high, saddle)), strict=True))
