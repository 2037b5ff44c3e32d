"""Conduction in slabs, cylinders and spheres: one-term answers and the exact centers."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from scipy.optimize import brentq
from scipy.special import j0, j1, jn_zeros

from pourwright.base.draws import Array


def wall_root(biot: float) -> float:
    """First root of z·tan z = Bi.

    Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.39c.

    >>> round(wall_root(1.0), 4)
    0.8603
    """
    return _root(lambda z: z * math.sin(z) - biot * math.cos(z), math.pi / 2)


def wall_weight(root: float) -> float:
    """First weight of a plane wall (same work, eq. 5.39b)."""
    return 4 * math.sin(root) / (2 * root + math.sin(2 * root))


def cylinder_root(biot: float) -> float:
    """First root of z·J1(z) = Bi·J0(z) (same work, eq. 5.47).

    >>> round(cylinder_root(1.0), 4)
    1.2558
    """
    return _root(lambda z: float(z * j1(z) - biot * j0(z)), 2.404825557695773)


def cylinder_weight(root: float) -> float:
    """First weight of a long cylinder."""
    return float(2 * j1(root) / (root * (j0(root) ** 2 + j1(root) ** 2)))


def sphere_root(biot: float) -> float:
    """First root of 1 - z·cot z = Bi (same work, eq. 5.48).

    >>> round(sphere_root(1.0), 4)
    1.5708
    """
    return _root(lambda z: (1 - biot) * math.sin(z) - z * math.cos(z), math.pi)


def sphere_weight(root: float) -> float:
    """First weight of a sphere."""
    return 4 * (math.sin(root) - root * math.cos(root)) / (2 * root - math.sin(2 * root))


def one_term_time(
    left: Array, root: Array, weight: Array, size_m: Array, alpha_m2_s: Array
) -> Array:
    """Seconds until the center keeps the share `left` of its excess temperature.

    `size_m` is the half thickness or the radius. Valid from Fo = 0.2 on.
    """
    return np.asarray(np.log(weight / left) / root**2 * size_m**2 / alpha_m2_s)


def slab_center(fourier: float, terms: int = 60) -> float:
    """Share of the excess left in the middle of a slab whose faces are held (exact series).

    Source: Carslaw and Jaeger, Conduction of Heat in Solids, sec. 3.4.
    """
    k = np.arange(terms)
    weights = 4 / math.pi * (-1.0) ** k / (2 * k + 1)
    return float(np.sum(weights * np.exp(-(((k + 0.5) * math.pi) ** 2) * fourier)))


def cylinder_center(fourier: float, terms: int = 60) -> float:
    """Share of the excess left on the axis of a cylinder whose face is held (exact series)."""
    z = jn_zeros(0, terms)
    return float(np.sum(2 / (z * j1(z)) * np.exp(-(z**2) * fourier)))


def semi_infinite_share(depth_m: float, alpha_m2_s: float, time_s: float) -> float:
    """Share of the start-to-face step still left at a depth: erf(x / (2·√(α·t))).

    Source: Incropera and DeWitt, 6th ed., eq. 5.57.
    """
    return math.erf(depth_m / (2 * math.sqrt(alpha_m2_s * time_s)))


def contact_c(hot_c: float, hot_effusivity: float, cold_c: float, cold_effusivity: float) -> float:
    """Temperature at the touch of two thick bodies (same work, eq. 5.63)."""
    return (hot_effusivity * hot_c + cold_effusivity * cold_c) / (hot_effusivity + cold_effusivity)


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


def _root(f: Callable[[float], float], high: float) -> float:
    return float(brentq(f, 1e-9, high - 1e-12, xtol=1e-13))
