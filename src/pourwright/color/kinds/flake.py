"""Flake: film cut small, which hides a share of the sight."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import number, unmeasured
from pourwright.color.colorant import Stuff
from pourwright.color.face import PLASTIC_FACE
from pourwright.color.shown import Shown
from pourwright.matter.additive import DENSITY_G_ML, FLAKE_FILM_UM
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.spectrum.light import BANDS

FILM_UM = FLAKE_FILM_UM.ends
FILM_G_ML = DENSITY_G_ML["flake"].band.typical


@dataclass(frozen=True, slots=True, kw_only=True)
class Flake(Shown):
    """Flake of heat-proof film; its thickness and grams color a bait, its size only shows."""

    key: ClassVar[str] = "flake"
    label: ClassVar[str] = "Flake"
    limit: ClassVar[str] = "flake is dull in the forecast: no glint"

    film_um: float | None = unmeasured(
        "Film thickness", low=8, high=250, typical=FILM_UM, label="film thickness",
        measure="read the supplier's sheet", logarithmic=True,
    )  # fmt: skip
    size_mm: float | None = number(
        "Size flat to flat, which only a picture asks for", low=0.05, high=6, default=None
    )

    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """Faces only; what the flakes scatter sideways is left out.

        The color entered is what they show in a bait; through its face no more than 96 % returns.
        """
        nothing = np.zeros((len(grams_per_100g), BANDS))
        faces = faces_per_mm(grams_per_100g, values["film_um"])
        inside = PLASTIC_FACE[False].inside(self.shown())
        return Stuff(nothing, nothing, faces, np.minimum(inside, 1))


def faces_per_mm(
    grams_per_100g: Array, film_um: Array, film_g_ml: Array | float = FILM_G_ML
) -> Array:
    """Area of flake faces, one side, in mm² to a mm³ of plastic."""
    grams_per_mm3 = grams_per_100g / 100 * COLD_DENSITY_G_ML.typical / 1000
    return np.asarray(grams_per_mm3 * face_mm2_per_g(film_um, film_g_ml))


def face_mm2_per_g(film_um: Array, film_g_ml: Array | float = FILM_G_ML) -> Array:
    """Area of one face of a gram of flake, whatever its size; film density in g/mL.

    >>> round(float(face_mm2_per_g(np.array(25.0), 1.38)))
    28986
    """
    return np.asarray(1e6 / (film_g_ml * film_um))
