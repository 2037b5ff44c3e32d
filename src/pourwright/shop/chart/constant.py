"""What the range of a few normal values is on average and how it spreads, by integration."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

import numpy as np
from scipy import special

LEAST, MOST = 2, 10
# No range of so few values is wider than this many standard deviations.
_WIDEST = 16.0


@dataclass(frozen=True, slots=True)
class RangeLaw:
    """Mean d2 and spread d3 of the range of n values, in their standard deviations."""

    d2: float
    d3: float

    @property
    def lowest(self) -> float:
        """Lower limit of a range, as a share of the mean one (D3)."""
        return max(0.0, 1 - 3 * self.d3 / self.d2)

    @property
    def highest(self) -> float:
        """Upper limit of a range, as a share of the mean one (D4)."""
        return 1 + 3 * self.d3 / self.d2


@functools.cache
def range_law(n: int) -> RangeLaw:
    """The law of the range of n normal values.

    P(range <= w) = n times the integral of density(x) (cdf(x + w) - cdf(x))^(n - 1); its moments
    are integrals of what lies above, by Gauss's rule over w and even steps over x.
    Source: Tippett, Biometrika 17 (1925) 364; table in NIST/SEMATECH e-Handbook, 6.3.2.1.

    >>> [round(range_law(n).d2, 4) for n in (2, 3, 4, 5)]
    [1.1284, 1.6926, 2.0588, 2.3259]
    """
    if not LEAST <= n <= MOST:
        raise ValueError(f"a range of {n} values is not charted")
    x = np.linspace(-9, 9, 361)
    nodes, weights = np.polynomial.legendre.leggauss(64)
    w, weights = _WIDEST / 2 * (nodes + 1), _WIDEST / 2 * weights
    density = np.exp(-(x**2) / 2) / math.sqrt(2 * math.pi)
    within = special.ndtr(x[:, None] + w) - special.ndtr(x)[:, None]
    above = 1 - n * np.trapezoid(density[:, None] * within ** (n - 1), x, axis=0)
    mean, square = float(weights @ above), float(weights @ (2 * w * above))
    return RangeLaw(mean, math.sqrt(square - mean**2))
