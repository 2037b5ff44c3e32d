"""A property of a material: its band, where it comes from, and how to narrow it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import Source


@dataclass(frozen=True, slots=True)
class Property:
    """A banded value with its source; `measure` is empty where no cheap test exists."""

    label: str
    band: Band
    source: Source
    measure: str = ""
    logarithmic: bool = False

    @property
    def typical(self) -> float:
        """The middle of the band."""
        return self.band.typical

    @property
    def ends(self) -> tuple[float, float, float]:
        """Low, typical, high, as the declaration of a field takes them."""
        return self.band.low, self.band.typical, self.band.high

    def doubt(self) -> Doubt:
        """The property as something to draw."""
        return Doubt(self.label, self.band, self.measure, self.logarithmic)

    def drawn(self, draws: Draws) -> Array:
        """Draws of the property; every room that asks gets the same ones."""
        return draws.of(self.label, self.doubt())
