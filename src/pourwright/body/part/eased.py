"""Thickness through stated places, eased between them."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array


def eased(x: Array, at: tuple[float, ...], value: tuple[float, ...]) -> Array:
    """Values at rising places, a smooth cubic step from each to the next, flat beyond the ends."""
    place = np.clip(np.searchsorted(at, x, side="right") - 1, 0, len(at) - 2)
    here, there = np.array(at)[place], np.array(at)[place + 1]
    s = np.clip((x - here) / (there - here), 0, 1)
    first, last = np.array(value)[place], np.array(value)[place + 1]
    return np.asarray(first + (last - first) * s * s * (3 - 2 * s))
