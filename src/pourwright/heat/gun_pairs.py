"""An infrared gun held against a probe in stirred plastic: how far it is off where it matters."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.heat.learn import PROBE_NOISE_K, STIRRING_NOISE_K

# How the gun's error changes with the temperature read. Three percent of emissivity shift it by
# 1 K between 100 and 175 °C (Stefan-Boltzmann, walls at 22 °C).
DRIFT_PER_K = 0.014
# Pairs further from the rest than so many deviations are doubted and left out.
ODD = 3.5
LEAST_TO_DOUBT = 3


@dataclass(frozen=True, slots=True)
class Pair:
    """One stirred moment: what the probe and the gun read, °C."""

    probe_c: float
    infrared_c: float

    @property
    def excess_k(self) -> float:
        """How much higher the gun reads."""
        return self.infrared_c - self.probe_c


@dataclass(frozen=True, slots=True)
class Excess:
    """What the pairs say of the gun against the probe at the working temperature.

    `noise_k` is the standard deviation of `excess_k` from the readings, `reach_k` how far from
    the working temperature the pairs lie on average, `at_c` where; `odd` are the pairs left out,
    with how much higher than the others they read.
    """

    excess_k: float
    noise_k: float
    reach_k: float
    at_c: float
    odd: tuple[tuple[int, float], ...]


def excess_of(pairs: Sequence[Pair], *, working_c: float) -> Excess:
    """Mean of the pairs, those near the working temperature counting most; one at least."""
    spreads = [_spread_k(p, working_c) for p in pairs]
    odd = _odd(pairs, spreads)
    kept = [i for i in range(len(pairs)) if i not in dict(odd)]
    shares = _shares([spreads[i] ** -2 for i in kept])
    mean = math.fsum(s * pairs[i].excess_k for s, i in zip(shares, kept, strict=True))
    at_c = math.fsum(s * pairs[i].probe_c for s, i in zip(shares, kept, strict=True))
    one = max(math.hypot(STIRRING_NOISE_K, PROBE_NOISE_K), _scatter(pairs, kept))
    noise = one * math.sqrt(math.fsum(s**2 for s in shares))
    return Excess(mean, noise, abs(at_c - working_c), at_c, odd)


def _spread_k(pair: Pair, working_c: float) -> float:
    """How far one pair may be from the truth at the working temperature."""
    return math.hypot(STIRRING_NOISE_K, PROBE_NOISE_K, DRIFT_PER_K * (pair.probe_c - working_c))


def _odd(pairs: Sequence[Pair], spreads: Sequence[float]) -> tuple[tuple[int, float], ...]:
    """The pairs that lie far from the middle of all the others; two alone cannot say which."""
    if len(pairs) < LEAST_TO_DOUBT:
        return ()
    middle = statistics.median(p.excess_k for p in pairs)
    away = [(i, p.excess_k - middle) for i, p in enumerate(pairs)]
    return tuple((i, k) for i, k in away if abs(k) > ODD * spreads[i])


def _shares(weights: Sequence[float]) -> list[float]:
    total = math.fsum(weights)
    return [w / total for w in weights]


def _scatter(pairs: Sequence[Pair], kept: Sequence[int]) -> float:
    if len(kept) < 2:
        return 0.0
    return statistics.stdev(pairs[i].excess_k for i in kept)
