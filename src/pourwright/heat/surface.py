"""What a thermometer reads off the face of the plastic, and the mean behind a reading.

Estimates from a two-dimensional finite-volume study of a 473 mL cup: before a stir the face is
4 ± 2 K warmer than the mean near 75 °C and 7 ± 5 K colder when hot; ten seconds after a stir a
film on top has cooled by 2.7 % of its excess over 40 °C. All of it is one unknown, the offset of
a hot face from its usual one, in kelvin.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate
from pourwright.matter.property import Property

SURFACE_OFFSET_K = Property(
    "how the surface differs from the mean",
    Band(-7.4, 0.0, 7.4),
    estimate("cup study"),
    "read while you stir, or use a probe",
)
_MEAN_C = np.array([40.0, 75.0, 165.0])
_USUAL_K = np.array([0.0, 4.0, -7.0])
_SHARE = np.array([0.1, 0.33, 1.0])
_FILM_FROM_C = 40.0
_FILM_SHARE = 0.027
_FILM_PER_OFFSET_K = -0.078


def unstirred_c(mean_c: Array, offset_k: Array) -> Array:
    """The face of a cup that has not been stirred since it was heated."""
    usual = np.interp(mean_c, _MEAN_C, _USUAL_K)
    return np.asarray(mean_c + usual + np.interp(mean_c, _MEAN_C, _SHARE) * offset_k)


def stirred_c(mean_c: Array, offset_k: Array) -> Array:
    """The face ten seconds after a stir."""
    return np.asarray(mean_c - _film(offset_k) * np.maximum(mean_c - _FILM_FROM_C, 0))


def mean_behind(stirred_c: Array | float, offset_k: Array) -> Array:
    """The mean of a stirred cup whose face has this temperature."""
    film = _film(offset_k)
    above = np.maximum(np.asarray(stirred_c) - _FILM_FROM_C, 0)
    return np.asarray(stirred_c + film / (1 - film) * above)


def _film(offset_k: Array) -> Array:
    return np.asarray(_FILM_SHARE * (1 + _FILM_PER_OFFSET_K * offset_k))
