"""Make boxes of recipes smaller without losing a better recipe, and take them apart."""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.color.match.frontier import Boxes
from pourwright.color.match.span import Picks, Sheaf, Span

# Rounding must not cost a recipe that lies right on the edge.
_EDGE = 1e-6


def within_limits(
    boxes: Boxes, most_steps: float, most_money: float, money: Array
) -> tuple[Boxes, Picks]:
    """Boxes without recipes of too many steps or too much money; and which are not empty."""
    spare = most_steps - boxes.low.sum(axis=1)
    high = np.minimum(boxes.high, boxes.low + np.maximum(spare, 0)[:, None])
    fits = spare >= 0
    if np.isfinite(most_money):
        price = money[boxes.bottles]
        left = most_money + 1e-9 - (price * boxes.low).sum(axis=1)
        fits &= left >= 0
        paid = np.maximum(left, 0)[:, None] / np.where(price > 0, price, 1)
        room = np.where(price > 0, np.floor(paid + _EDGE), np.inf)
        high = np.minimum(high, boxes.low + room)
    return Boxes(boxes.bottles, boxes.low, high, boxes.bounds), fits


def contracted(boxes: Boxes, misses: Sheaf, best: float) -> Span:
    """Least and most steps outside of which every recipe misses by more than the best.

    `misses` is no longer than the score. Each is cut by slabs: along a bottle's own effect, and
    square to the effects of two others. Nothing is left where the least is above the most.
    """
    way = _ways(misses.slopes)
    slopes = way @ misses.slopes
    at = np.einsum("nwi,ni->nw", way, misses.at)
    room = best + np.einsum("nwi,ni->nw", abs(way), misses.loose)
    sizes = abs(slopes)
    swing = sizes * misses.reach[:, None, :]
    room = (room + swing.sum(axis=2))[:, :, None] - swing
    divisor = np.maximum(sizes, 1e-12)
    room /= divisor
    middle = -at[:, :, None] * np.sign(slopes) / divisor
    center = (boxes.low + boxes.high) / 2
    return Span(
        np.maximum(np.ceil(center + (middle - room).max(axis=1) - _EDGE), boxes.low),
        np.minimum(np.floor(center + (middle + room).min(axis=1) + _EDGE), boxes.high),
    )


def _ways(slopes: Array) -> Array:
    """Directions in color, (n, ways, 3)."""
    columns = slopes.swapaxes(1, 2)
    pairs = np.array(list(itertools.combinations(range(columns.shape[1]), 2)), dtype=int)
    square = np.cross(columns[:, pairs[:, 0]], columns[:, pairs[:, 1]]) if len(pairs) else columns
    way = np.concatenate([columns, square], axis=1)
    return np.asarray(way / (np.linalg.norm(way, axis=2) + 1e-300)[:, :, None])


def halves(boxes: Boxes, effect: Array) -> Boxes:
    """Two of each, cut across the bottle whose range has the largest effect, (n, k) a step."""
    j = ((boxes.high - boxes.low) * (effect + 1e-9)).argmax(axis=1)
    rows = np.arange(len(j))
    least, most = boxes.low[rows, j], boxes.high[rows, j]
    # Looks go by ratios rather than by differences where those are large.
    cut = np.where(most > 4 * least, np.sqrt(least * most), (least + most) / 2)
    cut = np.clip(np.floor(cut), least, most - 1)
    low, high = np.concatenate([boxes.low] * 2), np.concatenate([boxes.high] * 2)
    high[rows, j] = cut
    low[len(j) + rows, j] = cut + 1
    bounds = np.concatenate([boxes.bounds] * 2)
    return Boxes(np.concatenate([boxes.bottles] * 2), low, high, bounds)


def every_recipe(boxes: Boxes, bottles: int) -> Array:
    """All recipes of all boxes: counts (recipes, bottles)."""
    wide = (boxes.high - boxes.low + 1).astype(int)
    each = wide.prod(axis=1)
    owner = np.repeat(np.arange(len(each)), each)
    digits = np.arange(len(owner)) - np.repeat(np.cumsum(each) - each, each)
    found = np.zeros((len(owner), bottles + 1))
    rows = np.arange(len(owner))
    for j in range(wide.shape[1]):
        digits, digit = np.divmod(digits, wide[owner, j])
        found[rows, boxes.bottles[owner, j]] = boxes.low[owner, j] + digit
    return found[:, :-1]


def every_set(most: Array, size: int) -> Boxes:
    """A box for each set of up to `size` bottles, each of them in use."""
    usable = np.flatnonzero(most > 0)
    size = min(size, len(usable))
    width = max(size, 1)
    rows = [
        [*some, *[len(most)] * (width - n)]
        for n in range(size + 1)
        for some in itertools.combinations(usable, n)
    ]
    bottles: NDArray[np.intp] = np.array(rows, dtype=np.intp).reshape(-1, width)
    high = np.append(most, 0.0)[bottles]
    return Boxes(bottles, np.minimum(high, 1.0), high, np.zeros(len(bottles)))
