"""The light a bait is seen in, and the water behind it and before it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import BANDS, EYE
from pourwright.water.daylight import SURFACE_POWER
from pourwright.water.field import LightField

GRAY_SHARE = 0.2
# Daylight under a gray sky at noon; common practice, no source.
OVERCAST_LX = 10_000.0
# In less light than this an eye tells nothing by its cones; estimate.
LEAST_LX = 0.01
# In less than this cones tire, and colors with them; from memory.
DIM_LX = 1.0


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a perfect white sends in the bait's place, and what the water behind sends.

    Power on the 31 bands, both in one unit. `kept` is the share of light that the water between
    bait and eye leaves; the rest it fills up with its own. `light_lx` is the light on an upright
    face there, under a gray sky at noon; none where it is not known.
    """

    white: Array
    water: Array
    kept: Array
    light_lx: float | None = None

    def light_of(self, sends: Array, lets: Array) -> Array:
        """What an eye gets of a bait, by the shares it sends back and lets through.

        Source: Duntley, J. Opt. Soc. Am. 53 (1963) 214: a level look through even water.
        """
        there = sends * self.white + lets * self.water
        return np.asarray(there * self.kept + self.water * (1 - self.kept))


def in_air(light: Array | None, background: Array | None) -> Surroundings:
    """Close by, in a light and before a share of its white; daylight and gray where left out."""
    white = SURFACE_POWER if light is None else light
    share = np.full(BANDS, GRAY_SHARE) if background is None else background
    return Surroundings(white, share * white, np.ones(BANDS))


def under_water(field: LightField, *, away_m: float) -> Surroundings:
    """In a water, looked at on the level from a distance."""
    kept = np.exp(-field.medium.beam_per_m * away_m)
    return Surroundings(field.face / np.pi, field.level, kept, light_lx(field))


def light_lx(field: LightField) -> float:
    """Light on an upright face, under a gray sky at noon: that of the first draw."""
    bright = EYE[:, 1]
    face = np.atleast_2d(field.face)[0]
    return float(OVERCAST_LX * (face @ bright) / (SURFACE_POWER @ bright))
