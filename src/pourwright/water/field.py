"""The light at a depth: what falls on a bait, and what an eye sees behind it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.source import estimate
from pourwright.matter.property import Property
from pourwright.water import decay, spread
from pourwright.water.daylight import OVERCAST, SURFACE_POWER, Daylight
from pourwright.water.medium import Medium

SIDEWAYS = Property(
    "how bright the water is seen sideways, over the light it sends up (1/sr)",
    Band(0.6, 1.05, 1.6),
    estimate("Tyler's lake tables (1958): 1.0 to 1.2 all around, 0.5 off the sun, 1.6 toward it"),
    logarithmic=True,
)
FACE_FACTOR = Property(
    "light on an upright face, over the calculated",
    Band(0.8, 1.0, 1.3),
    estimate("all around within 5 % in Tyler's lake; more on the side of the sun"),
    logarithmic=True,
)
# Radiance from straight below over that of even upwelling light: 0.49 to 0.62 in Tyler's lake.
_FROM_BELOW = 0.6
# A band never quite reaches zero, so that ratios of what is left can still be told.
_DARKEST = 600.0


@dataclass(frozen=True, slots=True)
class LightField:
    """Light at one depth by band, relative to daylight on the surface, which is 1 at 560 nm.

    Irradiances `down`, `up` and `face` (an upright face, all around); radiances `level`, `above`
    and `below` (what an eye sees that looks level, straight up and straight down), 1/sr. A white
    face under irradiance E has the radiance E / pi. `power` is the cosine's, by which radiance
    from above grows toward straight up. The last axis holds the 31 bands.
    """

    down: Array
    up: Array
    face: Array
    level: Array
    above: Array
    below: Array
    power: Array
    reflectance: Array
    decay_per_m: Array
    medium: Medium

    def seen(self, sine: float) -> Array:
        """Radiance of the water; `sine` is of the angle the eye looks up, -1 to 1."""
        if sine >= 0:
            rise = sine ** np.maximum(self.power, 1.0)
            return np.asarray(self.level + (self.above - self.level) * rise)
        return np.asarray(self.level + (self.level - self.below) * sine)

    def falls_on(self, sine: float) -> Array:
        """Irradiance on a face; `sine` is of the angle its outward normal points up, -1 to 1."""
        end = self.down if sine >= 0 else self.up
        return np.asarray(self.face + (end - self.face) * abs(sine))

    def is_held(self) -> Array:
        """Whether a band's light is held at the evenest, by draw."""
        evenest = self.level >= _evenest(self.down, self.up)
        return np.asarray((evenest | (self.power <= 0)).any(axis=-1))


def _evenest(down: Array, up: Array) -> Array:
    return np.asarray((down + up) / (2 * np.pi))


@dataclass(frozen=True, slots=True)
class Guesses:
    """The two loose factors of the field, each of the shape of the draws."""

    sideways: Array
    face: Array


TYPICAL_GUESSES = Guesses(np.asarray(SIDEWAYS.typical), np.asarray(FACE_FACTOR.typical))


def drawn_guesses(draws: Draws) -> Guesses:
    """Draws of both."""
    return Guesses(SIDEWAYS.drawn(draws), FACE_FACTOR.drawn(draws))


def light_field(
    medium: Medium,
    *,
    depth_m: float,
    light: Daylight = OVERCAST,
    guesses: Guesses = TYPICAL_GUESSES,
) -> LightField:
    """The light in a water at a depth, 0 to 100 m; bottom, shade and waves are left out.

    Seen sideways the water is never brighter than where light has scattered so often that its
    radiance runs straight with the cosine: the mean of down and up over pi.
    Source: Kirk (1984) for decay and reflectance, `spread` for directions.
    """
    fall = decay.down_decay_per_m(medium, light.cosine)
    share_up = decay.reflectance(medium, light.cosine)
    power = spread.power_of(spread.way_longer(medium.absorb_per_m, fall, share_up))
    down = SURFACE_POWER * light.entered * np.exp(-np.minimum(fall * depth_m, _DARKEST))
    up = share_up * down
    return LightField(
        down=down,
        up=up,
        face=(down * spread.on_upright(power) + up / 2) * guesses.face[..., None],
        level=np.minimum(up * guesses.sideways[..., None], _evenest(down, up)),
        above=down * spread.from_above(power),
        below=_FROM_BELOW * up / np.pi,
        power=power,
        reflectance=share_up,
        decay_per_m=fall,
        medium=medium,
    )
