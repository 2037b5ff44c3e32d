"""What stands on the shelf: plastics and what goes into, onto and around them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import flag, number, pick, text, unmeasured
from pourwright.color.film.grade import Grade
from pourwright.color.film.plate import THICKEST_NM, THINNEST_NM
from pourwright.color.film.powder import Powder
from pourwright.matter.remelt import HEAT_DOSE
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Material(Noun):
    """Something bought by weight; amounts are kept in grams."""

    place: ClassVar[str] = "shelf"

    package_g: float | None = number(
        "Weight of what you bought", low=0.1, high=500_000, default=None
    )
    package_price_money: float | None = number(
        "Price of what you bought", low=0, high=50_000, default=None
    )
    on_hand_g: float | None = number("What is left", low=0, high=2_000_000, default=None)
    lot: str = text("Lot or batch on the label", most=40, default="")
    note: str = text("Note", most=500, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plastic(Material):
    """Liquid PVC plastisol."""

    key: ClassVar[str] = "plastic"
    label: ClassVar[str] = "Plastic"
    plural: ClassVar[str] = "Plastics"

    cold_density_g_ml: float | None = unmeasured(
        "Cold density", low=0.9, high=1.4, typical=(1.024, 1.052, 1.105),
        measure="weigh a measured volume of the mixed jug",
    )  # fmt: skip
    hardness_oo: float | None = unmeasured(
        "Hardness, Shore OO", low=1, high=99, typical=(20, 35, 55),
        measure="pour a puck and press a durometer on it after a day",
    )  # fmt: skip
    flash_point_c: float | None = number(
        "Flash point on the supplier's data sheet", low=100, high=350, default=None
    )
    data_sheet: str = text("Data sheet: title and revision date", most=120, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Softener(Material):
    """Plasticizer that makes the plastic softer."""

    key: ClassVar[str] = "softener"
    label: ClassVar[str] = "Softener"
    plural: ClassVar[str] = "Softeners"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardener(Material):
    """Firm plastisol or resin-rich paste that makes the plastic harder."""

    key: ClassVar[str] = "hardener"
    label: ClassVar[str] = "Hardener"
    plural: ClassVar[str] = "Hardeners"

    hardness_oo: float | None = number("Hardness alone, Shore OO", low=1, high=99, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stabilizer(Material):
    """Heat stabilizer; it delays scorching and never repairs it."""

    key: ClassVar[str] = "stabilizer"
    label: ClassVar[str] = "Heat stabilizer"
    plural: ClassVar[str] = "Heat stabilizers"


@dataclass(frozen=True, slots=True, kw_only=True)
class Salt(Material):
    """Fine salt, bone dry."""

    key: ClassVar[str] = "salt"
    label: ClassVar[str] = "Salt"
    plural: ClassVar[str] = "Salts"

    spoon_g: float | None = unmeasured(
        "One level teaspoon", low=0.5, high=12, typical=(4.5, 5.8, 7),
        measure="weigh five level teaspoons and divide by five",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class HollowGlass(Material):
    """Hollow glass beads that make a bait float; a dust to keep out of lungs and eyes."""

    key: ClassVar[str] = "hollow_glass"
    label: ClassVar[str] = "Hollow glass"
    plural: ClassVar[str] = "Hollow glass"

    density_g_ml: float | None = unmeasured(
        "Density on the bag", low=0.08, high=0.8, typical=(0.12, 0.2, 0.4),
        measure="read the bag",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Scent(Material):
    """Scent that goes into the hot plastic at the end, or into the bag."""

    key: ClassVar[str] = "scent"
    label: ClassVar[str] = "Scent"
    plural: ClassVar[str] = "Scents"


@dataclass(frozen=True, slots=True, kw_only=True)
class BagOil(Material):
    """Oil for the bag."""

    key: ClassVar[str] = "bag_oil"
    label: ClassVar[str] = "Bag oil"
    plural: ClassVar[str] = "Bag oils"


@dataclass(frozen=True, slots=True, kw_only=True)
class InjectorLubricant(Material):
    """Lubricant for the plunger's rings."""

    key: ClassVar[str] = "injector_lubricant"
    label: ClassVar[str] = "Injector lubricant"
    plural: ClassVar[str] = "Injector lubricants"


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldRelease(Material):
    """Release for molds that hold on."""

    key: ClassVar[str] = "mold_release"
    label: ClassVar[str] = "Mold release"
    plural: ClassVar[str] = "Mold releases"


@dataclass(frozen=True, slots=True, kw_only=True)
class Colorant(Material):
    """Pigment or dye counted in drops."""

    key: ClassVar[str] = "colorant"
    label: ClassVar[str] = "Colorant"
    plural: ClassVar[str] = "Colorants"

    color_hex: str = text("Its color, spread thin", pattern="#[0-9a-fA-F]{6}", most=7)
    opaque: bool = flag("It hides (opaque) rather than tints")
    strength: float | None = unmeasured(
        "Strength against a usual colorant", low=0.02, high=20, typical=(0.4, 1, 2.5),
        measure="pour a 5 mm puck of 0.2 g (about 6 drops) in 100 g and compare", logarithmic=True,
    )  # fmt: skip
    drop_mass_g: float | None = unmeasured(
        "One drop", low=0.005, high=0.2, typical=(0.02, 0.035, 0.05),
        measure="weigh 20 drops and divide by 20",
    )  # fmt: skip
    glows: bool = flag("It is fluorescent")
    bleeds: bool = flag("It bleeds into other baits in the bag")
    shake_first: bool = flag("Shake before use")


@dataclass(frozen=True, slots=True, kw_only=True)
class Flake(Material):
    """Glitter flake of heat-proof film."""

    key: ClassVar[str] = "flake"
    label: ClassVar[str] = "Flake"
    plural: ClassVar[str] = "Flakes"

    color_hex: str = text("Its color", pattern="#[0-9a-fA-F]{6}", most=7)
    size_mm: float = number("Size, flat to flat", low=0.05, high=6)
    film_um: float | None = unmeasured(
        "Film thickness", low=8, high=250, typical=(20, 25, 50), measure="read the supplier's sheet"
    )
    spoon_g: float | None = unmeasured(
        "One level teaspoon", low=0.5, high=8, typical=(2.2, 2.9, 3.7),
        measure="weigh five level teaspoons and divide by five",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PearlPowder(Material):
    """Pearl or highlight powder."""

    key: ClassVar[str] = "pearl_powder"
    label: ClassVar[str] = "Pearl powder"
    plural: ClassVar[str] = "Pearl powders"

    color_hex: str = text("Its color over white", pattern="#[0-9a-fA-F]{6}", most=7)
    grade: Grade | None = pick(
        "Film color (grade): what it flashes over black, where titania on mica makes its color",
        label="Film color (grade)", default=None,
    )  # fmt: skip
    film_nm: float | None = number(
        "Film thickness on its data sheet, instead of the grade",
        low=THINNEST_NM, high=THICKEST_NM, label="Film thickness", default=None,
    )  # fmt: skip
    spoon_g: float | None = unmeasured(
        "One level teaspoon", low=0.3, high=8, typical=(1.2, 2, 3),
        measure="weigh five level teaspoons and divide by five",
    )  # fmt: skip

    def flakes(self) -> Powder | None:
        """What is known of its flakes; none where neither film nor grade is."""
        if self.grade is None and self.film_nm is None:
            return None
        return Powder(grade=self.grade or Grade.SILVER, film_nm=self.film_nm)


@dataclass(frozen=True, slots=True, kw_only=True)
class RemeltPot(Material):
    """Rejects and sprue kept for melting again; one color family, counted by how often heated."""

    key: ClassVar[str] = "remelt_pot"
    label: ClassVar[str] = "Remelt pot"
    plural: ClassVar[str] = "Remelt pots"

    heats: int = number("Times it has been heated", low=1, high=20, default=1)
    dose_share: float | None = unmeasured(
        "Heat budget it has used, 1 is all of it; the typical share is that of one heat",
        low=0, high=20, typical=HEAT_DOSE.ends, measure=HEAT_DOSE.measure, logarithmic=True,
    )  # fmt: skip
    holds_salt: bool = flag("It holds salt")


EYES_A_BAIT = 2  # one on either side; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Eyes(Noun):
    """Eyes, bought by the piece."""

    key: ClassVar[str] = "eyes"
    label: ClassVar[str] = "Eyes"
    plural: ClassVar[str] = "Eyes"
    place: ClassVar[str] = "shelf"

    size_mm: float = number("Size", low=0.5, high=20)
    pieces: int = number("Pieces bought", low=1, high=100_000)
    package_price_money: float = number("Price of what you bought", low=0, high=5000)
    note: str = text("Note", most=500, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing(Noun):
    """Bags, cards and labels, bought by the piece."""

    key: ClassVar[str] = "packing"
    label: ClassVar[str] = "Packing"
    plural: ClassVar[str] = "Packing"
    place: ClassVar[str] = "shelf"

    pieces: int = number("Pieces bought", low=1, high=100_000)
    package_price_money: float = number("Price of what you bought", low=0, high=5000)
    baits_each: int = number("Baits to one piece", low=1, high=200, default=8)
    note: str = text("Note", most=500, default="")
