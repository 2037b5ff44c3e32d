"""The shelf as the color room knows it: measured where pucks were read, entered elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import NotFound
from pourwright.color.colorant import Colorant as Colors
from pourwright.color.constants import Constants
from pourwright.color.dose import Dose as ColorDose
from pourwright.color.dose import Measured as Counted
from pourwright.color.kinds.dye import Dye
from pourwright.color.kinds.flake import Flake as FlakeColor
from pourwright.color.kinds.fluorescent import Fluorescent
from pourwright.color.kinds.glass import HollowGlass as GlassHaze
from pourwright.color.kinds.measured import Measured
from pourwright.color.kinds.pearl import Pearl
from pourwright.color.kinds.pigment import Pigment
from pourwright.color.kinds.salt import Salt as SaltHaze
from pourwright.color.match.bottle import Bottle
from pourwright.color.plastic import RawPlastic
from pourwright.shop.calibration import Calibration
from pourwright.shop.look import Dose, Measure
from pourwright.shop.material import Colorant, Flake, HollowGlass, Material, PearlPowder, Salt
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import ADDITIVES

# What can be counted out to meet a target.
COUNTED = (Colorant.key, PearlPowder.key)


@dataclass(frozen=True, slots=True)
class ColorShelf:
    """Every additive by id, with what was measured of it."""

    additives: Mapping[str, Stored]
    measured: Mapping[str, Constants]

    def dose(self, dose: Dose) -> ColorDose:
        """A look's dose as the color room knows it."""
        noun = self.noun(dose.material)
        return ColorDose(
            name=noun.name,
            per_100g=dose.per_100g,
            measure=Counted(dose.measure.value),
            drop_mass_g=getattr(noun, "drop_mass_g", None),
            spoon_g=getattr(noun, "spoon_g", None),
            colorant=self.colorant(dose.material),
        )

    def noun(self, material: str) -> Noun:
        """A material. Raises: NotFound where it is no longer on the shelf."""
        if material not in self.additives:
            raise NotFound(f"the shelf has no material {material!r} any more")
        return self.additives[material].noun

    def colorant(self, material: str) -> Colors | None:
        """What a material does to color; none where that is unknown or nothing."""
        if material in self.measured:
            return Measured(constants=self.measured[material])
        return entered(self.noun(material))

    def plastic(self, material: str) -> RawPlastic:
        """A plastic by its own pucks, or as plastic is."""
        return RawPlastic(constants=self.measured.get(material))

    def bottles(self) -> dict[str, Bottle]:
        """What can be counted out, by id."""
        found = {}
        for key, stored in self.additives.items():
            colorant = self.colorant(key)
            if stored.sort in COUNTED and colorant is not None and not stored.retired:
                found[key] = _bottle(stored.noun, colorant)
        return found


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


def entered(noun: Noun) -> Colors | None:
    """A material's color as its maker entered it."""
    match noun:
        case Colorant() if noun.glows:
            return Fluorescent(color_hex=noun.color_hex, strength=noun.strength)
        case Colorant():
            kind = Pigment if noun.opaque else Dye
            return kind(color_hex=noun.color_hex, strength=noun.strength)
        case PearlPowder():
            return Pearl(color_hex=noun.color_hex)
        case Flake():
            return FlakeColor(color_hex=noun.color_hex, film_um=noun.film_um)
        case Salt():
            return SaltHaze()
        case HollowGlass():
            return GlassHaze()
        case _:
            return None


def usual_measure(noun: Noun) -> Measure:
    """How a material is measured out where nobody said."""
    return Measure.DROPS if isinstance(noun, Colorant) else Measure.GRAMS


def _bottle(noun: Noun, colorant: Colors) -> Bottle:
    price = 0.0
    if isinstance(noun, Material) and noun.package_g and noun.package_price_money:
        price = noun.package_price_money / noun.package_g * 1000
    return Bottle(
        name=noun.name,
        measure=Counted(usual_measure(noun).value),
        drop_mass_g=getattr(noun, "drop_mass_g", None),
        spoon_g=getattr(noun, "spoon_g", None),
        colorant=colorant,
        on_hand_g=getattr(noun, "on_hand_g", None),
        price_per_kg_money=min(price, 50_000),
    )
