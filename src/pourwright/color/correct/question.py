"""What is asked of a hot cup: a target, what went in, and its drip."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, text
from pourwright.base.record import Record
from pourwright.color.calibrate.entry import CardRead
from pourwright.color.correct.cup import DRIP
from pourwright.color.fit.reading import (
    DRIP_THICK,
    WEIGHED_DOUBT,
    Instrument,
    Puck,
    Reading,
    check_numbers,
    drop_doubt,
)
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.question import MatchInput
from pourwright.color.slab import Placing


@dataclass(frozen=True, slots=True, kw_only=True)
class InCup(Record):
    """What was counted into the cup."""

    name: str = text("Bottle", most=60)
    grams: float = number("Grams in the cup", low=1e-4, high=2000)
    drops: float | None = number(
        "Drops counted; left out: it was weighed", low=0.01, high=5000, default=None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Drip(Record):
    """A drip from the hot cup, set on the card."""

    thick_mm: float = number("Thickness", low=0.3, high=20, default=3)
    placing: Placing = pick("How it lies on the card", default=Placing.CONTACT)
    instrument: Instrument = pick("What read it", default=Instrument.METER)
    readings: tuple[CardRead, ...] = parts("Over black, over white", least=1, most=8)

    def check(self) -> None:
        """Refuse numbers that do not go with the instrument."""
        check_numbers(self.instrument, (bool(r.read.reflectance) for r in self.readings))


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectInput(Record):
    """A target with its shelf and cup, what is in the cup, and its drip."""

    match: MatchInput = part("Target, shelf, cup and limits, as for a match")
    in_cup: tuple[InCup, ...] = parts("What was counted into it", most=12)
    drip: Drip = part("The drip, read before pouring")

    def check(self) -> None:
        """Refuse a bottle that is not on the shelf, or twice in the cup."""
        names = [b.name for b in self.match.shelf]
        for item in self.in_cup:
            if item.name not in names:
                raise BadInput("in_cup", item.name, f"is not on the shelf: {', '.join(names)}")
        cup = [i.name for i in self.in_cup]
        if len(set(cup)) != len(cup):
            raise BadInput("in_cup", cup, "names a bottle twice; add the grams up")


def drip_puck(inputs: CorrectInput, bottles: tuple[Bottle, ...]) -> Puck:
    """The drip as the fit takes it, colorants by their place among the bottles."""
    index = {b.name: j for j, b in enumerate(bottles)}
    share = 100 / inputs.match.plastic_g
    doses = tuple(
        (index[i.name], i.grams * share, drop_doubt(i.drops) if i.drops else WEIGHED_DOUBT)
        for i in inputs.in_cup
        if i.name in index
    )
    drip = inputs.drip
    readings = tuple(
        Reading(drip.instrument, r.read.values(), r.over.spectrum(), drip.placing)
        for r in drip.readings
    )
    return Puck(DRIP, doses, drip.thick_mm, readings, DRIP_THICK)
