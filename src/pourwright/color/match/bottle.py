"""What stands on the shelf, and in which steps it is measured out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import kind, number, pick, text
from pourwright.base.record import Record
from pourwright.color.colorant import Colorant
from pourwright.color.dose import Dose, Measured
from pourwright.color.kinds import COLORANTS
from pourwright.color.typical import typical
from pourwright.color.unit_mass import one_drop, one_spoon


@dataclass(frozen=True, slots=True, kw_only=True)
class Bottle(Record):
    """One colorant of the shelf."""

    name: str = text("Name", most=60)
    measure: Measured = pick("Measured in", default=Measured.DROPS)
    drop_mass_g: float | None = one_drop(low=0.0002)
    spoon_g: float | None = one_spoon()
    colorant: Colorant = kind("How it colors", COLORANTS)
    on_hand_g: float | None = number("What is left", low=0, high=2_000_000, default=None)
    price_per_kg_money: float = number("Price of a kilogram", low=0, high=1e9, default=0)

    def check(self) -> None:
        """Refuse flake: it is part of what a target means, not of what is counted out for it."""
        if self.colorant.key == "flake":
            raise BadInput("colorant", "flake", "goes into `fixed`: a target is met around it")

    def step_g(self, scale_step_g: float, least_spoon_tsp: float) -> float:
        """Grams of the smallest step in which it is measured out."""
        match self.measure:
            case Measured.DROPS:
                return self._or_typical("drop_mass_g")
            case Measured.SPOONS:
                return self._or_typical("spoon_g") * least_spoon_tsp
            case Measured.GRAMS:
                return scale_step_g

    def _or_typical(self, name: str) -> float:
        return float(typical(self)[name][0])

    def most_steps(self, step_g: float, limit: int) -> int:
        """How many steps there may be, by the limit and by what is left."""
        if self.on_hand_g is None:
            return limit
        return min(limit, math.floor(self.on_hand_g / step_g))


def per_gram(colorant: Colorant) -> tuple[Array, Array]:
    """Typical absorption and reduced scattering per mm of 1 g in 100 g, (31,) each."""
    dose = Dose(name="x", per_100g=1, measure=Measured.GRAMS, colorant=colorant)
    stuff = dose.stuff(dose.typical())
    return stuff.absorb_mm[0], stuff.scatter_mm[0]
