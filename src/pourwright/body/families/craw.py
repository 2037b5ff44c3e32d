"""Craw: a body, two claws and a few legs, spread in the parting plane."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, along, axial, ribbon, rounded

LEG_SHARE = 0.16


@dataclass(frozen=True, slots=True, kw_only=True)
class Craw(Family):
    """A craw."""

    key: ClassVar[str] = "craw"
    label: ClassVar[str] = "Craw"

    length_mm: float = number("Length, claws included", low=25, high=200, default=85)
    body_mm: float = number("Thickness of the body", low=4, high=50, default=12)
    claw_length_mm: float = number("Length of a claw", low=8, high=100, default=32)
    claw_width_mm: float = number("Width of a claw", low=3, high=50, default=11)
    claw_thick_mm: float = number("Thickness of a claw", low=1, high=20, default=4)
    splay_degrees: float = number("Claws point outward by, in degrees", low=0, high=60, default=18)
    leg_pairs: int = number("Pairs of legs", low=0, high=5, default=3)

    def check(self) -> None:
        """Refuse claws that outgrow the bait."""
        if self.claw_length_mm > self.length_mm * 0.7:
            raise BadInput("claw_length_mm", self.claw_length_mm, "is over 0.7 of the length")
        if self.claw_thick_mm > self.body_mm:
            raise BadInput("claw_thick_mm", self.claw_thick_mm, "is thicker than the body")
        if self.claw_width_mm > self.claw_length_mm:
            raise BadInput("claw_width_mm", self.claw_width_mm, "is more than the claw's length")
        if self.body_mm > self.length_mm * 0.4:
            raise BadInput("body_mm", self.body_mm, "is over 0.4 of the length")

    @property
    def body_length_mm(self) -> float:
        """Length of the body without the free part of the claws."""
        return self.length_mm - 0.8 * self.claw_length_mm

    def solid(self) -> Solid:
        """Body, claws and legs joined."""
        length = self.body_length_mm
        x = along(length, 81)
        ends = rounded(x, length, self.body_mm * 0.5, self.body_mm * 0.45)
        half = self.body_mm * (0.8 + 0.2 * np.sin(math.pi * np.clip(x / length, 0, 1))) / 2
        bait = axial(x, ends * half, ends * half * 0.85)
        for side in (1.0, -1.0):
            bait = bait + self._claw(side)
            for pair in range(self.leg_pairs):
                bait = bait + self._leg(side, pair)
        return bait

    def _claw(self, side: float) -> Solid:
        q = np.linspace(0, 1, 50)
        angle = math.radians(self.splay_degrees) * side
        reach = q * self.claw_length_mm
        x = self.body_length_mm - self.body_mm * 0.4 + reach * math.cos(angle)
        y = side * self.body_mm * 0.18 + reach * math.sin(angle)
        tip = np.sqrt(np.clip(1 - q**8, 0, 1))
        width = self.claw_width_mm / 2 * (0.28 + 0.72 * np.exp(-(((q - 0.62) / 0.28) ** 2))) * tip
        thick = self.claw_thick_mm / 2 * tip
        return ribbon(np.stack([x, y], axis=1), np.maximum(width, 0.2), np.maximum(thick, 0.2))

    def _leg(self, side: float, pair: int) -> Solid:
        q = np.linspace(0, 1, 20)
        reach = self.length_mm * LEG_SHARE
        start = self.body_length_mm * (0.5 + 0.12 * pair)
        x = start + q * reach * 0.6
        y = side * (self.body_mm * 0.28 + q * reach * 0.8)
        width, thick = 0.012 * self.length_mm * (1 - 0.4 * q), 0.01 * self.length_mm * (1 - 0.3 * q)
        return ribbon(np.stack([x, y], axis=1), width, thick, points=16)
