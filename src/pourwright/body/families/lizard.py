"""Lizard: a flat head, a ringed trunk, four bent legs with toes and a long tail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, joined, stations
from pourwright.body.part.eased import eased
from pourwright.body.part.foot import foot
from pourwright.body.part.hull import Hull, socket
from pourwright.body.part.limb import bent, tapered
from pourwright.body.part.ring import FINE, rings
from pourwright.body.part.tail import wave
from pourwright.body.part.usual import or_usual

# Places along the trunk and shares of its width or of the head's; a shape of our own.
SNOUT, CHEEKS, NECK, BELLY = 0.16, 0.17, 0.32, 0.6
SNOUT_WIDE, NECK_WIDE, HEAD_FLAT = 0.66, 0.68, 0.85
FORELEGS, HINDLEGS, LEG_ASIDE = 0.38, 0.9, 0.5
EYE_FROM_NOSE, EYE_ASIDE, EYE_WIDE = 0.135, 0.27, 0.2
TIP_SHARE, TAIL_BENDS = 0.28, 2
POINTS = 32
LEG_THICK, ANKLE_THICK, FOOT_LONG = 0.36, 0.24, 0.34


@dataclass(frozen=True, slots=True, kw_only=True)
class Lizard(Family):
    """A lizard seen from its back, its legs and tail lying in the parting plane."""

    key: ClassVar[str] = "lizard"
    label: ClassVar[str] = "Lizard"

    length_mm: float = number("Length, tail included", low=40, high=350, default=150)
    trunk_mm: float = number("From the nose to the hips", low=20, high=200, default=68)
    body_mm: float = number("Width of the body", low=4, high=50, default=14)
    thick_mm: float = number("Thickness of the body", low=3, high=50, default=11)
    head_mm: float = number("Width of the head", low=4, high=60, default=15.5)
    tail_mm: float = number("Thickness where the tail begins", low=2, high=40, default=8)
    tail_swing_mm: float = number(
        "How far the tail swings, side to side", low=0, high=80, default=14
    )
    leg_mm: float = number(
        "Length of a leg, foot included; 0 for none", low=0, high=100, default=27
    )
    rings: int | None = number(
        "Rings around the trunk; 0 for none, as usual if left out", low=0, high=40, default=None
    )
    eye_mm: float | None = number(
        "Eye sockets across; 0 for none, in proportion if left out", low=0, high=20, default=None
    )

    def check(self) -> None:
        """Refuse parts that do not fit each other."""
        if self.trunk_mm > 0.7 * self.length_mm:
            raise BadInput("trunk_mm", self.trunk_mm, "is over 0.7 of the length")
        if self.body_mm > 0.4 * self.trunk_mm:
            raise BadInput("body_mm", self.body_mm, "is over 0.4 of the trunk")
        if not 0.4 * self.body_mm <= self.thick_mm <= 1.2 * self.body_mm:
            why = "must lie between 0.4 and 1.2 of the body's width"
            raise BadInput("thick_mm", self.thick_mm, why)
        if not 0.8 * self.body_mm <= self.head_mm <= 1.5 * self.body_mm:
            why = "must lie between 0.8 and 1.5 of the body's width"
            raise BadInput("head_mm", self.head_mm, why)
        if self.tail_mm > min(self.thick_mm, self.body_mm):
            raise BadInput("tail_mm", self.tail_mm, "is thicker than the body")
        if self.tail_swing_mm > 0.3 * (self.length_mm - self.trunk_mm):
            raise BadInput("tail_swing_mm", self.tail_swing_mm, "is over 0.3 of the tail's length")
        if self.leg_mm and not self.body_mm <= self.leg_mm <= 0.6 * self.trunk_mm:
            why = "must lie between the body's width and 0.6 of the trunk, or be 0"
            raise BadInput("leg_mm", self.leg_mm, why)
        if self.eye_mm and self.eye_mm > 0.3 * min(self.head_mm, self.thick_mm):
            raise BadInput("eye_mm", self.eye_mm, "is over 0.3 of the head")

    def solid(self) -> Solid:
        """Trunk with its tail, less two eye sockets, joined with four legs."""
        hull = self._hull()
        return joined(self._trunk(hull), *self._legs(hull))

    def _trunk(self, hull: Hull) -> Solid:
        trunk = hull.solid(POINTS)
        eye = or_usual(self.eye_mm, EYE_WIDE * min(self.head_mm, self.thick_mm))
        if not eye:
            return trunk
        right = socket(hull, (EYE_FROM_NOSE * self.trunk_mm, EYE_ASIDE * self.head_mm), eye)
        return trunk - (right + right.mirror((0.0, 1.0, 0.0)))

    def _hull(self) -> Hull:
        """Head, neck, trunk and tail in one; the tail tapers evenly and swings as a wave."""
        trunk, length = self.trunk_mm, self.length_mm
        snout, tip = SNOUT * trunk, TIP_SHARE * self.tail_mm / 2
        ringed = NECK * trunk, trunk
        grooves = rings(self.rings, None, ringed, self.body_mm, style=FINE)
        x = grooves.among(stations(length, snout, tip, middle=65, dome=16))
        at = (0.0, CHEEKS * trunk, NECK * trunk, BELLY * trunk, trunk)
        wide = (
            SNOUT_WIDE * self.head_mm, self.head_mm, NECK_WIDE * self.body_mm, self.body_mm,
            self.tail_mm,
        )  # fmt: skip
        flat = HEAD_FLAT * self.thick_mm
        thick = (SNOUT_WIDE * flat, flat, NECK_WIDE * self.thick_mm, self.thick_mm, self.tail_mm)
        left = np.interp(x, [trunk, length], [1.0, TIP_SHARE]) * grooves.left(x)
        left = left * domed(x, length, snout, tip) / 2
        return Hull(
            x=x, half_y=eased(x, at, wide) * left, half_z=eased(x, at, thick) * left,
            mid_y=self._swing(x),
        )  # fmt: skip

    def _swing(self, x: Array) -> Array:
        path = wave(self.length_mm - self.trunk_mm, self.tail_swing_mm, TAIL_BENDS)
        return np.interp(x - self.trunk_mm, path[:, 0], path[:, 1])

    def _legs(self, hull: Hull) -> list[Solid]:
        """Forelegs that reach forward, hind legs that reach back."""
        if not self.leg_mm:
            return []
        fore = self._leg(hull, FORELEGS * self.trunk_mm, forward=True)
        hind = self._leg(hull, HINDLEGS * self.trunk_mm, forward=False)
        return [*fore, *hind, *(limb.mirror((0.0, 1.0, 0.0)) for limb in (*fore, *hind))]

    def _leg(self, hull: Hull, root: float, *, forward: bool) -> list[Solid]:
        """A leg bent at its knee, and its foot of three toes."""
        long, thick, ankle = (
            self.leg_mm * (1 - FOOT_LONG), LEG_THICK * self.body_mm, ANKLE_THICK * self.body_mm,
        )  # fmt: skip
        path = bent((0.0, 0.0), (-0.25, 0.5), (-0.05, 0.95), (0.5, 0.85)) * long
        heading = float(np.degrees(np.arctan2(*(path[-1] - path[-2])[::-1])))
        toes = foot(FOOT_LONG * self.leg_mm, 0.8 * ankle).rotate((0.0, 0.0, heading))
        limbs = tapered(path, thick, ankle, flat=0.9), toes.translate((*path[-2], 0.0))
        sense = -1.0 if forward else 1.0
        place = (root, LEG_ASIDE * float(np.interp(root, hull.x, hull.half_y)), 0.0)
        return [limb.scale((sense, 1.0, 1.0)).translate(place) for limb in limbs]
