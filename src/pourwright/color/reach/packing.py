"""How many colors differ clearly, each from all the others."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.spectrum.difference import delta_e00

CLEARLY = 5.0
# CIEDE2000 is at least the lightness part alone, and that divides L* by at most this, at L* 0 and
# 100 (Sharma, Wu and Dalal, 2005, eq. 15).
MOST_LIGHTNESS_UNIT = 1 + 0.015 * 2500 / math.sqrt(2520)


def distinct(labs: Array, apart: float = CLEARLY) -> NDArray[np.intp]:
    """Places of colors that lie at least so far apart in CIEDE2000, darkest first.

    From dark to light each color is kept that is far enough from all kept before: no larger set is
    ruled out, so the number is a lower bound.
    """
    order = np.argsort(labs[:, 0], kind="stable")
    ordered = labs[order]
    ends = np.searchsorted(ordered[:, 0], ordered[:, 0] + apart * MOST_LIGHTNESS_UNIT, "right")
    free = np.ones(len(ordered), dtype=bool)
    kept = []
    for i in range(len(ordered)):
        if free[i]:
            kept.append(i)
            near = i + np.flatnonzero(free[i : ends[i]])
            free[near[delta_e00(ordered[near], ordered[i]) < apart]] = False
    return np.asarray(order[kept])
