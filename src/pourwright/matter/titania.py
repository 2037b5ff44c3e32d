"""Titanium dioxide, the film on a pearl flake: its index by wavelength, 400 nm and up.

The printed formula of rutile starts at 430 nm; below, it is carried on.
"""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.source import published

SODIUM_NM = 589.3
RUTILE_SOURCE = published("J. R. Devore, J. Opt. Soc. Am. 41 (1951) 416: rutile, both rays")
ANATASE_SOURCE = published(
    "A. Jolivet et al., Appl. Surf. Sci. 608 (2023) 155214: anatase film laid down at 300 °C"
)


class Titania(StrEnum):
    """The crystal the film consists of."""

    RUTILE = "rutile"
    ANATASE = "anatase"


def rutile_ordinary(nm: Array | float) -> Array:
    """Index of rutile for the ordinary ray, 430 to 1530 nm (Devore 1951).

    >>> round(float(rutile_ordinary(589)), 4)
    2.6131
    """
    return _one_term(nm, 5.913, 0.2441, 0.0803)


def rutile_extraordinary(nm: Array | float) -> Array:
    """Index of rutile for the extraordinary ray, 430 to 1530 nm (Devore 1951).

    >>> round(float(rutile_extraordinary(589)), 4)
    2.9089
    """
    return _one_term(nm, 7.197, 0.3322, 0.0843)


def dense_index(form: Titania, nm: Array | float) -> Array:
    """Index of a film without pores, its small crystals lying every way.

    Rutile: the mean of two ordinary rays and one extraordinary. Anatase: the printed film, by one
    term that meets its figures from 400 to 700 nm within 0.001.
    """
    if form is Titania.ANATASE:
        return _one_term(nm, 5.5859, 0.1644, 0.08188)
    return np.asarray((2 * rutile_ordinary(nm) + rutile_extraordinary(nm)) / 3)


def _one_term(nm: Array | float, base: float, strength: float, resonance_um2: float) -> Array:
    square_um2 = (np.asarray(nm, dtype=float) / 1000) ** 2
    return np.asarray(np.sqrt(base + strength / (square_um2 - resonance_um2)))
