"""Poured plastic and what an instrument said of it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.slab import Placing
from pourwright.spectrum.light import BANDS


class Instrument(StrEnum):
    """What read the color."""

    SPECTRUM = "spectrum"
    METER = "color meter"
    PHOTO = "photo"


@dataclass(frozen=True, slots=True)
class Noise:
    """One deviation of what an instrument says: `gain` shared by a reading, `each` by number.

    `each` is a reflectance for a spectrum and Lab units otherwise. It holds what the model of
    one scattered lobe for all misses too: 0.3 % of reflectance, or 0.4 Lab units; estimates.
    """

    gain: float
    each: float


NOISE = {
    Instrument.SPECTRUM: Noise(0.010, 0.004),
    Instrument.METER: Noise(0.010, 0.55),
    Instrument.PHOTO: Noise(0.020, 2.0),
}


@dataclass(frozen=True, slots=True)
class Reading:
    """31 reflectances or L*a*b* (D65) of a puck over a ground of 31 reflectances."""

    instrument: Instrument
    values: Array
    ground: Array
    placing: Placing

    @property
    def noise(self) -> Noise:
        """How far the instrument may be off."""
        return NOISE[self.instrument]

    @property
    def spectral(self) -> bool:
        """Whether it holds a number to a band."""
        return len(self.values) == BANDS


@dataclass(frozen=True, slots=True)
class Puck:
    """Plastic of known recipe and thickness; `doses` holds (colorant, grams, deviation of ln)."""

    name: str
    doses: tuple[tuple[int, float, float], ...]
    thick_mm: float
    readings: tuple[Reading, ...]
    thick_doubt: float = 0.02


def drop_doubt(drops: float) -> float:
    """One deviation of the logarithm of a counted dose: 7 % a drop; common practice, no source."""
    return float(0.07 / np.sqrt(max(drops, 1.0)))
