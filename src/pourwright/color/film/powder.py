"""What is known of a pearl powder's flakes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.color.film.grade import Grade, films_of
from pourwright.color.film.pile import plates_per_mm
from pourwright.color.film.plate import THICKEST_NM, THINNEST_NM, Plate, sheen_table
from pourwright.color.sheen import Sheen
from pourwright.matter.mica import CORE_NM, QUALITY
from pourwright.matter.titania import Titania


@dataclass(frozen=True, slots=True, kw_only=True)
class Powder(Record):
    """Flakes of mica in a film of titania, by the film or by the color they are sold as."""

    grade: Grade = pick("Color it flashes over black", default=Grade.SILVER)
    film_nm: float | None = number(
        "Film on each face of a flake; left out: the thinnest that flashes the color of the grade",
        low=THINNEST_NM, high=THICKEST_NM, default=None,
    )  # fmt: skip
    crystal: Titania = pick("Crystal of the film", default=Titania.RUTILE)
    film_index: float | None = number(
        "Index of the film at 589 nm, less than titania's where it has pores; left out: no pores",
        low=1.8, high=2.8, default=None,
    )  # fmt: skip
    core_nm: float = number("Mica in a flake", low=50, high=2000, default=CORE_NM.typical)
    quality: float | None = unmeasured(
        "Share of its flakes that mirror as flakes lying flat would", low=0.02, high=3,
        typical=QUALITY.ends, label=QUALITY.label, measure=QUALITY.measure, logarithmic=True,
    )  # fmt: skip

    def plate(self) -> Plate:
        """Its flakes, films aside."""
        return Plate(form=self.crystal, film_index=self.film_index, core_nm=self.core_nm)

    def film(self) -> float:
        """Film thickness in nm, entered or by the grade."""
        if self.film_nm is not None:
            return self.film_nm
        return films_of(self.plate(), self.grade.hue_deg)[0].film_nm

    def plates(self, grams_per_100g: Array, quality: Array | float) -> Array:
        """Plates met per mm, counting only those that mirror as flat ones would."""
        return quality * plates_per_mm(grams_per_100g, self.plate().thick_nm(self.film()))

    def mirrors(self) -> Array:
        """Reflectance of a flake by angle and band, (13, 31)."""
        return sheen_table(self.plate(), self.film())

    def lays(self, grams_per_100g: float, quality: float) -> Sheen:
        """The sheen of so many grams."""
        plates = self.plates(np.array([grams_per_100g]), quality)
        return Sheen(float(plates[0]), self.mirrors())
