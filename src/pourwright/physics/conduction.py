"""Conduction in slabs, cylinders and spheres cooled through a film: exact series and inverse.

Notation of the sources: Bi = h·size/k and Fo = α·t/size², where size is the half thickness of a
slab cooled on both faces, or the radius.
Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed., sec. 5.5 and 5.6;
Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed.
"""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np
from scipy.special import j0, j1, jn_zeros

from pourwright.base.draws import Array

HALVINGS = 60


class Solid(StrEnum):
    """The three shapes that have a series of their own."""

    SLAB = "slab"
    CYLINDER = "cylinder"
    SPHERE = "sphere"


def roots(solid: Solid, biot: Array | float, terms: int = 1) -> Array:
    """First roots z of z·tan z = Bi, z·J1(z) = Bi·J0(z) or 1 - z·cot z = Bi.

    Shape (terms, ...) with the shape of `biot`, which must be positive.
    Source: Incropera and DeWitt, eqs. 5.39c, 5.47c and 5.48c.

    >>> roots(Solid.SLAB, 1.0).round(4).item(), roots(Solid.CYLINDER, 1.0).round(4).item()
    (0.8603, 1.2558)
    """
    bi = np.asarray(biot, dtype=float)
    low, high = (e.reshape(-1, *[1] * bi.ndim) + 0 * bi for e in _brackets(solid, terms))
    sign = ((-1.0) ** np.arange(terms)).reshape(-1, *[1] * bi.ndim)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        below = _condition(solid, middle, bi) * sign < 0
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.asarray((low + high) / 2)


def weights(solid: Solid, root: Array) -> Array:
    """Weights of the series at the center (same work, eqs. 5.39b, 5.47b and 5.48b)."""
    match solid:
        case Solid.SLAB:
            return np.asarray(4 * np.sin(root) / (2 * root + np.sin(2 * root)))
        case Solid.CYLINDER:
            return np.asarray(2 * j1(root) / (root * (j0(root) ** 2 + j1(root) ** 2)))
        case Solid.SPHERE:
            turned = np.sin(root) - root * np.cos(root)
            return np.asarray(4 * turned / (2 * root - np.sin(2 * root)))


def center_left(fourier: Array | float, root: Array, weight: Array) -> Array:
    """Share of the starting excess that the center still has: the sum of the series."""
    return np.asarray(np.sum(weight * np.exp(-(root**2) * np.asarray(fourier)), axis=0))


def center_fourier(left: Array, root: Array, weight: Array) -> Array:
    """Fo at which the center keeps the share `left`, 0 < left < 1.

    The first term alone is right from Fo = 0.2 on and late before that, since the weights
    alternate; the whole series is halved down from that guess.
    """
    low, high = np.zeros_like(left), np.log(weight[0] / left) / root[0] ** 2
    for _ in range(30):
        middle = (low + high) / 2
        warm = center_left(middle, root, weight) > left
        low, high = np.where(warm, middle, low), np.where(warm, high, middle)
    return np.asarray((low + high) / 2)


def semi_infinite_left(depth_m: float, alpha_m2_s: float, time_s: float) -> float:
    """Share of the start-to-face step still left at a depth: erf(x / (2·√(α·t))).

    Source: Incropera and DeWitt, 6th ed., eq. 5.57.
    """
    return math.erf(depth_m / (2 * math.sqrt(alpha_m2_s * time_s)))


def contact_c(
    hot_c: Array | float,
    hot_effusivity: Array | float,
    cold_c: Array | float,
    cold_effusivity: Array | float,
) -> Array:
    """Temperature at the touch of two thick bodies (same work, eq. 5.63)."""
    hot, cold = np.asarray(hot_effusivity), np.asarray(cold_effusivity)
    return np.asarray((hot * hot_c + cold * cold_c) / (hot + cold))


def lumped_time(
    *,
    density_kg_m3: float,
    heat_capacity_j_kgk: float,
    volume_per_area_m: float,
    film_w_m2k: float,
    left: float,
) -> float:
    """Seconds until a body of one temperature keeps the share `left` of its excess.

    Source: Incropera and DeWitt, 6th ed., eq. 5.5.
    """
    return density_kg_m3 * heat_capacity_j_kgk * volume_per_area_m / film_w_m2k * math.log(1 / left)


def _brackets(solid: Solid, terms: int) -> tuple[Array, Array]:
    n = np.arange(terms, dtype=np.float64)
    match solid:
        case Solid.SLAB:
            return n * np.pi, (n + 0.5) * np.pi
        case Solid.CYLINDER:
            return np.concatenate([[0.0], jn_zeros(1, terms)[:-1]]), np.asarray(jn_zeros(0, terms))
        case Solid.SPHERE:
            return n * np.pi, (n + 1) * np.pi


def _condition(solid: Solid, z: Array, biot: Array) -> Array:
    """The root condition without poles; its sign at the low end of bracket n is -(-1)^n."""
    match solid:
        case Solid.SLAB:
            return np.asarray(z * np.sin(z) - biot * np.cos(z))
        case Solid.CYLINDER:
            return np.asarray(z * j1(z) - biot * j0(z))
        case Solid.SPHERE:
            return np.asarray((1 - biot) * np.sin(z) - z * np.cos(z))
