"""What a pour day comes to: cups, shots and plastic, in all and by batch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.shop.pour_day import PlannedCup, Timetable


@dataclass(frozen=True, slots=True)
class CupSums:
    """The sums of some cups; `cups` counts each layer of a look."""

    cups: int
    shots: int
    plastic_g: float
    remelt_g: float

    @property
    def fresh_g(self) -> float:
        """The plastic that is not remelt."""
        return self.plastic_g - self.remelt_g


def sums_of(cups: Sequence[PlannedCup]) -> CupSums:
    """The sums of these cups."""
    return CupSums(
        cups=sum(len(c.cups) for c in cups),
        shots=sum(c.shots for c in cups),
        plastic_g=sum(c.plastic_g for c in cups),
        remelt_g=sum(c.remelt_g for c in cups),
    )


def cups_by_batch(table: Timetable) -> dict[int, tuple[PlannedCup, ...]]:
    """The cups of each batch that has any, by its place."""
    places = sorted({c.batch for c in table.cups})
    return {place: tuple(c for c in table.cups if c.batch == place) for place in places}
