"""How thick a cavity is around each place of its parting plane: the balls that fit there."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Crossings, Mask

# Balls are laid in groups whose sizes differ by this factor.
GROUP = 1.15
# A ball that grows by this much a step toward a neighbor lies inside the neighbor's; 1 in truth.
SWALLOWED = 0.7
# The middle of a ball lies off the middle of a cell by so much of it, on average.
OFF_MIDDLE = 0.25
# How deep a rim is, and how many cells of it a ball counts for that it just misses.
RIM_CELLS, SPREAD_CELLS = 1.6, 3


def column_height(rays: Crossings) -> Array:
    """Height that melt finds in each column, shape of the grid, mm.

    Gaps above each other fill side by side: their speeds go with height squared and their shares
    with height, so the mean is that of the squares, weighed by height.
    """
    cell, enter, leave = rays.gaps()
    high = np.maximum(leave - enter, 0.0)
    size = rays.grid.count[0] * rays.grid.count[1]
    cubes, plain = np.bincount(cell, high**3, size), np.bincount(cell, high, size)
    square = np.divide(cubes, plain, out=np.zeros(size), where=plain > 0)
    return np.asarray(np.sqrt(square).reshape(rays.grid.count))


def local_gap(height: Array, pitch: float) -> Array:
    """Diameter of the largest ball, its middle in the parting plane, that covers each cell, mm.

    So the thin rim of a round rod counts as thick as the rod, and an upright fin as thin as it is.
    The cavity is taken as even about its parting plane; nothing in it counts as thinner than half
    a cell. Outside it the gap is 0.
    """
    half = np.pad(height / 2, 1)
    own = np.where(half > 0, _ball(half, pitch).clip(pitch / 4), 0.0)
    large = np.where(_bump(half > 0, own, pitch), 0.0, _largest(own, pitch))
    cover = np.zeros_like(large)
    for size in _sizes(large):
        _lay(cover, np.where(large > size, large, 0.0), pitch)
    spread = _spread(cover, half > 0)
    return np.where(height > 0, 2 * np.where(spread > 0, spread, own)[1:-1, 1:-1], 0.0)


def _bump(full: Mask, own: Array, pitch: float) -> Mask:
    """Cells of a rim that are thinner than the grid can tell: a rib's edge rather than a leg."""
    return np.asarray((own < pitch) & (to_edge(full) < RIM_CELLS))


def to_edge(full: Mask) -> Array:
    """Way from the middle of each full cell to the nearest edge of a shadow, in cells."""
    from scipy.ndimage import distance_transform_edt  # noqa: PLC0415  slow to load

    return np.asarray(distance_transform_edt(np.pad(full, 1))[1:-1, 1:-1] - 0.5).clip(0)


def _ball(half: Array, pitch: float) -> Array:
    """Radius of the ball around the middle of each column."""
    inside = half > 0
    square = np.where(inside, half**2, np.inf)
    reach = int(half.max() / pitch)
    skin = _least(_least(square, reach, pitch, 0), reach, pitch, 1)
    edge = pitch * (to_edge(inside) + OFF_MIDDLE)
    return np.where(inside, np.minimum(edge, np.sqrt(skin)), 0.0)


def _least(square: Array, reach: int, pitch: float, axis: int) -> Array:
    """The least of any neighbor along an axis plus its distance squared."""
    least = square.copy()
    ahead, behind = least.swapaxes(0, axis), square.swapaxes(0, axis)
    for step in range(1, min(reach + 1, len(behind))):
        far = (step * pitch) ** 2
        np.minimum(ahead[step:], behind[:-step] + far, out=ahead[step:])
        np.minimum(ahead[:-step], behind[step:] + far, out=ahead[:-step])
    return least


def _largest(ball: Array, pitch: float) -> Array:
    """The balls that no neighbor's ball holds; 0 elsewhere."""
    grown = np.pad(ball, 1, mode="edge")
    long, wide = ball.shape
    steps = ((a, b) for a in (-1, 0, 1) for b in (-1, 0, 1) if (a, b) != (0, 0))
    held = np.zeros(ball.shape, dtype=bool)
    for a, b in steps:
        beside = grown[1 + a : 1 + a + long, 1 + b : 1 + b + wide]
        held |= beside >= ball + SWALLOWED * pitch * math.hypot(a, b)
    return np.where(held, 0.0, ball)


def _sizes(ball: Array) -> Array:
    """Lower ends of groups of sizes, the smallest group first."""
    balls = ball[ball > 0]
    if not len(balls):
        return balls
    groups = int(np.log(balls.max() / balls.min()) / np.log(GROUP)) + 1
    return np.asarray(balls.max() * GROUP ** -np.arange(groups, 0, -1.0))


def _lay(cover: Array, ball: Array, pitch: float) -> None:
    """Cover each cell with the nearest of some balls if it reaches there, and is larger."""
    from scipy.ndimage import distance_transform_edt  # noqa: PLC0415  slow to load

    far, (row, column) = distance_transform_edt(ball == 0, return_indices=True)
    nearest = ball[row, column]
    reached = (far - 0.5) * pitch <= nearest
    np.maximum(cover, np.where(reached, nearest, 0.0), out=cover)


def _spread(cover: Array, full: Mask) -> Array:
    """Cells that every ball just misses take the largest that covers a neighbor."""
    for _ in range(SPREAD_CELLS):
        cover = np.where(full & (cover == 0), _greatest_beside(cover), cover)
    return cover


def _greatest_beside(values: Array) -> Array:
    """The greatest of the eight neighbors of each cell."""
    from scipy.ndimage import maximum_filter  # noqa: PLC0415  slow to load

    return np.asarray(maximum_filter(values, size=3, mode="constant"))
