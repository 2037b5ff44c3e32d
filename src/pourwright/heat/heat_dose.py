"""The heat budget that a temperature history uses up."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from pourwright.base.draws import Array
from pourwright.matter.scorch import speed_up

# Over a rise of so many kelvin the rate is smooth enough for Simpson's rule.
_STRETCH_K = 4.0


def hold_seconds(seconds: float, temp_c: Array, activation_j_mol: Array) -> Array:
    """Seconds at 190 °C that do as much as some seconds at one temperature."""
    return np.asarray(seconds * speed_up(1 / (temp_c + 273.15), activation_j_mol))


def ramp_seconds(seconds: float, from_c: Array, to_c: Array, activation_j_mol: Array) -> Array:
    """The same for a temperature that moves evenly: Simpson's rule over short stretches."""
    rise = float(np.max(np.abs(to_c - from_c)))
    stretches = max(1, math.ceil(rise / _STRETCH_K))
    along = np.linspace(0.0, 1.0, 2 * stretches + 1)[:, None]
    rates = speed_up(1 / (from_c + along * (to_c - from_c) + 273.15), activation_j_mol)
    weights = np.full(2 * stretches + 1, 2.0)
    weights[1::2] = 4.0
    weights[0] = weights[-1] = 1.0
    return np.asarray(seconds * (weights @ rates) / (6 * stretches))


def history_seconds(
    times_s: Sequence[float], temps_c: Sequence[Array], activation_j_mol: Array
) -> Array:
    """The same for a log of times and temperatures, straight lines between; two points at least."""
    steps = zip(times_s[:-1], times_s[1:], temps_c[:-1], temps_c[1:], strict=True)
    parts = [ramp_seconds(b - a, low, high, activation_j_mol) for a, b, low, high in steps]
    return np.asarray(sum(parts))
