"""Light in a plane slab between smooth faces, by adding and doubling.

Light falls in straight on and all that comes back is collected, mirror light left out. Every
function works on a batch of slabs at once.

Sources: van de Hulst, A New Look at an Old Theory (1963 report) for doubling; Prahl, van Gemert
and Welch, Appl. Opt. 32 (1993) 559 for faces of another index; Henyey and Greenstein, Astrophys.
J. 93 (1941) 70 for the scattered lobe; Wiscombe, J. Atmos. Sci. 34 (1977) 1408 for cutting off
its peak (all from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_THINNEST = 2e-4
_MOMENTS = 12


@dataclass(frozen=True, slots=True)
class Angles:
    """Cosines inside the slab with their weights; the last is straight on.

    `turned` is the share of light that the outer face turns back at each, `entering` the radiance
    of diffuse light, at unit flux, that has come in through it, `straight` the face's share
    turned back straight on.
    """

    mu: Array
    weight: Array
    turned: Array
    entering: Array
    straight: float

    @property
    def flux(self) -> Array:
        """What turns a radiance at each angle into a flux."""
        return 2 * self.mu * self.weight


def angles(index: float, *, steep: int = 10, shallow: int = 8) -> Angles:
    """A quadrature for a slab of that index against its outside, index above 1.

    Angles that can leave are placed by the cosine outside, where Fresnel's share is smooth; the
    totally reflected rest by Gauss-Legendre.
    """
    outside, outside_weight = _radau(steep)
    inside = np.sqrt(1 - (1 - outside**2) / index**2)
    critical = np.sqrt(1 - 1 / index**2)
    flat, flat_weight = np.polynomial.legendre.leggauss(shallow)
    turned = 0.5 * (
        ((index * inside - outside) / (index * inside + outside)) ** 2
        + ((inside - index * outside) / (inside + index * outside)) ** 2
    )
    return Angles(
        np.concatenate([critical * (flat + 1) / 2, inside]),
        np.concatenate(
            [critical * flat_weight / 2, outside_weight * outside / (index**2 * inside)]
        ),
        np.concatenate([np.ones(shallow), turned]),
        np.concatenate([np.zeros(shallow), index**2 * (1 - turned)]),
        ((index - 1) / (index + 1)) ** 2,
    )


def _radau(n: int) -> tuple[Array, Array]:
    """Gauss-Radau on (0, 1], 1 included.

    Source: Abramowitz and Stegun, Handbook (1964), 25.4.31, turned around.
    """
    p = np.polynomial.legendre.Legendre
    poly = (p.basis(n - 1) + p.basis(n)) // p([1, 1])
    x = np.sort(np.concatenate([[-1.0], poly.roots().real]))
    weight = (1 - x) / (n * p.basis(n - 1)(x)) ** 2
    return (1 - x[::-1]) / 2, weight[::-1] / 2


def slab(absorb: Array, scatter: Array, at: Angles, forward: float) -> tuple[Array, Array]:
    """Radiance operators of bare slabs, (batch, angles, angles): turned back, and let through.

    `absorb` and `scatter` are optical thicknesses, (batch,), scattering reduced: what an even
    scatterer of that strength does in depth; `forward` is the mean cosine of a single scattering,
    0 to 0.95. Thin start by the diamond rule (Wiscombe, J. Quant. Spectrosc. Radiat. Transf. 16
    (1976) 637, from memory), then doubled.
    """
    peak = forward**_MOMENTS
    scattered = scatter / (1 - forward) * (1 - peak)
    whole = absorb + scattered
    doublings = np.maximum(np.ceil(np.log2(np.maximum(whole, _THINNEST) / _THINNEST)), 0).astype(
        int
    )
    one = np.eye(len(at.mu))
    step = (whole / 2.0**doublings / 2)[:, None, None]
    share = (scattered / whole)[:, None, None]
    ahead, behind = _lobe(at, forward, peak)
    lost = step * (one - share * ahead) / at.mu[:, None]
    gained = step * share * behind / at.mu[:, None]
    outer = np.linalg.inv(one + lost)
    inner = np.linalg.inv(one + lost - gained @ outer @ gained)
    back, through = 2 * inner @ gained @ outer, 2 * inner - one
    for n in range(int(doublings.max(initial=0))):
        more = doublings > n
        r, t = back[more], through[more]
        between = t @ np.linalg.inv(one - r @ r)
        back[more], through[more] = r + between @ r @ t, between @ t
    return back, through


def _lobe(at: Angles, forward: float, peak: float) -> tuple[Array, Array]:
    """Share of light scattered from each angle into each, onward and back, weights included.

    The sum over all directions is held to one, so that no light is made or lost.
    """
    order = np.arange(_MOMENTS)
    legendre = np.polynomial.legendre.legvander(at.mu, _MOMENTS - 1)
    moments = (2 * order + 1) * (forward**order - peak) / (1 - peak) / 2
    ahead = (legendre * moments) @ legendre.T * at.weight
    behind = (legendre * moments * (-1.0) ** order) @ legendre.T * at.weight
    missing = 1 - ahead.sum(axis=1) - behind.sum(axis=1)
    return ahead + np.diag(missing), behind


def touching(absorb: Array, scatter: Array, at: Angles, forward: float) -> Array:
    """Slabs whose lower side touches a diffuse ground: four numbers each, shape (batch, 4).

    Sent back over black; light reaching the ground; share of light from the ground that leaves;
    share of it that comes back down. Over a ground g: first + second·third·g/(1 - fourth·g).
    """
    back, through = slab(absorb, scatter, at, forward)
    beam = np.zeros(len(at.mu))
    beam[-1] = (1 - at.straight) / at.flux[-1]
    up = _under_face(back, at, back @ beam)
    rise = _under_face(back, at, through @ np.ones(len(at.mu)))
    leaves = (1 - at.turned) * at.flux
    down = np.einsum("bij,bj->bi", through, beam + at.turned * up)
    fall = back @ np.ones(len(at.mu)) + np.einsum("bij,bj->bi", through, at.turned * rise)
    return np.stack([up @ leaves, down @ at.flux, rise @ leaves, fall @ at.flux], axis=1)


def _under_face(back: Array, at: Angles, source: Array) -> Array:
    """Upward radiance below the upper face, once light has gone back and forth beneath it."""
    met = np.linalg.solve(np.eye(len(at.mu)) - back * at.turned, source[..., None])
    return np.asarray(met[..., 0])


def lying(absorb: Array, scatter: Array, at: Angles, forward: float) -> Array:
    """Slabs with the same outside on both sides, in the same four numbers as `touching`.

    Here the second is what leaves below, and the ground beneath is lit and seen across the gap.
    """
    back, through = slab(absorb, scatter, at, forward)
    beam = np.zeros(len(at.mu))
    beam[-1] = (1 - at.straight) / at.flux[-1]
    leaves = (1 - at.turned) * at.flux
    near, far = _both_faces(back, through, at, beam)
    far_side, near_side = _both_faces(back, through, at, at.entering)
    outer = 1 - float(at.entering @ at.flux)
    return np.stack(
        [near @ leaves, far @ leaves, near_side @ leaves, outer + far_side @ leaves], axis=1
    )


def _both_faces(back: Array, through: Array, at: Angles, entering: Array) -> tuple[Array, Array]:
    """Radiance arriving at the face it came in by, and at the other one."""
    n = len(at.mu)
    turned = at.turned
    whole = np.zeros((len(back), 2 * n, 2 * n))
    whole[:, :n, :n] = whole[:, n:, n:] = np.eye(n) - back * turned
    whole[:, :n, n:] = whole[:, n:, :n] = -through * turned
    source = np.concatenate([back @ entering, through @ entering], axis=1)
    found = np.linalg.solve(whole, source[..., None])[..., 0]
    return found[:, :n], found[:, n:]
