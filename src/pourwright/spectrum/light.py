"""The grid of 31 bands, the lights a bait is looked at in, and XYZ of what comes back."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum import weights

WAVELENGTHS_NM = np.arange(400.0, 701.0, 10.0)
BANDS = len(WAVELENGTHS_NM)


class Light(StrEnum):
    """CIE standard illuminants: average daylight and a filament lamp."""

    D65 = "D65"
    A = "A"


class Observer(StrEnum):
    """The eye that the weights stand for."""

    CIE_1931 = "CIE 1931 2 degree"


WEIGHTS = {Light.D65: np.array(weights.D65), Light.A: np.array(weights.A)}


def white_xyz(light: Light = Light.D65) -> Array:
    """XYZ of a perfect white under a light, Y = 100."""
    return np.asarray(WEIGHTS[light].sum(axis=0))


def xyz_of(spectrum: Array, light: Light = Light.D65) -> Array:
    """XYZ of reflectances whose last axis holds the 31 bands."""
    return np.asarray(spectrum @ WEIGHTS[light])
