"""Chance with one stream for each oven: no oven's luck depends on its neighbors."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Luck:
    """One generator for each oven; every draw has shape (n,)."""

    streams: tuple[np.random.Generator, ...]

    def uniform(self, low: float, high: float) -> Array:
        """Evenly between `low` and `high`."""
        return np.array([s.uniform(low, high) for s in self.streams])

    def normal(self, spread: float) -> Array:
        """Around zero, of that standard deviation."""
        return np.array([s.normal(0, spread) for s in self.streams])

    def factor(self, spread: float) -> Array:
        """Lognormal with median one; `spread` is the standard deviation of its logarithm."""
        return np.exp(self.normal(spread))

    def whether(self, chance: float) -> NDArray[np.bool_]:
        """True with that chance."""
        return self.uniform(0, 1) < chance


def luck(*keys: ArrayLike) -> Luck:
    """Streams from whole numbers not below zero, each key one number or one for each oven."""
    rows = np.stack(np.broadcast_arrays(*[np.atleast_1d(np.asarray(k, int)) for k in keys]), -1)
    return Luck(tuple(np.random.default_rng(row.tolist()) for row in rows))
