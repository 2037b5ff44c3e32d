"""Can it hold the limits: capability with the range that so few readings leave."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy import special

from pourwright.base.draws import Array
from pourwright.base.field import out

# Readings below which the handbook calls a capability not worth stating.
ENOUGH = 50
# Two-sided 95 % of a normal value.
_Z = float(special.ndtri(0.975))
# The fitted tail ends here (from memory); far beyond it the fit would rise again.
_TAIL_END = 10.0


@dataclass(frozen=True, slots=True)
class Capability:
    """How wide the limits are against the spread; 1.33 is what is commonly asked for."""

    sigma_g: float = out("Spread of one bait, as a standard deviation")
    cp: float | None = out("Room between the limits against the spread; null with one limit")
    cpk: float = out("The same for the nearer limit, so that being off center counts")
    cpk_low: float = out("Lowest that these readings leave possible, 95 %")
    cpk_high: float = out("Highest that these readings leave possible, 95 %")


def capability(
    *, mean: float, sigma: float, low: float | None, high: float | None, freedom: float, count: int
) -> Capability:
    """Capability of a mean and a spread of that many degrees of freedom.

    Cp = (high - low) / 6 sigma; Cpk = min(high - mean, mean - low) / 3 sigma.
    Source: NIST/SEMATECH e-Handbook, 6.1.6; the range after Bissell, Applied Statistics 39 (1990)
    331, in which 1 / 9n stands for the doubt of the mean and Cpk² / 2f for that of the spread.

    >>> it = capability(mean=16, sigma=2, low=8, high=20, freedom=49, count=50)
    >>> it.cp, round(it.cpk, 4)
    (1.0, 0.6667)
    """
    above = math.inf if high is None else high - mean
    below = math.inf if low is None else mean - low
    cpk = min(above, below) / (3 * sigma)
    cp = (high - low) / (6 * sigma) if low is not None and high is not None else None
    apart = _Z * math.sqrt(1 / (9 * count) + cpk**2 / (2 * freedom))
    return Capability(sigma, cp, cpk, cpk - apart, cpk + apart)


def normal_chance(values: Array) -> float:
    """Chance that normal readings look so far from normal.

    Source: Anderson and Darling's statistic for a mean and a spread taken from the readings, and
    its tail: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), tables 4.7 and 4.9.
    """
    n = len(values)
    ordered = np.sort((values - values.mean()) / values.std(ddof=1))
    i = np.arange(1, n + 1)
    logs = special.log_ndtr(ordered) + special.log_ndtr(-ordered[::-1])
    return normal_tail((-n - float(np.mean((2 * i - 1) * logs))) * (1 + 0.75 / n + 2.25 / n**2))


def normal_tail(a: float) -> float:
    """Chance of Anderson and Darling's statistic, corrected for the count, where all is normal."""
    if a >= 0.6:
        a = min(a, _TAIL_END)
        return math.exp(1.2937 - 5.709 * a + 0.0186 * a**2)
    if a >= 0.34:
        return math.exp(0.9177 - 4.279 * a - 1.38 * a**2)
    if a >= 0.2:
        return 1 - math.exp(-8.318 + 42.796 * a - 59.938 * a**2)
    return 1 - math.exp(-13.436 + 101.14 * a - 223.73 * a**2)
