"""Tube: a hollow body with a solid nose and a slit skirt; its mold needs a core pin."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import manifold3d
import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, along, axial, rounded


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
        """Refuse a wall without a bore, and parts longer than the tube."""
        if self.wall_mm >= self.diameter_mm / 2 - 0.5:
            raise BadInput("wall_mm", self.wall_mm, "leaves no bore")
        if self.nose_mm + self.skirt_mm > self.length_mm:
            raise BadInput("skirt_mm", self.skirt_mm, "nose and skirt are longer than the tube")
        if self.slits % 2:
            raise BadInput("slits", self.slits, "must be an even number")
        if self.diameter_mm > self.length_mm * 0.7:
            raise BadInput("diameter_mm", self.diameter_mm, "is over 0.7 of the length")

    def solid(self) -> Solid:
        """Outside less bore less slits."""
        x = along(self.length_mm, 81)
        half = self.diameter_mm / 2 * rounded(x, self.length_mm, self.diameter_mm * 0.55, 0.0)
        bait = axial(x, half, half, points=64) - self._bore()
        for k in range(self.slits // 2 if self.skirt_mm else 0):
            bait = bait - self._slit(180 * (k + 0.5) / (self.slits / 2))
        return bait

    def _bore(self) -> Solid:
        radius = self.diameter_mm / 2 - self.wall_mm
        length = self.length_mm - self.nose_mm + 5.0
        x = along(length, 61)
        half = radius * rounded(x, length, radius, 0.0)
        return axial(x + self.nose_mm, half, half, points=64)

    def _slit(self, degrees: float) -> Solid:
        size = np.array([self.skirt_mm + 1.0, 2 * self.diameter_mm, self.slit_mm])
        block = manifold3d.Manifold.cube(size, center=True)
        return block.translate((self.length_mm - self.skirt_mm / 2 + 0.5, 0, 0)).rotate(
            (degrees, 0, 0)
        )
