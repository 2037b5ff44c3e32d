"""How deep a white disk stays in sight."""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate, memory
from pourwright.matter.property import Property
from pourwright.spectrum.light import WAVELENGTHS_NM, WEIGHTS, Light
from pourwright.water.decay import down_decay_per_m
from pourwright.water.medium import Medium

LEE_SOURCE = memory("Lee et al., Remote Sens. Environ. 169 (2015) 139: ln(|0.14 - Rrs|/0.013)/2.5K")
TYLER_SOURCE = memory("Tyler, Limnol. Oceanogr. 13 (1968) 1: 8.69 / (c + K)")
MISS = Property(
    "what the disk's depth tells of the water",
    Band(1 / 1.5, 1.0, 1.5),
    estimate("two published formulas differ by up to 1.7; eyes, waves and glare by as much"),
    logarithmic=True,
)
# What 0.14 - Rrs comes to in the whitest water there can be: the disk never pales further.
_PALEST = 0.035
_LEE_BANDS = (WAVELENGTHS_NM >= 410) & (WAVELENGTHS_NM <= 665)
_EYE = WEIGHTS[Light.D65][:, 1] / WEIGHTS[Light.D65][:, 1].sum()


def lee_m(medium: Medium, cosine: float) -> Array:
    """Depth by the clearest band between 410 and 665 nm and the reflectance seen from above."""
    fall = down_decay_per_m(medium, cosine)[..., _LEE_BANDS]
    clearest = fall.argmin(axis=-1)[..., None]
    shine = np.take_along_axis(water_shine(medium)[..., _LEE_BANDS], clearest, axis=-1)[..., 0]
    least = np.take_along_axis(fall, clearest, axis=-1)[..., 0]
    contrast = np.maximum(np.abs(0.14 - shine), _PALEST)
    return np.asarray(np.log(contrast / 0.013) / (2.5 * least))


def tyler_m(medium: Medium, cosine: float) -> Array:
    """Depth by beam and downwelling attenuation, both as a daylight-adapted eye weighs them."""
    both = medium.beam_per_m + down_decay_per_m(medium, cosine)
    return np.asarray(8.69 / (both @ _EYE))


def disk_m(medium: Medium, cosine: float) -> Array:
    """The middle of both, as a ratio."""
    return np.sqrt(lee_m(medium, cosine) * tyler_m(medium, cosine))


def water_shine(medium: Medium) -> Array:
    """Radiance leaving the water over the light falling on it, Rrs, 1/sr.

    r = (0.0895 + 0.1247 u) u with u = bb / (a + bb); above the surface 0.52 r / (1 - 1.7 r).
    Source: Lee, Carder and Arnone, Appl. Opt. 41 (2002) 5755, from memory.
    """
    u = medium.back_per_m / (medium.absorb_per_m + medium.back_per_m)
    r = (0.0895 + 0.1247 * u) * u
    return np.asarray(0.52 * r / (1 - 1.7 * r))
