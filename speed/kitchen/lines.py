"""Heat along lines of cells, implicit in time."""

from __future__ import annotations

import numpy as np

from speed.kitchen.draws import Array


def solved(diagonal: Array, link: Array, right: Array) -> Array:
    """x of  diagonal[i] x[i] - link[i-1] x[i-1] - link[i] x[i+1] = right[i]  down the first axis.

    Shapes (m, ...), (m - 1, ...), (m, ...). Elimination without pivots, which is safe as every
    diagonal outweighs its links (Thomas; W. H. Press et al., Numerical Recipes, 3rd ed., 2007,
    sec. 2.4).
    """
    pivot, x = np.array(diagonal), np.array(right)
    for i in range(1, len(x)):
        share = link[i - 1] / pivot[i - 1]
        pivot[i] -= share * link[i - 1]
        share *= x[i - 1]
        x[i] += share
    x[-1] /= pivot[-1]
    for i in range(len(x) - 2, -1, -1):
        x[i] += link[i] * x[i + 1]
        x[i] /= pivot[i]
    return x
