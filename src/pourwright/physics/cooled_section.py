"""Slabs and rods whose face is held at one temperature: middle and profile over time.

The face is all that the shapes of `physics.conduction` have besides: a film without resistance.
Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed., sec. 5.5 and 5.6;
Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed., sec. 3.3, 7.6.
"""

from __future__ import annotations

import functools
from collections.abc import Callable

import numpy as np
from scipy.special import j0, j1, jn_zeros

from pourwright.base.draws import Array
from pourwright.physics.conduction import Solid

HALVINGS = 40
# Until then the middle has lost less than 1e-11, and the cut series would ripple.
UNTOUCHED = 0.01
# Enough for a mean within 1e-3 from Fo = 1e-4 on.
_TERMS = 60


@functools.cache
def _series(solid: Solid) -> tuple[Array, Array]:
    """Roots, and weights at the middle."""
    if solid is Solid.SLAB:
        root = np.asarray((np.arange(_TERMS) + 0.5) * np.pi, dtype=np.float64)
        return root, np.asarray(2 * np.sin(root) / root)
    if solid is Solid.CYLINDER:
        root = np.asarray(jn_zeros(0, _TERMS), dtype=np.float64)
        return root, np.asarray(2 / (root * j1(root)))
    raise ValueError("only slabs and rods are cooled here")


def middle_left(solid: Solid, fourier: Array) -> Array:
    """Share of the starting excess over the face that the middle still has."""
    root, middle = _series(solid)
    left = np.exp(-np.multiply.outer(fourier, root**2)) @ middle
    return np.where(np.asarray(fourier) < UNTOUCHED, 1.0, left)


def profile_left(solid: Solid, fourier: Array, place: Array) -> Array:
    """Share of the starting excess at places 0 (middle) to 1 (face), shape (..., places)."""
    root, middle = _series(solid)
    at = np.multiply.outer(root, place)
    shape = np.cos(at) if solid is Solid.SLAB else j0(at)
    return np.asarray(np.exp(-np.multiply.outer(fourier, root**2)) @ (middle[:, None] * shape))


def middle_seconds(solid: Solid, *, thick_m: Array, alpha_m2_s: Array, left: Array) -> Array:
    """Seconds until the middle keeps the share `left`; infinite where it is to keep none.

    `thick_m` is the whole thickness or diameter.
    """
    rate = alpha_m2_s / (thick_m / 2) ** 2
    return _halved(left, lambda t: middle_left(solid, t * rate), solid, rate)


def bar_seconds(*, thick_m: Array, width_m: Array, alpha_m2_s: Array, left: Array) -> Array:
    """The same for a bar cooled at its narrow sides as well: the product of two slabs.

    Source: Carslaw and Jaeger, 2nd ed., sec. 1.15.
    """
    thin, wide = (alpha_m2_s / (size / 2) ** 2 for size in (thick_m, width_m))

    def kept(seconds: Array) -> Array:
        return middle_left(Solid.SLAB, seconds * thin) * middle_left(Solid.SLAB, seconds * wide)

    return _halved(left, kept, Solid.SLAB, thin)


def _halved(left: Array, kept: Callable[[Array], Array], solid: Solid, rate: Array) -> Array:
    """The time at which `kept` falls to `left`, from a time by which it surely has."""
    root, weight = _series(solid)
    some = np.clip(left, 1e-12, 1.0)
    low, high = np.zeros_like(rate), np.log(weight[0] ** 2 / some) / (root[0] ** 2 * rate)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        warm = kept(middle) > left
        low, high = np.where(warm, middle, low), np.where(warm, high, middle)
    return np.where(left <= 0, np.inf, (low + high) / 2)
