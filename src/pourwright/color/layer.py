"""One layer of colored plastic over a ground, as the eye meets it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import slab, two_flux
from pourwright.color.colorant import Stuff
from pourwright.color.face import PLASTIC_FACE
from pourwright.color.slab import Placing

# Flakes are met at four depths that split their cover, with their shares: Gauss and Legendre.
_NODES, _SHARES = np.polynomial.legendre.leggauss(4)
DEPTHS = tuple(zip((_NODES + 1) / 2, _SHARES / 2, strict=True))


@dataclass(frozen=True, slots=True)
class Sight:
    """Reflectance, mirror light left out, and transmittance: (draws, 31)."""

    reflectance: Array
    transmittance: Array


@dataclass(frozen=True, slots=True)
class Mixture:
    """Plastic with everything stirred in.

    Absorption and reduced scattering per mm, (draws, 31); area of flake faces in mm² to a mm³ of
    plastic, (draws,), and what they show, (draws, 31) or (1, 31).
    """

    absorb_mm: Array
    scatter_mm: Array
    faces_per_mm: Array
    faces_show: Array


def mixture(raw: tuple[Array, Array], stuffs: Sequence[Stuff]) -> Mixture:
    """Raw plastic, as absorption and scattering per mm, with what was stirred into it."""
    absorb = np.asarray(raw[0] + sum(s.absorb_mm for s in stuffs))
    scatter = np.asarray(raw[1] + sum(s.scatter_mm for s in stuffs))
    faces = sum((s.faces_per_mm for s in stuffs), np.zeros(len(absorb)))
    return Mixture(absorb, scatter, np.asarray(faces), _mean_face(stuffs))


def sight(mixed: Mixture, *, thick_mm: float, ground: Array | float, placing: Placing) -> Sight:
    """A layer over a diffuse ground of that reflectance, by radiative transfer.

    Flakes are diffuse grounds within the plastic, met from above as a Boolean model has them:
    unmet down to a depth z with the chance exp(-λz/2), λ their face area over the volume and the
    half Cauchy's mean shadow of a flat plate at random tilt. The plastic above a flake tints it.
    """

    def seen(depth_mm: Array | float, below: Array | float, how: Placing) -> Array:
        return slab.reflectance(
            mixed.absorb_mm * depth_mm, mixed.scatter_mm * depth_mm, np.asarray(below), how
        )

    bare = seen(thick_mm, ground, placing)
    through = slab.transmittance(mixed.absorb_mm * thick_mm, mixed.scatter_mm * thick_mm, placing)
    if not mixed.faces_per_mm.any():
        return Sight(bare, through)
    cover = -np.expm1(-mixed.faces_per_mm * thick_mm / 2)
    met = np.zeros_like(bare)
    for node, share in DEPTHS:
        depth = _depth(cover * node, mixed.faces_per_mm)[:, None]
        met += share * seen(depth, mixed.faces_show, placing.buried)
    left = (1 - cover)[:, None]
    return Sight(left * bare + (1 - left) * met, left * through)


def two_flux_sight(
    mixed: Mixture, *, thick_mm: float, ground: Array | float, placing: Placing
) -> Sight:
    """The same by Kubelka and Munk with Saunderson's faces: plainer, and less true.

    Flakes lie flat on top. Absorption is doubled and scattering cut to three quarters, as the
    diffuse limit asks (Mudgett and Richards, Appl. Opt. 10 (1971) 1485; from memory).
    """
    absorb, scatter = two_flux.from_transport(mixed.absorb_mm, mixed.scatter_mm)
    reflect, transmit = two_flux.layer(absorb, scatter, np.array(thick_mm))
    face = PLASTIC_FACE[placing.wet]
    below = np.asarray(0.0 if placing is Placing.HAND else ground)
    if not placing.touching:
        below = face.ground_under_gap(below)
    seen = face.seen(two_flux.over(reflect, transmit, below))
    left = np.exp(-mixed.faces_per_mm * thick_mm / 2)[:, None]
    return Sight(left * seen + (1 - left) * mixed.faces_show, left * transmit)


def _depth(cover: Array, faces_per_mm: Array) -> Array:
    return np.asarray(-2 * np.log1p(-cover) / np.maximum(faces_per_mm, 1e-12))


def _mean_face(stuffs: Sequence[Stuff]) -> Array:
    """What the flakes show on average, each by its face area."""
    flaked = [s for s in stuffs if s.faces_per_mm.any()]
    if not flaked:
        return np.zeros((1, 1))
    weights = np.stack([s.faces_per_mm for s in flaked])
    shows = np.stack([s.faces_show for s in flaked])
    return np.asarray((weights / weights.sum(axis=0)).T @ shows)
