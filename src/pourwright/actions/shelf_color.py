"""The shelf as the color room knows it: measured where pucks were read, entered elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import NotFound
from pourwright.color.colorant import Colorant as Colors
from pourwright.color.constants import Constants
from pourwright.color.dose import Dose as ColorDose
from pourwright.color.match.bottle import Bottle
from pourwright.color.plastic import RawPlastic
from pourwright.forecast.request import DosePart
from pourwright.plan.layer import dose_of
from pourwright.plan.resolve import dose_part
from pourwright.shop.calibration import Calibration
from pourwright.shop.look import Dose, Measure
from pourwright.shop.material import Colorant, PearlPowder
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import ADDITIVES

# What can be counted out to meet a target.
COUNTED = (Colorant.key, PearlPowder.key)


@dataclass(frozen=True, slots=True)
class ColorShelf:
    """Every additive by id, with what was measured of it."""

    additives: Mapping[str, Stored]
    measured: Mapping[str, Constants]

    def part(self, dose: Dose) -> DosePart:
        """A look's dose as a plan knows it. Raises: NotFound for a vanished material."""
        known = {dose.material: self.noun(dose.material)}
        return dose_part(dose, known, self.measured.get(dose.material))

    def dose(self, dose: Dose) -> ColorDose:
        """A look's dose as the color room knows it. Raises: as `part`."""
        return dose_of(self.part(dose))

    def noun(self, material: str) -> Noun:
        """A material. Raises: NotFound where it is no longer on the shelf."""
        if material not in self.additives:
            raise NotFound(f"the shelf has no material {material!r} any more")
        return self.additives[material].noun

    def colorant(self, material: str) -> Colors | None:
        """What a material does to color; none where that is unknown or nothing."""
        return self.dose(Dose(material=material, per_100g=1, measure=Measure.GRAMS)).colorant

    def plastic(self, material: str) -> RawPlastic:
        """A plastic by its own pucks, or as plastic is."""
        return RawPlastic(constants=self.measured.get(material))

    def bottles(self) -> dict[str, Bottle]:
        """What can be counted out, by id."""
        return {
            key: bottle
            for key, stored in self.additives.items()
            if stored.sort in COUNTED and not stored.retired
            and (bottle := self._bottle(key)) is not None
        }  # fmt: skip

    def _bottle(self, material: str) -> Bottle | None:
        measure = usual_measure(self.noun(material))
        part = self.part(Dose(material=material, per_100g=1, measure=measure))
        dose = dose_of(part)
        if dose.colorant is None:
            return None
        return Bottle(
            name=part.name,
            measure=dose.measure,
            drop_mass_g=part.drop_mass_g,
            spoon_g=part.spoon_g,
            colorant=dose.colorant,
            on_hand_g=part.on_hand_g,
            price_per_kg_money=part.price_per_kg_money or 0.0,
        )


def color_shelf(bench: Bench) -> ColorShelf:
    """The shelf of a bench."""
    additives = {s.id: s for sort in ADDITIVES for s in bench.records.all(sort, retired=True)}
    return ColorShelf(additives, calibrations(bench))


def calibrations(bench: Bench) -> dict[str, Constants]:
    """What pucks have taught, by the id of the material."""
    return {
        noun.material: noun.constants
        for noun in (s.noun for s in bench.records.all(Calibration.key))
        if isinstance(noun, Calibration)
    }


def usual_measure(noun: Noun) -> Measure:
    """How a material is measured out where nobody said."""
    return Measure.DROPS if isinstance(noun, Colorant) else Measure.GRAMS
