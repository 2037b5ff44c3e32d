"""What is asked of a pearl powder's film."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, text, unmeasured
from pourwright.base.record import Record
from pourwright.color.face import PLASTIC_INDEX
from pourwright.color.film.grade import Grade, hue_of
from pourwright.color.film.plate import CORE_SPREAD, THICKEST_NM, THINNEST_NM, Plate
from pourwright.color.plastic import RawPlastic
from pourwright.matter import mica
from pourwright.matter.titania import Titania
from pourwright.spectrum.color_space import lab_of, xyz_of_hex
from pourwright.spectrum.light import white_xyz


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmInput(Record):
    """A powder by its film or by its color, a dose, and the angles to look from."""

    film_nm: float | None = number(
        "Film on each face of a flake", low=THINNEST_NM, high=THICKEST_NM, default=None
    )
    grade: Grade | None = pick("Or the color it is sold as", default=None)
    color_hex: str = text(
        "Or the color it flashes over black, as #rrggbb", pattern="(#[0-9a-fA-F]{6})?", most=7,
        default="",
    )  # fmt: skip
    crystal: Titania = pick("Crystal of the film", default=Titania.RUTILE)
    film_index: float | None = number(
        "Index of the film at 589 nm, less than titania's where it has pores; left out: no pores",
        low=1.8, high=2.8, default=None,
    )  # fmt: skip
    core_nm: float = number("Mica in a flake", low=50, high=2000, default=mica.CORE_NM.typical)
    core_spread: float = number(
        "How much thinner or thicker the mica of other flakes is, as a share", low=0, high=0.9,
        default=CORE_SPREAD,
    )  # fmt: skip
    core_index: float = number("Index of the mica", low=1.4, high=1.8, default=mica.INDEX.typical)
    medium_index: float = number(
        "Index of what lies around the flakes", low=1, high=1.7, default=PLASTIC_INDEX
    )
    angles_deg: tuple[float, ...] = parts(
        "Angles of incidence on the flakes, within the plastic; left out: 0 to 60 by 15", most=20,
        low=0, high=85,
    )  # fmt: skip
    wavelengths_nm: tuple[float, ...] = parts(
        "Wavelengths for the reflectance; left out: 400 to 700 by 10", most=401, low=400, high=800
    )
    grams_per_100g: float = number("Powder in 100 g of plastic", low=0, high=20, default=0.3)
    thick_mm: float = number("Thickness", low=0.2, high=60, default=5)
    quality: float | None = unmeasured(
        "Share of its flakes that mirror as flakes lying flat would", low=0.02, high=3,
        typical=mica.QUALITY.ends, label=mica.QUALITY.label, measure=mica.QUALITY.measure,
        logarithmic=True,
    )  # fmt: skip
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a film told twice, or not at all."""
        told = (self.film_nm is not None) + (self.grade is not None) + bool(self.color_hex)
        if told != 1:
            raise BadInput("film_nm", self.film_nm, "give one of film_nm, grade and color_hex")

    def plate(self) -> Plate:
        """Its flakes, films aside."""
        return Plate(
            form=self.crystal,
            film_index=self.film_index,
            core_nm=self.core_nm,
            core_spread=self.core_spread,
            core_index=self.core_index,
            around=self.medium_index,
        )

    def hue_deg(self) -> float | None:
        """The hue it is known by, in degrees; none for silver."""
        return self.grade.hue_deg if self.grade is not None else hue_of(self.color_lab())

    def color_lab(self) -> Array:
        """L*a*b* of the color entered."""
        return lab_of(xyz_of_hex(self.color_hex), white_xyz())
