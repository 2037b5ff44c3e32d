"""How well a cone's pigment catches each wavelength, from its peak alone."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

# Peaks that the published curves were read from, nm; from memory.
SHORTEST_NM, LONGEST_NM = 357.0, 635.0


def sensitivity(wavelengths_nm: Array, peak_nm: float, *, a2: bool) -> Array:
    """Share of the photons caught, about 1 at the peak: main band and the small band below it.

    `a2` picks the chromophore of most freshwater fish (porphyropsin) in place of that of the sea
    (rhodopsin). The lens and the length of the cone are left out.
    Raises: BadInput for a peak that the template was not drawn for.
    Source: Govardovskii, Fyhrquist, Reuter, Kuzmin and Donner, Vis. Neurosci. 17 (2000) 509.

    >>> round(float(sensitivity(np.array([535.0]), 535.0, a2=False)[0]), 2)
    1.0
    """
    if not SHORTEST_NM <= peak_nm <= LONGEST_NM:
        raise BadInput(
            "peak_nm", peak_nm, f"must lie between {SHORTEST_NM:g} and {LONGEST_NM:g} nm"
        )
    if a2:
        return main_band_a2(wavelengths_nm, peak_nm) + _small_band_a2(wavelengths_nm, peak_nm)
    return main_band_a1(wavelengths_nm, peak_nm) + _small_band_a1(wavelengths_nm, peak_nm)


def main_band_a1(wavelengths_nm: Array, peak_nm: float) -> Array:
    """The main band with the chromophore of the sea (A1)."""
    x = peak_nm / wavelengths_nm
    a = 0.8795 + 0.0459 * np.exp(-((peak_nm - 300) ** 2) / 11940)
    falls = np.exp(69.7 * (a - x)) + np.exp(28 * (0.922 - x)) + np.exp(-14.9 * (1.104 - x))
    return np.asarray(1 / (falls + 0.674))


def main_band_a2(wavelengths_nm: Array, peak_nm: float) -> Array:
    """The main band with the chromophore of fresh water (A2)."""
    x = peak_nm / wavelengths_nm
    steep = 62.7 + 1.834 * np.exp((peak_nm - 625) / 54.2)
    a = 0.875 + 0.0268 * np.exp((peak_nm - 665) / 40.7)
    falls = (
        np.exp(steep * (a - x))
        + np.exp(20.85 * (0.9101 - x))
        + np.exp(-10.37 * (1.1123 - x))
    )  # fmt: skip
    return np.asarray(1 / (falls + 0.5343))


def _small_band_a1(wavelengths_nm: Array, peak_nm: float) -> Array:
    middle, wide = 189 + 0.315 * peak_nm, -40.5 + 0.195 * peak_nm
    return np.asarray(0.26 * np.exp(-(((wavelengths_nm - middle) / wide) ** 2)))


def _small_band_a2(wavelengths_nm: Array, peak_nm: float) -> Array:
    middle = 216.7 + 0.287 * peak_nm
    wide = 317 - 1.149 * peak_nm + 0.00124 * peak_nm**2
    return np.asarray(0.37 * np.exp(-(((wavelengths_nm - middle) / wide) ** 2)))
