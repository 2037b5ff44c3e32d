"""What is asked of a flake."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, text, unmeasured
from pourwright.base.record import Record
from pourwright.color.dose import Dose
from pourwright.color.ground import Backing, check_ground, ground_of
from pourwright.color.kinds.flake import FILM_UM
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.color.unit_mass import one_spoon


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverInput(Record):
    """A flake, its dose, the bait and what tints it."""

    size_mm: float = number("Flake, a hexagon measured flat to flat", low=0.05, high=6)
    film_um: float | None = unmeasured(
        "Film thickness", low=8, high=250, typical=FILM_UM, label="film thickness",
        measure="read the supplier's sheet", logarithmic=True,
    )  # fmt: skip
    color_hex: str = text(
        "The color the flake shows, as #rrggbb; left out: silver", pattern="(#[0-9a-fA-F]{6})?",
        most=7, default="",
    )  # fmt: skip
    grams_per_100g: float = number("Grams of flake in 100 g of plastic", low=0, high=30)
    thick_mm: float = number("Thickness of the bait", low=0.2, high=60, default=10)
    bait_mass_g: float = number("One bait", low=0.1, high=500, default=10)
    plastic_g: float = number("Plastic in the batch", low=5, high=20_000, default=100)
    spoon_g: float | None = one_spoon("One level teaspoon of this flake")
    doses: tuple[Dose, ...] = parts("What tints it, for 100 g, without the flake", most=20)
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    backing: Backing = pick("Ground behind it", default=Backing.WHITE)
    ground_share: float | None = number(
        "Reflectance of another ground, 0 to 1", low=0, high=1, default=None
    )
    placing: Placing = pick("How it lies", default=Placing.CONTACT)
    arm_m: float = number("How far away it is looked at", low=0.1, high=20, default=0.6)
    seed: int = number("Seed of the draws and of the picture", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a ground without its reflectance, and flake among what tints."""
        check_ground(self.backing, self.ground_share)
        for i, dose in enumerate(self.doses):
            if dose.colorant and dose.colorant.key == "flake":
                raise BadInput(f"doses[{i}]", dose.name, "is flake, and the flake is given above")

    def ground(self) -> float:
        """Reflectance of the ground."""
        return ground_of(self.backing, self.ground_share)
