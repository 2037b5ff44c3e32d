"""Straight worm: a rod that thins toward its tail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, stations, straight


@dataclass(frozen=True, slots=True, kw_only=True)
class Worm(Family):
    """A straight worm."""

    key: ClassVar[str] = "worm"
    label: ClassVar[str] = "Straight worm"

    length_mm: float = number("Length", low=20, high=500, default=160)
    diameter_mm: float = number("Thickest place", low=2, high=50, default=9.5)
    tail_diameter_mm: float = number("Tail just before its tip", low=1, high=50, default=3.5)
    taper_share: float = number(
        "Where along the length it starts to thin, 0 to 1", low=0, high=0.95, default=0.4
    )

    def check(self) -> None:
        """Refuse a tail thicker than the body, and a body thicker than long."""
        if self.tail_diameter_mm > self.diameter_mm:
            raise BadInput("tail_diameter_mm", self.tail_diameter_mm, "is thicker than the body")
        if self.diameter_mm > self.length_mm / 2:
            raise BadInput("diameter_mm", self.diameter_mm, "is more than half the length")

    def solid(self) -> Solid:
        """Full thickness up to the taper, then evenly thinner; both ends round."""
        ends = self.diameter_mm / 2, self.tail_diameter_mm / 2
        bend = self.taper_share * self.length_mm
        x = np.union1d(stations(self.length_mm, *ends), [bend])
        thick = np.interp(x, [bend, self.length_mm], [self.diameter_mm, self.tail_diameter_mm])
        half = thick / 2 * domed(x, self.length_mm, *ends)
        return straight(x, half, half)
