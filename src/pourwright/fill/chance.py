"""How often something happens, and how sure a count of draws makes that."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaincinv

from pourwright.base.band import Band
from pourwright.base.draws import Array


def chance(happens: NDArray[np.bool_]) -> Band:
    """Share of the draws after the typical one, 0 to 1, with Jeffreys' interval for a count.

    Source: Brown, Cai and DasGupta, Statistical Science 16 (2001) 101, sec. 3.1.4.

    >>> chance(np.array([True] + [True] * 5 + [False] * 15)).typical
    0.25
    """
    n, k = len(happens) - 1, int(happens[1:].sum())
    low = 0.0 if k == 0 else float(betaincinv(k + 0.5, n - k + 0.5, 0.05))
    high = 1.0 if k == n else float(betaincinv(k + 0.5, n - k + 0.5, 0.95))
    return Band(low, k / n, high)


def spread(values: Array) -> Band | None:
    """Middle and nine tenths of some of the draws; nothing where there are none."""
    if not len(values):
        return None
    low, middle, high = (float(q) for q in np.quantile(values, (0.05, 0.5, 0.95)))
    return Band(low, middle, high)
