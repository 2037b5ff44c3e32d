"""A round body along x with domed ends, perhaps with rings and an egg-sac band."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.body.loft import Solid, domed, stations, straight
from pourwright.body.part.ring import Rings
from pourwright.body.part.usual import or_usual

POINTS = 40
# How much of a band's half length its slopes take.
SLOPE = 0.3
# The usual egg-sac band in shares of the body's thickness, and where along the length it lies;
# a shape of our own.
SAC_THICK, SAC_LONG, SAC_AT, SAC_MOST = 1.07, 1.3, 0.29, 0.1


@dataclass(frozen=True, slots=True)
class Sac:
    """The egg-sac band: a smooth collar between two places, of its own thickness."""

    first_mm: float
    last_mm: float
    thick_mm: float

    def stations(self) -> Array:
        """Places along x that show the band."""
        rise = SLOPE * (self.last_mm - self.first_mm) / 2 * np.linspace(0, 1, 5)
        return np.concatenate([self.first_mm + rise, self.last_mm - rise])

    def over(self, x: Array, thick: Array) -> Array:
        """Thickness with the band laid over it."""
        slope = SLOPE * (self.last_mm - self.first_mm) / 2
        inward = np.minimum(x - self.first_mm, self.last_mm - x)
        share = np.sin(np.pi / 2 * np.clip(inward / slope, 0, 1)) ** 2
        return np.asarray(thick + (self.thick_mm - thick) * share)

    def clears(self, rings: Rings) -> Rings:
        """The rings that leave the band smooth."""
        reach = rings.reach_mm
        beside = (rings.middles_mm + reach <= self.first_mm) | (
            rings.middles_mm - reach >= self.last_mm
        )
        return Rings(rings.middles_mm[beside], reach, rings.depth_share)


def sac(thick_mm: float | None, length_mm: float, body_mm: float) -> Sac | None:
    """The band of a worm: measured, usual where left out, or none at 0."""
    thick = or_usual(thick_mm, SAC_THICK * body_mm)
    half = min(SAC_LONG * body_mm, SAC_MOST * length_mm) / 2
    middle = SAC_AT * length_mm
    return Sac(middle - half, middle + half, thick) if thick else None


def refuse_odd_sac(thick_mm: float | None, body_mm: float) -> None:
    """Refuse a band thinner than the body, or a bulb.

    Raises: BadInput naming `sac_mm`.
    """
    if thick_mm and not body_mm <= thick_mm <= 1.5 * body_mm:
        why = "must lie between the body's thickness and 1.5 times that, or be 0"
        raise BadInput("sac_mm", thick_mm, why)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """What a rod is made of; `thick` gives its thickness along x before domes and details."""

    length_mm: float
    domes_mm: tuple[float, float]
    thick: Callable[[Array], Array]
    bends_mm: tuple[float, ...] = ()
    rings: Rings
    sac: Sac | None = None

    def solid(self) -> Solid:
        """The closed rod."""
        rings = self.sac.clears(self.rings) if self.sac else self.rings
        x = self._stations(rings)
        thick = self.thick(x) * rings.left(x)
        if self.sac:
            thick = self.sac.over(x, thick)
        half = thick / 2 * domed(x, self.length_mm, *self.domes_mm)
        return straight(x, half, half, points=POINTS)

    def _stations(self, rings: Rings) -> Array:
        plain = stations(self.length_mm, *self.domes_mm, middle=33, dome=32)
        band = self.sac.stations() if self.sac else np.zeros(0)
        x = np.concatenate([rings.among(plain), band, self.bends_mm])
        inside = x[(x >= 0) & (x <= self.length_mm)]
        return np.unique(np.round(inside, 6))
