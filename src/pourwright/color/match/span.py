"""Numbers known only within limits."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array

Picks = NDArray[np.intp] | NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Span:
    """Least and most of many numbers."""

    low: Array
    high: Array

    @property
    def middle(self) -> Array:
        """Halfway."""
        return (self.low + self.high) / 2

    @property
    def half(self) -> Array:
        """Half the width."""
        return (self.high - self.low) / 2

    def take(self, rows: Picks) -> Span:
        """Some of them."""
        return Span(self.low[rows], self.high[rows])

    def sizes(self) -> Span:
        """Of the absolute values."""
        near = np.maximum(np.maximum(self.low, -self.high), 0)
        return Span(near, np.maximum(-self.low, self.high))

    def plus(self, other: Span | Array | float) -> Span:
        """Of the sum."""
        if isinstance(other, Span):
            return Span(self.low + other.low, self.high + other.high)
        return Span(self.low + other, self.high + other)

    def less(self, other: Span) -> Span:
        """Of the difference of unrelated numbers."""
        return Span(self.low - other.high, self.high - other.low)

    def times(self, factor: Span | Array | float) -> Span:
        """Of the product with something that is never negative."""
        low, high = (factor.low, factor.high) if isinstance(factor, Span) else (factor, factor)
        return Span(
            np.minimum(self.low * low, self.low * high),
            np.maximum(self.high * low, self.high * high),
        )

    def meet(self, other: Span) -> Span:
        """Of numbers that lie within both; never inside out, even where rounding says so."""
        low, high = np.maximum(self.low, other.low), np.minimum(self.high, other.high)
        return Span(np.minimum(low, high), np.maximum(low, high))

    def of(self, rising: np.ufunc) -> Span:
        """Of a function that never falls."""
        return Span(rising(self.low), rising(self.high))


@dataclass(frozen=True, slots=True)
class Sheaf:
    """Numbers (n, 3) = at + slopes·x ± loose for every |x| up to reach, (n, k)."""

    at: Array
    slopes: Array
    reach: Array
    loose: Array

    def span(self) -> Span:
        """Of the three numbers."""
        wide = np.einsum("nij,nj->ni", abs(self.slopes), self.reach) + self.loose
        return Span(self.at - wide, self.at + wide)

    def along(self, row: Array) -> Span:
        """Of a weighted sum of the three, weights (n, 3)."""
        slopes = np.einsum("ni,nij->nj", row, self.slopes)
        wide = (abs(slopes) * self.reach).sum(axis=1) + (abs(row) * self.loose).sum(axis=1)
        at = (row * self.at).sum(axis=1)
        return Span(at - wide, at + wide)
