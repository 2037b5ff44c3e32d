"""What is believed of a colorant before, or after, some of its pucks: a normal over logarithms."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import BANDS, WAVELENGTHS_NM

_KEPT = 1e-4


@dataclass(frozen=True, slots=True)
class Normal:
    """Mean (62,) and factor (62, n) of logarithms of absorption, then of scattering.

    The covariance is factor times its transpose.
    """

    mean: Array
    factor: Array

    @property
    def absorb(self) -> Array:
        """The mean of absorption's logarithms."""
        return self.mean[:BANDS]

    @property
    def scatter(self) -> Array:
        """The mean of scattering's logarithms."""
        return self.mean[BANDS:]


def normal(mean: Array, covariance: Array) -> Normal:
    """A normal by its covariance; ways of less than 1 % of a logarithm are dropped."""
    sizes, ways = np.linalg.eigh(covariance)
    kept = sizes > _KEPT
    return Normal(mean, ways[:, kept] * np.sqrt(sizes[kept]))


@functools.cache
def loose() -> Array:
    """Covariance of what no family has: (62, 62).

    Absorption may leave its family by a quarter over 30 nm and by a little over 12 nm; scattering
    by a tenth over 100 nm; estimates.
    """
    found = np.zeros((2 * BANDS, 2 * BANDS))
    found[:BANDS, :BANDS] = smooth(0.22, 30) + smooth(0.06, 12)
    found[BANDS:, BANDS:] = smooth(0.12, 100) + smooth(0.05, 30)
    return found


def smooth(size: float, reach_nm: float) -> Array:
    """Covariance of a smooth curve of that deviation, (31, 31)."""
    apart = (WAVELENGTHS_NM[:, None] - WAVELENGTHS_NM[None, :]) / reach_nm
    return np.asarray(size**2 * np.exp(-0.5 * apart**2))


@functools.cache
def plastic() -> Normal:
    """Clear plastic: a little yellow and a little haze, both within a factor of five; estimate."""
    absorb = np.log(0.0004 + 0.0025 * np.exp(-(WAVELENGTHS_NM - 400) / 70))
    scatter = np.log(0.006) - 1.2 * np.log(WAVELENGTHS_NM / 550)
    covariance = np.zeros((2 * BANDS, 2 * BANDS))
    covariance[:BANDS, :BANDS] = smooth(0.8, 1e4) + smooth(0.5, 120) + smooth(0.15, 30)
    covariance[BANDS:, BANDS:] = smooth(1.0, 1e4) + smooth(0.3, 150)
    return normal(np.concatenate([absorb, scatter]), covariance)
