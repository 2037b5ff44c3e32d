"""Gelling in two paces and fusing by an order of one and a half."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speed.kitchen.draws import Array
from speed.kitchen.plastic import ZERO_C_IN_K, Plastic

PACE = 2.0
"""The quick part gels this much faster than the mean pace, the slow part this much slower."""


@dataclass(frozen=True, slots=True, eq=False)
class Ripeness:
    """Shares from 0 to 1 in every plastic cell, shape (rows, rings, n)."""

    quick: Array
    slow: Array
    fused: Array


def gelled(plastic: Plastic, ripeness: Ripeness) -> Array:
    """The share gelled, both paces together."""
    return ripeness.slow + plastic.gel_quick_share * (ripeness.quick - ripeness.slow)


def ripened(plastic: Plastic, ripeness: Ripeness, temp_c: Array, seconds: Array) -> Ripeness:
    """After that long at a temperature that stays; exact for each of the two laws by itself.

    What has gelled but not fused shrinks by the power 1.5 of itself.
    """
    cold = 1 / (temp_c + ZERO_C_IN_K)
    gel_rate = plastic.gel_per_s * np.exp(plastic.gel_energy_k * (1 / plastic.gel_at_k - cold))
    raw_slow = np.exp(-gel_rate * (seconds / PACE))
    twice = raw_slow * raw_slow
    quick = 1 - (1 - ripeness.quick) * twice * twice
    slow = 1 - (1 - ripeness.slow) * raw_slow
    gel = slow + plastic.gel_quick_share * (quick - slow)
    fuse_rate = plastic.fuse_per_s * np.exp(plastic.fuse_energy_k * (1 / plastic.fuse_at_k - cold))
    left = np.maximum(gel - ripeness.fused, 0)
    brake = 1 + fuse_rate * (seconds / 2) * np.sqrt(left)
    return Ripeness(quick, slow, gel - left / (brake * brake))
