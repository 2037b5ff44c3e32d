"""Poured plastic and what an instrument said of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.color.slab import Placing
from pourwright.spectrum.light import BANDS

# One deviation of a single drop, as a share; common practice, no source.
DROP_SCATTER = 0.07
# The same of a dose that was weighed, or of all drops of a bottle after 20 were; estimate.
WEIGHED_DOUBT = 0.016
# One deviation of the logarithm of a thickness: of a puck, a drip, a finished bait; estimates.
PUCK_THICK, DRIP_THICK, BAIT_THICK = 0.02, 0.05, 0.08


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
    thick_doubt: float = PUCK_THICK


def check_numbers(instrument: Instrument, spectral: Iterable[bool]) -> None:
    """Refuse readings that do not hold what the instrument gives; `spectral` says of each."""
    wanted = instrument is Instrument.SPECTRUM
    if any(has != wanted for has in spectral):
        gives = "31 reflectances" if wanted else "L*a*b*"
        raise BadInput("readings", instrument.value, f"must hold {gives}, as a {instrument} gives")


def drop_doubt(drops: float) -> float:
    """One deviation of the logarithm of a counted dose, above no drops at all."""
    return float(DROP_SCATTER / np.sqrt(drops))
