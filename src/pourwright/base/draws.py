"""One seeded set of parameter draws that runs through a whole forecast.

Draw 0 holds every parameter at its typical value, so that typical answers add up;
the other draws are stratified (a Latin hypercube), so that a few hundred give stable bands.
"""

from __future__ import annotations

import functools
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from pourwright.base.band import Band

Array = NDArray[np.float64]
Z90 = NormalDist().inv_cdf(0.95)


@dataclass(frozen=True, slots=True)
class Doubt:
    """A parameter nobody has measured exactly: its band, and how to narrow it at the bench.

    `measure` is empty where no cheap measurement exists.
    """

    label: str
    band: Band
    measure: str = ""
    logarithmic: bool = False


@dataclass(frozen=True, slots=True)
class Driver:
    """One cause of an answer's width: its share of the variance."""

    name: str
    label: str
    share: float
    measure: str


class Draws:
    """Named parameters, each drawn once and remembered, from one seed."""

    def __init__(self, *, seed: int = 1, count: int = 160) -> None:
        self._seed = seed
        self._strata = _scores(count)
        self._z: dict[str, Array] = {}
        self._doubts: dict[str, Doubt] = {}

    @property
    def count(self) -> int:
        """Draws after the typical one."""
        return len(self._strata)

    def scores(self, name: str) -> Array:
        """Standard-normal scores of a parameter, shape (count + 1,), zero first."""
        if name not in self._z:
            generator = np.random.Generator(
                np.random.PCG64([self._seed, zlib.crc32(name.encode())])
            )
            self._z[name] = np.concatenate([[0.0], generator.permutation(self._strata)])
        return self._z[name]

    def of(self, name: str, doubt: Doubt) -> Array:
        """Draws of a parameter, shape (count + 1,), the typical value first."""
        self._doubts[name] = doubt
        z = self.scores(name) / Z90
        if doubt.logarithmic:
            low, typical, high = np.log([doubt.band.low, doubt.band.typical, doubt.band.high])
            return np.asarray(np.exp(_split_normal(z, low, typical, high)))
        return _split_normal(z, doubt.band.low, doubt.band.typical, doubt.band.high)

    def known(self, value: float) -> Array:
        """A parameter taken as certain, in the shape of a draw."""
        return np.full(self.count + 1, float(value))

    def note_doubt(self, name: str, doubt: Doubt) -> None:
        """Name a parameter that was drawn by its scores rather than by `of`."""
        self._doubts[name] = doubt

    def band(self, values: Array) -> Band:
        """The typical answer with its 5 % and 95 % quantiles."""
        typical = float(values[0])
        ordered = np.sort(values[1:])
        low, high = _quantile(ordered, 0.05), _quantile(ordered, 0.95)
        return Band(min(low, typical), typical, max(high, typical))

    def drivers(
        self, values: Array, most: int = 3, least_share: float = 0.08
    ) -> tuple[Driver, ...]:
        """What the width of an answer comes from, largest first."""
        shares = self._shares(values[1:])
        named = sorted(shares.items(), key=lambda pair: (-pair[1], pair[0]))[:most]
        return tuple(
            Driver(name, self._doubts[name].label, share, self._doubts[name].measure)
            for name, share in named
            if share >= least_share
        )

    def _shares(self, values: Array) -> Mapping[str, float]:
        spread = values - values.mean()
        total = float(spread @ spread)
        if total <= 1e-18 * max(1.0, float(values @ values)):
            return {}
        shares = {}
        for name in self._doubts:
            z = self.scores(name)[1:]
            shares[name] = float(spread @ z) ** 2 / (total * float(z @ z))
        return shares


def _split_normal(z: Array, low: float, typical: float, high: float) -> Array:
    return np.asarray(typical + z * np.where(z > 0, high - typical, typical - low))


def _quantile(ordered: Array, share: float) -> float:
    """Linear between order statistics, as numpy's default, without its overhead."""
    at = share * (len(ordered) - 1)
    below = int(at)
    above = min(below + 1, len(ordered) - 1)
    return float(ordered[below] + (at - below) * (ordered[above] - ordered[below]))


@functools.cache
def _scores(count: int) -> Array:
    normal = NormalDist()
    return np.array([normal.inv_cdf((i + 0.5) / count) for i in range(count)])
