"""Tube: a hollow body with a solid nose and a slit skirt; its mold needs a core pin."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import manifold3d
import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Core, Family
from pourwright.body.loft import Solid, domed, joined, stations, straight

# How far cutters reach past the open end, so that no two faces coincide.
PAST_END_MM = 5.0
NOSE_ROUND = 0.55
POINTS = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube(Family):
    """A tube."""

    key: ClassVar[str] = "tube"
    label: ClassVar[str] = "Tube"
    core_pin: ClassVar[bool] = True

    length_mm: float = number("Length", low=25, high=200, default=90)
    diameter_mm: float = number("Outside diameter", low=5, high=50, default=14.5)
    wall_mm: float = number("Wall", low=0.8, high=10, default=2.2)
    nose_mm: float = number("Solid nose", low=3, high=80, default=14)
    skirt_mm: float = number("Slit length of the skirt", low=0, high=150, default=36)
    slits: int = number(
        "Strands of the skirt, an even number; 0 for none", low=0, high=40, default=12
    )
    slit_mm: float = number("Width of a slit", low=0.2, high=3, default=0.5)

    def check(self) -> None:
        """Refuse a wall without a bore, parts longer than the tube, slits that leave no strand."""
        if self.wall_mm >= self.diameter_mm / 2 - 0.5:
            raise BadInput("wall_mm", self.wall_mm, "leaves no bore")
        if self.diameter_mm > self.length_mm * 0.7:
            raise BadInput("diameter_mm", self.diameter_mm, "is over 0.7 of the length")
        if self.nose_mm < self.wall_mm:
            raise BadInput("nose_mm", self.nose_mm, "is thinner than the wall")
        if self.nose_mm + self.bore_mm / 2 > self.length_mm:
            raise BadInput("nose_mm", self.nose_mm, "leaves no room for the bore")
        if self.nose_mm + self.skirt_mm > self.length_mm:
            raise BadInput("skirt_mm", self.skirt_mm, "nose and skirt are longer than the tube")
        if self.slits % 2:
            raise BadInput("slits", self.slits, "must be an even number")
        if self.skirt_mm and self.slits * self.slit_mm > 2 * self.bore_mm:
            raise BadInput("slit_mm", self.slit_mm, "is too wide: no strands would be left")

    @property
    def bore_mm(self) -> float:
        """Inside diameter."""
        return self.diameter_mm - 2 * self.wall_mm

    def solid(self) -> Solid:
        """Outside less bore less slits."""
        cuts = self.slits // 2 if self.skirt_mm else 0
        slits = [self._slit(90 + cut * 180 / cuts) for cut in range(cuts)]
        return self._outside() - joined(self._bore(), *slits)

    def core(self) -> Core:
        """The bore; slits are cut after pouring."""
        return Core(self._bore(), self._outside())

    def _outside(self) -> Solid:
        nose = NOSE_ROUND * self.diameter_mm
        x = stations(self.length_mm, nose, 0.0, middle=2)
        half = self.diameter_mm / 2 * domed(x, self.length_mm, nose, 0.0)
        return straight(x, half, half, points=POINTS)

    def _bore(self) -> Solid:
        radius = self.bore_mm / 2
        length = self.length_mm - self.nose_mm + PAST_END_MM
        x = stations(length, radius, 0.0, middle=2, dome=24)
        half = radius * domed(x, length, radius, 0.0)
        return straight(x + self.nose_mm, half, half, points=POINTS)

    def _slit(self, turned_degrees: float) -> Solid:
        size = np.array([self.skirt_mm + PAST_END_MM, 2 * self.diameter_mm, self.slit_mm])
        block = manifold3d.Manifold.cube(size, center=True)
        middle = self.length_mm + (PAST_END_MM - self.skirt_mm) / 2
        return block.translate((middle, 0.0, 0.0)).rotate((turned_degrees, 0.0, 0.0))
