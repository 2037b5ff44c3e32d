"""Look up a smooth function of two positive numbers, tens of millions of times a second.

The axes run by octaves with equal steps within each, which is how a 32-bit float is written: its
exponent and leading bits are the cell, the bits that follow are the place within the cell.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Single = NDArray[np.float32]

_STEP_BITS = 4
STEPS = 1 << _STEP_BITS
_LEFT_BITS = 23 - _STEP_BITS
_BIAS = 127
_MASK = np.int32((1 << _LEFT_BITS) - 1)
_PART = np.float32(1 / (1 << _LEFT_BITS))


def axis(octaves: tuple[int, int]) -> NDArray[np.float64]:
    """Places of the nodes from 2^low to 2^high, both included.

    >>> axis((0, 2))[::8].tolist()
    [1.0, 1.5, 2.0, 3.0, 4.0]
    """
    within = 1 + np.arange(STEPS) / STEPS
    inner = np.concatenate([2.0**e * within for e in range(*octaves)])
    return np.append(inner, 2.0 ** octaves[1])


class Places:
    """Where pairs of numbers lie on the grid; held inside it, so callers scale beforehand."""

    __slots__ = ("first", "fx", "fy", "width")

    def __init__(
        self, x: Single, y: Single, *, across: tuple[int, int], along: tuple[int, int]
    ) -> None:
        self.width = (along[1] - along[0]) * STEPS + 1
        row, self.fx = _cell(x, across)
        column, self.fy = _cell(y, along)
        row *= np.int32(self.width)
        row += column
        self.first = row

    def of(self, table: Single) -> Single:
        """The table at these places, bilinear within a cell."""
        flat = table.ravel()
        at = self.first.copy()
        low = np.take(flat, at)
        at += 1
        rise = np.take(flat, at)
        at += np.int32(self.width)
        far_rise = np.take(flat, at)
        at -= 1
        far = np.take(flat, at)
        rise -= low
        rise *= self.fy
        low += rise
        far_rise -= far
        far_rise *= self.fy
        far += far_rise
        far -= low
        far *= self.fx
        low += far
        return low


def _cell(values: Single, octaves: tuple[int, int]) -> tuple[NDArray[np.int32], Single]:
    low, high = np.float32(2.0 ** octaves[0]), np.nextafter(np.float32(2.0 ** octaves[1]), 0)
    bits = np.clip(values, low, high).view(np.int32)
    cell = bits >> _LEFT_BITS
    cell -= (_BIAS + octaves[0]) << _STEP_BITS
    bits &= _MASK
    part = bits.astype(np.float32)
    part *= _PART
    return cell, part
