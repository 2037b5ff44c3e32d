"""What a puck should read, and how that moves with each constant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import slab
from pourwright.color.fit.reading import Puck, Reading
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import WEIGHTS, Light, white_xyz

_NUDGE = 0.03
_WEIGHTS = WEIGHTS[Light.D65]
_DARKEST = 1e-4


@dataclass(frozen=True, slots=True)
class State:
    """Natural logarithms of absorption and scattering: (1 + colorants, 31), the plastic first."""

    absorb: Array
    scatter: Array


@dataclass(frozen=True, slots=True)
class Shown:
    """Reflectance of one reading and its slopes by the logarithms of the whole layer's sums."""

    reflectance: Array
    by_absorb: Array
    by_scatter: Array


def sums(state: State, puck: Puck) -> tuple[Array, Array]:
    """Absorption and scattering per mm of a puck, (1 + doses, 31) each, plastic first."""
    rows = [0, *(1 + j for j, _, _ in puck.doses)]
    grams = np.array([1.0, *(g for _, g, _ in puck.doses)])[:, None]
    return grams * np.exp(state.absorb[rows]), grams * np.exp(state.scatter[rows])


def shown(absorb: Array, scatter: Array, reading: Reading) -> Shown:
    """Reflectance over the reading's ground of optical thicknesses (31,)."""
    a = np.stack([absorb, absorb * np.exp(_NUDGE), absorb])
    s = np.stack([scatter, scatter, scatter * np.exp(_NUDGE)])
    r = slab.reflectance(a, s, reading.ground, reading.placing)
    return Shown(r[0], (r[1] - r[0]) / _NUDGE, (r[2] - r[0]) / _NUDGE)


def as_read(reading: Reading, reflectance: Array) -> Array:
    """Reflectances in the instrument's numbers, (..., 31) or (..., 3)."""
    if reading.spectral:
        return reflectance
    return lab_of(reflectance @ _WEIGHTS, white_xyz())


def slope_as_read(reading: Reading, reflectance: Array) -> Array:
    """How the instrument's numbers move with reflectance, (numbers, 31)."""
    if reading.spectral:
        return np.eye(len(reflectance))
    xyz, white = reflectance @ _WEIGHTS, white_xyz()
    step = 1e-4 * white
    base = lab_of(xyz, white)
    by_xyz = np.stack(
        [(lab_of(xyz + step * axis, white) - base) / step[i] for i, axis in enumerate(np.eye(3))],
        axis=1,
    )
    return np.asarray(by_xyz @ _WEIGHTS.T)


def deviations(reading: Reading) -> Array:
    """One deviation of each of the instrument's numbers, shared gain left out."""
    noise = reading.noise
    if not reading.spectral:
        return np.full(3, noise.each)
    return np.asarray(np.hypot(noise.each, 0.01 * reading.values))


def all_readings(pucks: Sequence[Puck]) -> list[tuple[Puck, Reading]]:
    """Every reading with its puck."""
    return [(puck, reading) for puck in pucks for reading in puck.readings]
