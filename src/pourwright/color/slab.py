"""What a slab of plastic sends back and lets through, by radiative transfer, from a table.

For a diffuse ground g the slab is four numbers, and exactly
R = first + second·third·g/(1 - fourth·g): sent back over black, let through, share of the light
from below that leaves above, share of it that is turned back down.
"""

from __future__ import annotations

import base64
import functools
import zlib
from enum import StrEnum
from typing import Literal

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import slab_table
from pourwright.color.octave import Places, Single, axis

ABSORB = slab_table.ABSORB_OCTAVES
SCATTER = slab_table.SCATTER_OCTAVES


class Placing(StrEnum):
    """How the plastic lies: poured on its ground (contact), or lying on it across a gap."""

    CONTACT = "contact"
    AIR_GAP = "air gap"
    WATER_CONTACT = "contact in water"
    WATER = "in water"
    HAND = "in the hand"

    @property
    def buried(self) -> Placing:
        """The same upper face, with the ground within the plastic."""
        return Placing.WATER_CONTACT if self.wet else Placing.CONTACT

    @property
    def wet(self) -> bool:
        """Whether water lies on its face."""
        return self in {Placing.WATER, Placing.WATER_CONTACT}

    @property
    def touching(self) -> bool:
        """Whether it touches its ground."""
        return self in {Placing.CONTACT, Placing.WATER_CONTACT}


# A slab in the hand lies across air from a ground that sends nothing back.
_ROW = {
    Placing.CONTACT: 0,
    Placing.AIR_GAP: 1,
    Placing.WATER_CONTACT: 2,
    Placing.WATER: 3,
    Placing.HAND: 1,
}
Number = Literal["back", "through", "leaving", "returned", "ground gain"]
_COLUMN: dict[Number, int] = {"back": 0, "through": 1, "leaving": 2, "returned": 3}


def reflectance(absorb: Array, scatter: Array, ground: Array, placing: Placing) -> Array:
    """Reflectance of slabs over a diffuse ground, mirror light left out.

    `absorb` and `scatter` are the absorption and the reduced scattering coefficient times
    thickness, zero or more; `ground` 0 to 1; all broadcast together. In the hand there is no
    ground.
    """
    a, s, g = np.broadcast_arrays(absorb, scatter, ground)
    places = places_of(a, s)
    bare = places.of(dense("back", placing)).astype(float)
    if placing is Placing.HAND:
        return bare.reshape(a.shape)
    gain = places.of(dense("ground gain", placing)).astype(float)
    returned = places.of(dense("returned", placing)).astype(float)
    flat = g.ravel()
    return np.asarray(bare + gain * flat / (1 - returned * flat)).reshape(a.shape)


def transmittance(absorb: Array, scatter: Array, placing: Placing) -> Array:
    """Light let through to the ground, or out below where the slab does not touch it."""
    a, s = np.broadcast_arrays(absorb, scatter)
    return places_of(a, s).of(dense("through", placing)).astype(float).reshape(a.shape)


def places_of(absorb: Array | Single, scatter: Array | Single) -> Places:
    """Where slabs lie in the table.

    Thicker slabs than it holds look endless, and an endless one depends on the ratio alone: both
    numbers are brought down together. Thinner than 2^-13 cannot be told from nothing.
    """
    a = np.array(absorb, dtype=np.float32).ravel()
    s = np.array(scatter, dtype=np.float32).ravel()
    over = np.maximum(a * np.float32(2.0 ** -ABSORB[1]), s * np.float32(2.0 ** -SCATTER[1]))
    if over.size and over.max() > 1:
        np.maximum(over, 1, out=over)
        a /= over
        s /= over
    return Places(a, s, across=ABSORB, along=SCATTER)


@functools.cache
def dense(number: Number, placing: Placing) -> Single:
    """One number at every node of the fine grid."""
    if number == "ground gain":
        log = _log("through", placing) + _log("leaving", placing)
    else:
        log = _log(number, placing)
    found = np.exp(log).astype(np.float32)
    found.setflags(write=False)
    return found


@functools.cache
def _log(number: Number, placing: Placing) -> Array:
    # Loaded at the first color, not at every start.
    from scipy.interpolate import RectBivariateSpline  # noqa: PLC0415

    absorb, scatter = (np.arange(o[0], o[1] + 1.0) for o in (ABSORB, SCATTER))
    curve = RectBivariateSpline(absorb, scatter, _nodes()[_ROW[placing], _COLUMN[number]])
    return np.asarray(curve(np.log2(axis(ABSORB)), np.log2(axis(SCATTER))))


@functools.cache
def _nodes() -> Array:
    packed = zlib.decompress(base64.b85decode(slab_table.PACKED))
    rows, columns = (octaves[1] - octaves[0] + 1 for octaves in (ABSORB, SCATTER))
    return np.frombuffer(packed, dtype="<f4").astype(float).reshape(4, 4, rows, columns)
