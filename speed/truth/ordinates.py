"""The directions light is followed in inside a plastic of a given index, and what its faces do."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np
from scipy.special import eval_legendre, roots_jacobi, roots_legendre

from pourwright.base.draws import Array

TRAPPED = 6
ESCAPING = 8
MOMENTS = 12


@dataclass(frozen=True, slots=True)
class Face:
    """One face of the slab for light on the discrete directions.

    `inside` is the mirror seen from within; `leave` and `enter` join the directions to a diffuse
    flux outside; `outside` is the share of such a flux that the face sends back.
    """

    inside: Array
    leave: Array
    enter: Array
    outside: float


@dataclass(frozen=True, slots=True)
class Ordinates:
    """Cosines within the plastic, the flux each carries, and orthonormal polynomials on them.

    The last direction is straight in (cosine 1). `even` and `odd` hold one outer product a
    moment of the phase function, on square-root-of-weight scale.
    """

    cosine: Array
    flux: Array
    even: Array
    odd: Array
    air: Face
    bonded: Face
    beam: float


def fresnel(cosine: Array, index: float) -> Array:
    """Share of unpolarised light turned back at a face from a medium to air, from inside.

    `index` is that of the medium over that of the air; 1 beyond the critical angle.

    >>> fresnel(np.array([1.0, 0.5]), 1.5).round(4).tolist()
    [0.04, 1.0]
    """
    out = np.sqrt(np.maximum(1 - index**2 * (1 - cosine**2), 0))
    across = (index * cosine - out) / (index * cosine + out)
    along = (cosine - index * out) / (cosine + index * out)
    return np.asarray((across**2 + along**2) / 2)


@functools.cache
def ordinates(
    index: float,
    trapped: int = TRAPPED,
    escaping: int = ESCAPING,
    moments: int = MOMENTS,
) -> Ordinates:
    """Directions for a plastic of index 1 to 2, more of them for a check on convergence.

    Two panels meet at the critical angle, where the faces have a square root in them.
    """
    cosine, weight = _directions(index, trapped, escaping)
    flux = np.sqrt(2 * cosine * weight)
    inside = fresnel(cosine, index)
    leave = (1 - inside) * flux
    enter = index**2 * leave
    beam = float((1 - inside[-1]) / flux[-1])
    return Ordinates(
        cosine,
        flux,
        _products(cosine, weight, range(0, moments, 2)),
        _products(cosine, weight, range(1, moments, 2)),
        Face(inside, leave, enter, float(1 - enter @ flux)),
        Face(0 * inside, flux, flux, 0.0),
        beam,
    )


def _directions(index: float, trapped: int, escaping: int) -> tuple[Array, Array]:
    if index == 1:
        return _radau(trapped + escaping)
    critical = float(np.sqrt(1 - 1 / index**2))
    x, wx = _radau(escaping)
    y, wy = roots_legendre(trapped)
    low, low_weight = critical * (1 + y) / 2, critical * wy / 2
    high, high_weight = critical + (1 - critical) * x**2, 2 * (1 - critical) * x * wx
    return np.concatenate([low, high]), np.concatenate([low_weight, high_weight])


def _radau(count: int) -> tuple[Array, Array]:
    """Gauss and Radau's rule on 0 to 1 with a node at 1."""
    x, w = roots_jacobi(count - 1, 1, 0)
    nodes, weights = np.append(x, 1.0), np.append(w / (1 - x), 2 / count**2)
    return (1 + nodes) / 2, weights / 2


def _products(cosine: Array, weight: Array, degrees: range) -> Array:
    # Legendre polynomials made orthonormal on the nodes themselves: energy is then kept to
    # rounding, and the first odd moment, on which thick layers hang, is exact.
    columns = np.sqrt(weight)[:, None] * np.stack(
        [eval_legendre(degree, cosine) for degree in degrees], axis=1
    )
    basis = np.linalg.qr(columns)[0].T
    return np.asarray(basis[:, :, None] * basis[:, None, :])
