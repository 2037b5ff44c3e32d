"""Starter absorption of a colorant nobody has measured: from the color its puck shows.

The reference puck is 5 mm of plastic with 0.2 g (about five drops) in 100 g, poured on white.
Scattering is taken as known and gray; absorption is what makes the puck show the color entered.
An estimate: pucks over black and white replace it.
"""

from __future__ import annotations

import functools

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing, reflectance
from pourwright.spectrum.light import BANDS

REFERENCE_MM = 5.0
REFERENCE_G = 0.2
WHITE_GROUND = 0.85
_HALVINGS = 44
# Above any absorption, to scattering, that a reflectance of one asks for; halving closes in.
_MOST_PER_SCATTER = 2.0


def starter_absorb(shown: Array, scatter_mm: Array) -> Array:
    """Absorption per mm at the reference dose, shape (draws, 31).

    `shown` is the reflectance entered, 31 bands; `scatter_mm` the scattering per mm of each draw.
    Where the puck cannot be as light as `shown`, its hue is kept and the whole is darkened.
    """
    if len(scatter_mm) == 1:
        return _cached(shown.tobytes(), float(scatter_mm[0]))
    return _solved(shown, scatter_mm)


def puck_shows(absorb_mm: Array, scatter_mm: Array) -> Array:
    """Reflectance of the reference puck, mirror light left out; per-mm values at its dose."""
    absorb, scatter = RawPlastic().typical_flux()
    return reflectance(
        (absorb + absorb_mm) * REFERENCE_MM,
        (scatter + scatter_mm) * REFERENCE_MM,
        np.array(WHITE_GROUND),
        Placing.CONTACT,
    )


@functools.lru_cache(maxsize=512)
def _cached(shown: bytes, scatter_mm: float) -> Array:
    found = _solved(np.frombuffer(shown), np.array([scatter_mm]))
    found.setflags(write=False)
    return found


def _solved(shown: Array, scatter_mm: Array) -> Array:
    # More absorption never lightens a layer, so halving the range always closes in.
    scatter = np.broadcast_to(scatter_mm[:, None], (len(scatter_mm), BANDS))
    lightest = puck_shows(np.zeros_like(scatter), scatter)
    wanted = shown * np.minimum(1.0, (lightest / shown).min(axis=1, keepdims=True))
    low, high = np.zeros_like(scatter), _MOST_PER_SCATTER * (scatter + 1) / wanted**2
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        too_light = puck_shows(middle, scatter) > wanted
        low, high = np.where(too_light, middle, low), np.where(too_light, high, middle)
    return np.asarray((low + high) / 2)
