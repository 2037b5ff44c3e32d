"""What a maker writes down about pucks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, text
from pourwright.base.record import Record
from pourwright.color.fit.reading import (
    BAIT_THICK,
    DRIP_THICK,
    PUCK_THICK,
    WEIGHED_DOUBT,
    Instrument,
    Puck,
    Reading,
    check_numbers,
    drop_doubt,
)
from pourwright.color.lab import Lab
from pourwright.color.match.target import WHITEST_READ
from pourwright.color.slab import Placing
from pourwright.spectrum.color_space import xyz_of_lab
from pourwright.spectrum.light import BANDS, white_xyz
from pourwright.spectrum.smooth import smooth_spectrum


class Source(StrEnum):
    """What was read."""

    PUCK = "puck"
    DRIP = "drip"
    LOT = "lot"


_THICK_DOUBT = {Source.PUCK: PUCK_THICK, Source.DRIP: DRIP_THICK, Source.LOT: BAIT_THICK}


class Use(StrEnum):
    """Whether it teaches or only tests."""

    FIT = "fit"
    CHECK = "check"


@dataclass(frozen=True, slots=True, kw_only=True)
class Read(Record):
    """A color as an instrument gave it: L*a*b* in daylight, or 31 reflectances."""

    lab: Lab | None = part("L*a*b*, D65", default=None)
    reflectance: tuple[float, ...] = parts(
        "31 reflectances, 400 to 700 nm by 10, 0 to 1", most=BANDS, low=0, high=WHITEST_READ
    )

    def check(self) -> None:
        """Refuse none, both, and half a spectrum."""
        if (self.lab is not None) == bool(self.reflectance):
            raise BadInput("lab", None, "give L*a*b* or 31 reflectances, not both")
        if self.reflectance and len(self.reflectance) != BANDS:
            raise BadInput("reflectance", len(self.reflectance), f"needs {BANDS} values")

    def values(self) -> Array:
        """Three numbers or 31."""
        return np.array(self.reflectance) if self.lab is None else self.lab.array()

    def spectrum(self) -> Array:
        """31 reflectances; smooth, and at most a perfect white, where only L*a*b* is known."""
        if self.lab is None:
            return np.array(self.reflectance)
        return smooth_spectrum(np.clip(xyz_of_lab(self.lab.array(), white_xyz()), 0, white_xyz()))


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRead(Record):
    """One reading of plastic over a card."""

    over: Read = part("The bare card, read by the same instrument")
    read: Read = part("The plastic over it")

    def check(self) -> None:
        """Refuse a card that sends back more light than it gets."""
        if max(self.over.reflectance, default=0) > 1:
            raise BadInput(
                "over", max(self.over.reflectance),
                "is more than all light: the card glows (optical brightener) or the meter is off; "
                "use another card, at most 1",
            )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PuckDose(Record):
    """A colorant in a puck."""

    colorant: str = text("Its name among the colorants", most=60)
    grams_per_100g: float = number("Grams in 100 g of plastic", low=1e-5, high=100)
    drops: float | None = number(
        "Drops counted for it; left out: it was weighed", low=0.01, high=2000, default=None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PuckEntry(Record):
    """Poured plastic with its recipe, its thickness and its readings."""

    name: str = text("Name", most=60)
    doses: tuple[PuckDose, ...] = parts("What is in it; empty: plain plastic", most=12)
    thick_mm: float = number("Thickness", low=0.2, high=60, default=5)
    placing: Placing = pick("How it lies on the card", default=Placing.CONTACT)
    instrument: Instrument = pick("What read it", default=Instrument.METER)
    source: Source = pick("What it is", default=Source.PUCK)
    use: Use = pick("Teach or test", default=Use.FIT)
    readings: tuple[CardRead, ...] = parts("Readings", least=1, most=12)

    def check(self) -> None:
        """Refuse one colorant twice, and numbers that do not go with the instrument."""
        names = [d.colorant for d in self.doses]
        if len(set(names)) != len(names):
            raise BadInput("doses", names, "names a colorant twice; add the grams up")
        check_numbers(self.instrument, (bool(r.read.reflectance) for r in self.readings))

    def puck(self, index: dict[str, int]) -> Puck:
        """The same for the fit, colorants by their place.

        Raises: BadInput for a colorant that is not on the list.
        """
        doses = []
        for dose in self.doses:
            if dose.colorant not in index:
                raise BadInput("doses", dose.colorant, f"is not among {', '.join(index)}")
            counted = drop_doubt(dose.drops) if dose.drops else 0.0
            doubt = float(np.hypot(counted, WEIGHED_DOUBT))
            doses.append((index[dose.colorant], dose.grams_per_100g, doubt))
        readings = tuple(
            Reading(self.instrument, r.read.values(), r.over.spectrum(), self.placing)
            for r in self.readings
        )
        return Puck(self.name, tuple(doses), self.thick_mm, readings, _THICK_DOUBT[self.source])
