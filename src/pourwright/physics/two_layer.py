"""Two liquids side by side in one slot, moved by one pressure.

Lengths are shares of the gap between the walls; the first liquid lies against the wall at 0 and
reaches to `line`, the second from there to 1.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

_HALVINGS = 50


def flows(line: Array | float, thicker: Array | float) -> tuple[Array, Array]:
    """Flow of the first and of the second liquid, `thicker` times as viscous, up to one factor.

    In units of gap³·pressure gradient over the first viscosity, for one unit of width. Both move
    alike and drag each other alike where they meet, and stand still at their walls.
    Source: Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed. (2002), sec. 2.5, here for
    layers of any thickness.

    >>> first, second = flows(0.5, 1.0)
    >>> round(12 * (first + second).item(), 12)
    1.0
    """
    p, m = np.asarray(line, dtype=float), np.asarray(thicker, dtype=float)
    # Shear at the first wall: both liquids meet with one speed.
    shear = (p**2 + (1 - p**2) / m) / (2 * (p + (1 - p) / m))
    first = shear * p**2 / 2 - p**3 / 6
    rest = (1 - p) ** 2
    second = ((1 - shear) * rest / 2 - rest * (1 - p) / 6) / m
    return np.asarray(first), np.asarray(second)


def line_for(share: Array | float, thicker: Array | float) -> Array:
    """Where the line between them lies when the first carries a share of the whole flow, 0 to 1."""
    wanted, m = np.broadcast_arrays(np.asarray(share, float), np.asarray(thicker, float))
    low, high = np.zeros(wanted.shape), np.ones(wanted.shape)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        first, second = flows(middle, m)
        little = first < wanted * (first + second)
        low, high = np.where(little, middle, low), np.where(little, high, middle)
    return np.asarray((low + high) / 2)
