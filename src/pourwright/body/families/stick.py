"""Stick: a thick rod, fattest in the middle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, stations, straight


@dataclass(frozen=True, slots=True, kw_only=True)
class Stick(Family):
    """A stick bait."""

    key: ClassVar[str] = "stick"
    label: ClassVar[str] = "Stick"

    length_mm: float = number("Length", low=20, high=400, default=120)
    middle_mm: float = number("Thickness in the middle", low=2, high=50, default=10)
    end_mm: float = number("Thickness at the ends", low=2, high=50, default=7.5)

    def check(self) -> None:
        """Refuse ends thicker than the middle, and a middle thicker than long."""
        if self.end_mm > self.middle_mm:
            raise BadInput("end_mm", self.end_mm, "is thicker than the middle")
        if self.middle_mm > self.length_mm / 2:
            raise BadInput("middle_mm", self.middle_mm, "is more than half the length")

    def solid(self) -> Solid:
        """A rod that swells as a parabola from its round ends to its middle."""
        dome = self.end_mm / 2
        x = stations(self.length_mm, dome, dome, middle=81)
        off_middle = 2 * x / self.length_mm - 1
        thick = self.end_mm + (self.middle_mm - self.end_mm) * (1 - off_middle**2)
        half = thick / 2 * domed(x, self.length_mm, dome, dome)
        return straight(x, half, half)
