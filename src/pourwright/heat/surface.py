"""What a thermometer reads off the face of the plastic, and the mean behind a reading.

A hot face gives off heat and carries a cold skin. While the cup is stirred the face is renewed
every half second or so; the skin is then 2·q·√(t/π)/e colder, with the heat q given off, the time
t since the renewal and the effusivity e of the plastic (Carslaw and Jaeger, 2nd ed., sec. 2.9).
Ten seconds later it is about twice as cold. Before a stir the face is some 4 K warmer than the
mean near 75 °C, where the plastic still flows, and 7 K colder when hot, give or take.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate, published
from pourwright.matter.property import Property

SURFACE_OFFSET_K = Property(
    "how the surface differs from the mean",
    Band(-9.0, 0.0, 9.0),
    estimate("cup study"),
    "read while you stir, or use a probe",
)
FILM_K = Property(
    "how far the face is colder than the mean while the cup is stirred, at 165 °C",
    Band(1.5, 3.7, 7.0),
    published("Carslaw and Jaeger, 2nd ed., sec. 2.9: 2.3 kW/m² within the rim, 0.1 to 1.5 s"),
    "check the infrared gun against a probe while you stir hot plastic",
)
_MEAN_C = np.array([40.0, 75.0, 165.0])
_USUAL_K = np.array([0.0, 4.0, -7.0])
_SHARE = np.array([0.1, 0.33, 1.0])
# Heat given off by the face against that at 165 °C in a room of 22 °C, less what currents bring up
# before the gel.
_FILM_C = np.array([22.0, 70.0, 100.0, 130.0, 150.0, 165.0, 180.0, 200.0])
_FILM_SHARE = np.array([0.0, 0.13, 0.40, 0.67, 0.86, 1.0, 1.15, 1.35])
_STILL = 2.0


def unstirred_c(mean_c: Array, offset_k: Array) -> Array:
    """The face of a cup that has not been stirred since it was heated."""
    usual = np.interp(mean_c, _MEAN_C, _USUAL_K)
    return np.asarray(mean_c + usual + np.interp(mean_c, _MEAN_C, _SHARE) * offset_k)


def stirred_c(mean_c: Array, film_k: Array) -> Array:
    """The face ten seconds after a stir."""
    return stirring_c(mean_c, _STILL * film_k)


def stirring_c(mean_c: Array, film_k: Array) -> Array:
    """The face while the cup is stirred."""
    return np.asarray(mean_c - film_k * np.interp(mean_c, _FILM_C, _FILM_SHARE))


def mean_behind(stirring_c: Array | float, film_k: Array) -> Array:
    """The mean of a cup whose face, while it is stirred, has this temperature."""
    mean = np.asarray(stirring_c) + 0 * film_k
    for _ in range(12):
        mean = stirring_c + film_k * np.interp(mean, _FILM_C, _FILM_SHARE)
    return np.asarray(mean)
