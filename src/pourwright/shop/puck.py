"""Pucks, drips and pieces of a lot whose color was read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, reference, text
from pourwright.base.record import Record
from pourwright.color.calibrate.entry import Read, Source, Use
from pourwright.color.fit.reading import Instrument
from pourwright.color.slab import Placing
from pourwright.shop.look import Dose
from pourwright.shop.noun import Noun

# Light lost sideways makes a smaller puck read too dark; the middle of this many is safe: estimate.
WIDE_IN_THICKNESSES = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class OverCard(Record):
    """One reading over one card."""

    card: str = reference("The card under it", refers="card")
    read: Read = part("As read: L*a*b* in daylight, or 31 reflectances")


@dataclass(frozen=True, slots=True, kw_only=True)
class Puck(Noun):
    """Poured plastic of known recipe that was read over cards."""

    key: ClassVar[str] = "puck"
    label: ClassVar[str] = "Puck"
    plural: ClassVar[str] = "Pucks"
    place: ClassVar[str] = "pucks"

    plastic: str = reference("Plastic", refers="plastic", default="")
    doses: tuple[Dose, ...] = parts("What is in it, for 100 g; empty: plain plastic", most=12)
    thick_mm: float = number("Thickness", low=0.2, high=60, default=5)
    wide_mm: float | None = number("Width", low=1, high=500, default=None)
    placing: Placing = pick(
        "Poured on the card (contact) or lying on it (air gap): taking one for the other costs 4 "
        "to 5 CIEDE2000",
        default=Placing.CONTACT,
    )
    instrument: Instrument = pick("What read it", default=Instrument.METER)
    source: Source = pick("A puck, a drip from a hot cup, or a bait of a lot", default=Source.PUCK)
    use: Use = pick("Teaches (fit), or only tests (check)", default=Use.FIT)
    look: str = reference("Look, for a drip or a lot", refers="look", default="")
    lot: str = text("Lot code", most=40, default="")
    read_on: str = text(
        "Day it was read, YYYY-MM-DD", pattern="([0-9]{4}-[0-9]{2}-[0-9]{2})?", most=10, default=""
    )
    readings: tuple[OverCard, ...] = parts("Readings; empty until it is read", most=8)
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse what cannot be read or learned from: too narrow, wet, or told twice over."""
        materials = [d.material for d in self.doses]
        if len(set(materials)) != len(materials):
            raise BadInput("doses", materials, "names a material twice; add the amounts up")
        if self.placing not in {Placing.CONTACT, Placing.AIR_GAP}:
            why = "must be contact or air gap: pucks are read dry and over a card"
            raise BadInput("placing", str(self.placing), why)
        if self.wide_mm is not None and self.wide_mm < WIDE_IN_THICKNESSES * self.thick_mm:
            least = WIDE_IN_THICKNESSES * self.thick_mm
            raise BadInput(
                "wide_mm", self.wide_mm,
                f"loses light sideways: at least six thicknesses, {least:g} mm",
            )  # fmt: skip
        spectral = self.instrument is Instrument.SPECTRUM
        for i, reading in enumerate(self.readings):
            if spectral != bool(reading.read.reflectance):
                wanted = "31 reflectances" if spectral else "L*a*b*"
                why = f"must be {wanted} from a {self.instrument.value}"
                raise BadInput(f"readings[{i}].read", None, why)
