"""Craw: a ringed body, two pinching claws and a few legs, spread in the parting plane."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, stations, straight, swept

# Shares of the body's thickness; a shape of our own.
FLATNESS = 0.85
TAIL_RINGS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Craw(Family):
    """A craw; it swims backward, so its tail is the nose of the bait."""

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
        if self.claw_thick_mm > self.body_mm * FLATNESS:
            raise BadInput("claw_thick_mm", self.claw_thick_mm, "is thicker than the body")
        if self.claw_width_mm > self.claw_length_mm:
            raise BadInput("claw_width_mm", self.claw_width_mm, "is more than the claw's length")
        if self.body_mm > self.length_mm * 0.4:
            raise BadInput("body_mm", self.body_mm, "is over 0.4 of the length")

    def solid(self) -> Solid:
        """Body, claws and legs joined; the tips of the claws end at the stated length."""
        claw = self._claw().rotate((0.0, 0.0, self.splay_degrees))
        start = self.length_mm - claw.bounding_box()[3]
        end = start + 0.4 * self.body_mm
        limb = claw.translate((start, 0.2 * self.body_mm, 0.0))
        for pair in range(self.leg_pairs):
            limb = limb + self._leg(end * (0.5 + 0.09 * pair))
        return self._body(end) + limb + limb.mirror((0.0, 1.0, 0.0))

    def _body(self, end: float) -> Solid:
        """A ringed tail in front, widening to a smooth back."""
        nose, tail = 0.5 * self.body_mm, 0.45 * self.body_mm
        x = stations(end, nose, tail, middle=121)
        share = x / end
        rings = 0.035 * (1 - np.cos(2 * math.pi * TAIL_RINGS * np.minimum(share / 0.5, 1)))
        widened = 0.75 + 0.25 * np.sin(math.pi / 2 * np.clip((share - 0.2) / 0.4, 0, 1))
        half = self.body_mm / 2 * (widened - rings) * domed(x, end, nose, tail)
        return straight(x, half, half * FLATNESS)

    def _claw(self) -> Solid:
        """Arm, palm and two fingers along x."""
        long, wide, thick = self.claw_length_mm, self.claw_width_mm, self.claw_thick_mm
        x = stations(0.6 * long, 0.05 * long, 0.05 * long, middle=5, dome=8)
        arm = domed(x, 0.6 * long, 0.05 * long, 0.05 * long)
        solid = straight(x, 0.15 * wide * arm, 0.4 * thick * arm, points=24)
        x = stations(0.5 * long, 0.25 * long, 0.25 * long, middle=2, dome=16)
        palm = domed(x, 0.5 * long, 0.25 * long, 0.25 * long)
        solid = solid + straight(x + 0.3 * long, 0.5 * wide * palm, 0.5 * thick * palm, points=32)
        for side in (1.0, -1.0):
            solid = solid + self._finger(side)
        return solid

    def _finger(self, side: float) -> Solid:
        s = np.linspace(0, 1, 33)
        x = self.claw_length_mm * (0.55 + 0.45 * s)
        y = side * self.claw_width_mm * (0.2 + 0.1 * np.sin(math.pi * s))
        tip = np.sqrt(1 - s**3)
        path = np.stack([x, y], axis=1)
        return swept(path, 0.18 * self.claw_width_mm * tip, 0.4 * self.claw_thick_mm * tip)

    def _leg(self, start: float) -> Solid:
        s = np.linspace(0, 1, 13)
        reach = self.body_mm * s
        path = np.stack([start + 0.5 * reach, 0.15 * self.body_mm + 0.8 * reach], axis=1)
        tip = np.sqrt(1 - s**4)
        return swept(path, 0.08 * self.body_mm * tip, 0.06 * self.body_mm * tip, points=16)
