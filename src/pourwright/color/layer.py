"""One layer of colored plastic over a ground, as the eye meets it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import two_flux
from pourwright.color.colorant import Stuff
from pourwright.color.face import PLASTIC_FACE


class Contact(StrEnum):
    """Whether the plastic touches its ground."""

    CONTACT = "contact"
    AIR_GAP = "air gap"


@dataclass(frozen=True, slots=True)
class Sight:
    """Reflectance, mirror light left out, and transmittance inside the faces: (draws, 31)."""

    reflectance: Array
    transmittance: Array


def sight(
    raw: tuple[Array, Array],
    stuffs: Sequence[Stuff],
    *,
    thick_mm: float,
    ground: float,
    contact: Contact,
) -> Sight:
    """A layer of raw plastic with what was stirred into it.

    `raw` is absorption and scattering per mm, (draws, 31). Flakes hide a share of the sight and
    are mixed in reflectance: a Boolean model, 1 - exp(-λ/2), with λ their face area over the area
    in sight and the half Cauchy's mean shadow of a flat plate at random tilt.
    """
    absorb = raw[0] + sum(s.absorb_mm for s in stuffs)
    scatter = raw[1] + sum(s.scatter_mm for s in stuffs)
    reflect, transmit = two_flux.layer(absorb, scatter, np.array(thick_mm))
    below = np.array(ground)
    if contact is Contact.AIR_GAP:
        below = PLASTIC_FACE.ground_under_air(below)
    seen = PLASTIC_FACE.seen(two_flux.over(reflect, transmit, below))
    faces = sum((s.faces_per_mm for s in stuffs), np.zeros(len(absorb))) * thick_mm
    left = np.exp(-faces / 2)[:, None]
    return Sight(left * seen + (1 - left) * _mean_face(stuffs), left * transmit)


def _mean_face(stuffs: Sequence[Stuff]) -> Array:
    """What the flakes show on average, each by its face area."""
    flaked = [s for s in stuffs if s.faces_per_mm.any()]
    if not flaked:
        return np.zeros(1)
    weights = np.stack([s.faces_per_mm for s in flaked])
    shows = np.stack([s.faces_show for s in flaked])
    return np.asarray((weights / weights.sum(axis=0)).T @ shows)
