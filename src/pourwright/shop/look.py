"""Looks: the layers of a bait and what goes into each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from pourwright.base.field import number, part, parts, pick, reference, text
from pourwright.base.record import Record
from pourwright.body.division import Place
from pourwright.body.layering import refuse_odd_sum, refuse_same_places
from pourwright.body.split import Split
from pourwright.shop.noun import Noun


class Measure(StrEnum):
    """How a dose is measured out."""

    DROPS = "drops"
    GRAMS = "grams"
    SPOONS = "level teaspoons"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose(Record):
    """How much of a material goes into 100 g of plastic."""

    material: str = reference("From the shelf", refers="additive")
    per_100g: float = number("Amount to 100 g of plastic", low=0.001, high=400)
    measure: Measure = pick("Measured in", default=Measure.DROPS)


@dataclass(frozen=True, slots=True, kw_only=True)
class LookLayer(Record):
    """One layer: its share of the bait's volume and its recipe."""

    place: Place = pick("Layer", default=Place.BODY)
    share: float = number("Share of the bait's volume, 0 to 1", low=0.01, high=1, default=1.0)
    doses: tuple[Dose, ...] = parts("Recipe for 100 g", most=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Look(Noun):
    """A look of one to four layers; every saved change is a new version."""

    key: ClassVar[str] = "look"
    label: ClassVar[str] = "Look"
    plural: ClassVar[str] = "Looks"
    place: ClassVar[str] = "looks"

    layers: tuple[LookLayer, ...] = parts("Layers", least=1, most=4)
    split: Split = part(
        "Where the layers part; in a bait with a shape, what is given here goes before shares",
        label="Lines, vein and core", default=Split(),
    )  # fmt: skip
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse shares that do not fill the bait, and layers that do not go together."""
        places = tuple(layer.place for layer in self.layers)
        refuse_odd_sum([layer.share for layer in self.layers])
        refuse_same_places(places)
        self.split.refuse_odd_places(places)
