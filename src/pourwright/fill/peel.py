"""How surely two layers hold, by the temperature at which they met: learned from peel tests."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import expit

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.field import flag, number
from pourwright.base.record import Record
from pourwright.base.source import estimate

PEEL_SOURCE = estimate(
    "half of the layers that met at 140 °C hold, give or take 12 K; nine in ten 4 to 20 K above"
)
# Prior of the temperature at which half hold, and of how fast that changes (a logistic's scale).
_HALF_C, _HALF_K = 140.0, 12.0
_SCALE_K, _SCALE_LOG = 4.0, 0.5
_SLIPS = 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class PeelTest(Record):
    """Two layers of the same plastic, pulled apart a day later."""

    join_c: float = number("Temperature at which they met", low=20, high=200)
    held: bool = flag("The plastic tore before the layers came apart")


@dataclass(frozen=True, slots=True, eq=False)
class Weld:
    """A grid of what may be true of this plastic, with how likely each is."""

    half_c: Array
    scale_k: Array
    likely: Array

    def holds(self, join_c: Array) -> Array:
        """Odds that layers hold, for each point of the grid and each temperature."""
        at = (join_c - self.half_c[:, None]) / self.scale_k[:, None]
        return np.asarray(_SLIPS + (1 - 2 * _SLIPS) * expit(at))

    def odds(self, join_c: Array) -> Band:
        """Odds over the grid and the draws of the temperature, the first of them the typical."""
        table = self.holds(join_c[1:])
        order = np.argsort(table, axis=None)
        weight = np.repeat(self.likely / table.shape[1], table.shape[1])[order]
        reached = np.cumsum(weight)
        low, high = (table.ravel()[order][np.searchsorted(reached, q)] for q in (0.05, 0.95))
        mean = float(self.likely @ table.mean(axis=1))
        return Band(min(float(low), mean), mean, max(float(high), mean))


def learned(tests: Sequence[PeelTest]) -> Weld:
    """What peel tests leave likely of a logistic curve; without any, the guess.

    A test in thirty is taken to slip, so that one odd pull does not settle the matter.
    """
    half, scale = (
        axis.ravel()
        for axis in np.meshgrid(
            _HALF_C + _HALF_K * np.linspace(-3.5, 3.5, 71),
            _SCALE_K * np.exp(_SCALE_LOG * np.linspace(-2.5, 2.5, 11)),
        )
    )
    log = -0.5 * ((half - _HALF_C) / _HALF_K) ** 2
    log = log - 0.5 * (np.log(scale / _SCALE_K) / _SCALE_LOG) ** 2
    guess = Weld(half, scale, np.ones_like(half))
    if tests:
        held = guess.holds(np.array([t.join_c for t in tests]))
        told = np.where([t.held for t in tests], held, 1 - held)
        log = log + np.log(told).sum(axis=1)
    likely = np.exp(log - log.max())
    return Weld(half, scale, likely / likely.sum())
