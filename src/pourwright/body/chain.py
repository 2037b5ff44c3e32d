"""A cavity as a chain of slices, one behind the other on the way from the gate."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.field import out
from pourwright.body.columns import Index, Mask
from pourwright.body.filled_cells import FilledCells

# A branch counts if it holds more than this share of what the largest beside it holds.
LEAST_BRANCH = 0.15
# A slice is at least so many cells long, or its volume would depend on where the cells lie.
LEAST_CELLS = 3.0


@dataclass(frozen=True, slots=True)
class ChainSlice:
    """A slice of the way: ellipses side by side, of the volume of all that lies so far away."""

    length_mm: float = out("Length along the flow")
    width_mm: float = out("Width of the ellipse")
    thick_mm: float = out("Thickness of the ellipse, no more than its width")
    copies: int = out("Branches that fill side by side")


def chain(
    filled: FilledCells, slices: int, volume_mm3: float | None = None
) -> tuple[ChainSlice, ...]:
    """Slices of equal length by the shortest way from the source; their volumes add up.

    A slice is as thick as its gap, or round where that would be more than round. Where the true
    volume is given the sections are scaled to it.
    """
    reached = np.isfinite(filled.path_mm)
    longest = float(filled.path_mm[reached].max()) + filled.pitch_mm / 2
    count = max(min(slices, int(longest / (LEAST_CELLS * filled.pitch_mm))), 1)
    bins = np.where(reached, filled.path_mm / longest * count, -1).astype(np.int64)
    scale = 1.0 if volume_mm3 is None else volume_mm3 / filled.volume_mm3
    branches = _branches(filled, bins, count)
    return tuple(
        _slice(filled, bins == k, longest / count, int(branches[k]), scale) for k in range(count)
    )


def _slice(
    filled: FilledCells, inside: Mask, length: float, copies: int, scale: float
) -> ChainSlice:
    height = filled.height_mm[inside]
    section = float(height.sum()) * filled.pitch_mm**2 * scale / length / copies
    gap = float(np.average(filled.gap_mm[inside], weights=height))
    thick = min(gap, math.sqrt(4 * section / math.pi))
    return ChainSlice(length, 4 * section / (math.pi * thick), thick, copies)


def _branches(filled: FilledCells, bins: Index, count: int) -> Index:
    """How many pieces of each slice lie apart, the slight ones aside."""
    from scipy.sparse import coo_array  # noqa: PLC0415  slow to load
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    here, there = filled.links
    same = bins[here] == bins[there]
    size = len(bins)
    graph = coo_array((np.ones(int(same.sum())), (here[same], there[same])), shape=(size, size))
    pieces, piece = connected_components(graph.tocsr(), directed=False)
    plastic = np.bincount(piece, filled.height_mm, pieces)
    home = np.zeros(pieces, dtype=np.int64)
    home[piece] = bins
    counted = home >= 0
    most = np.zeros(count)
    np.maximum.at(most, home[counted], plastic[counted])
    real = counted & (plastic > LEAST_BRANCH * most[home])
    return np.bincount(home[real], minlength=count)
