"""How much of the sight flake covers."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

# PET film (handbook, from memory), g/cm³.
FILM_G_CM3 = 1.38


def face_m2_per_g(film_um: float) -> float:
    """Area of one face of a gram of film flake, whatever its size.

    >>> round(face_m2_per_g(25), 4)
    0.029
    """
    return 1 / (FILM_G_CM3 * film_um)


def cover(grams_per_100g: Array, *, thick_mm: Array, film_um: float, density_g_ml: float) -> Array:
    """Share of the sight that randomly tilted flakes cover, 0 to 1.

    A Boolean model: 1 - exp(-λ/2), where λ is face area over sight area and the half is Cauchy's
    mean shadow of a convex plate.
    """
    grams_per_mm3 = grams_per_100g / 100 * density_g_ml / 1000
    faces = grams_per_mm3 * face_m2_per_g(film_um) * 1e6 * thick_mm
    return np.asarray(1 - np.exp(-faces / 2))
