"""A dose: one material, how much of it goes into 100 g of plastic, and how it is measured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out
from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import fields_of, kind, number, pick, text
from pourwright.base.record import Record
from pourwright.color.colorant import Colorant, Stuff, inert
from pourwright.color.kinds import COLORANTS
from pourwright.color.typical import typical
from pourwright.color.unit_mass import one_drop, one_spoon


class Measured(StrEnum):
    """How a dose is measured out."""

    DROPS = "drops"
    GRAMS = "grams"
    SPOONS = "level teaspoons"


_UNUSED = {
    Measured.DROPS: ("spoon_g",),
    Measured.GRAMS: ("drop_mass_g", "spoon_g"),
    Measured.SPOONS: ("drop_mass_g",),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose(Record):
    """One material of a recipe for 100 g of plastic."""

    name: str = text("Name", most=60)
    per_100g: float = number("Amount to 100 g of plastic, in its measure", low=0, high=400)
    measure: Measured = pick("Measured in", default=Measured.DROPS)
    drop_mass_g: float | None = one_drop()
    spoon_g: float | None = one_spoon()
    colorant: Colorant | None = kind(
        "How it colors; left out: it does not", COLORANTS, default=None
    )

    def check(self) -> None:
        """Refuse a dose that outweighs its plastic."""
        grams = float(self.per_100g * self.unit_g(typical(self))[0])
        if grams > 100:
            raise BadInput(
                "per_100g", self.per_100g,
                f"is {grams:.0f} g of {self.name} and outweighs 100 g of plastic",
            )  # fmt: skip

    def unit_g(self, values: Mapping[str, Array]) -> Array:
        """Grams of one drop, one gram or one level teaspoon, by draw."""
        match self.measure:
            case Measured.DROPS:
                return values["drop_mass_g"]
            case Measured.SPOONS:
                return values["spoon_g"]
            case Measured.GRAMS:
                return np.ones_like(values["drop_mass_g"])

    def drawn(self, draws: Draws, prefix: str) -> dict[str, Array]:
        """Draws of its own fields and its colorant's, named by the dose."""
        found: dict[str, Array] = {}
        for record in (self, self.colorant):
            if record is not None:
                found |= drawn(draws, record, prefix)
                _name_doubts(draws, record, prefix, self.name)
        for score in self._scores():
            found[score] = draws.scores(prefix + score)
            draws.note_doubt(prefix + score, _left_open(self.name))
        return found

    def typical(self) -> dict[str, Array]:
        """The first of its draws, without the rest."""
        own = typical(self) | (typical(self.colorant) if self.colorant else {})
        return own | {score: np.zeros(1) for score in self._scores()}

    def _scores(self) -> tuple[str, ...]:
        loose = self.colorant.loose if self.colorant else 0
        return tuple(f"score {i}" for i in range(loose))

    def stuff(self, values: Mapping[str, Array], per_100g: float | None = None) -> Stuff:
        """What it adds to a layer; `per_100g` replaces its own amount."""
        amount = self.per_100g if per_100g is None else per_100g
        grams = amount * self.unit_g(values)
        return self.colorant.stuff(grams, values) if self.colorant else inert(len(grams))

    def left_out(self) -> tuple[str, ...]:
        """A note for each typical value that its grams rest on."""
        return tuple(f"{self.name}: {n}" for n in left_out(self, unused=_UNUSED[self.measure]))

    def color_left_out(self) -> tuple[str, ...]:
        """A note for each typical value that its color rests on."""
        return tuple(f"{self.name}: {n}" for n in left_out(self.colorant)) if self.colorant else ()


def _left_open(name: str) -> Doubt:
    return Doubt(
        f"{name}: what its pucks leave open", Band(-1.645, 0, 1.645),
        f"pour another puck of {name} and read it over black and white",
    )  # fmt: skip


def _name_doubts(draws: Draws, record: Record, prefix: str, name: str) -> None:
    for field in fields_of(type(record)):
        doubt = field.spec.doubt
        if doubt is not None and getattr(record, field.name) is None:
            named = Doubt(f"{name}: {doubt.label}", doubt.band, doubt.measure, doubt.logarithmic)
            draws.note_doubt(prefix + field.name, named)
