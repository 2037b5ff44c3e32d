"""Daylight at the surface, and how it goes in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.matter.water import REFRACTIVE_INDEX
from pourwright.spectrum.lamp import daylight_power

SURFACE_POWER = daylight_power(6504) / 100
"""Relative power by band of the light that falls on the water: CIE D65, 1 at 560 nm."""
SURFACE_POWER.setflags(write=False)

# Mean cosine under water, and share mirrored off, of an even sky: Kirk, Light and Photosynthesis
# in Aquatic Ecosystems; from memory.
_EVEN_COSINE, _EVEN_MIRRORED = 0.86, 0.066


class Sky(StrEnum):
    """What lights the water."""

    SUN = "sun"
    OVERCAST = "overcast"


@dataclass(frozen=True, slots=True)
class Daylight:
    """Light just under the surface: mean cosine of its way down, and the share that went in."""

    cosine: float
    entered: float


OVERCAST = Daylight(_EVEN_COSINE, 1 - _EVEN_MIRRORED)


def daylight(sky: Sky, sun_deg: float) -> Daylight:
    """The light under a flat surface; `sun_deg` is the sun's height, over 0 to 90.

    The blue of a clear sky, waves and the red of a low sun are left out.
    """
    return OVERCAST if sky is Sky.OVERCAST else sunlight(sun_deg)


def sunlight(sun_deg: float) -> Daylight:
    """The sun's beam bent and mirrored by a flat surface (Snell and Fresnel).

    >>> sunlight(90.0).cosine, round(sunlight(90.0).entered, 4)
    (1.0, 0.9796)
    """
    down = np.sin(np.radians(sun_deg))
    bent = np.sqrt(1 - (1 - down**2) / REFRACTIVE_INDEX**2)
    across = (down - REFRACTIVE_INDEX * bent) / (down + REFRACTIVE_INDEX * bent)
    along = (REFRACTIVE_INDEX * down - bent) / (REFRACTIVE_INDEX * down + bent)
    return Daylight(float(bent), float(1 - (across**2 + along**2) / 2))
