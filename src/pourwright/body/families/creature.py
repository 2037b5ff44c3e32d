"""Creature: a deeply ribbed body with side wings, feelers and two beaver-tail flappers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, joined, stations, straight
from pourwright.body.part.limb import bent, flapper, tapered
from pourwright.body.part.ring import RingStyle, refuse_deep_rings, rings
from pourwright.body.part.usual import or_usual

# Shares of the body's width and length; a shape of our own.
RIBS = RingStyle(0.2, 0.08, 0.42)
NOSE, TAIL, THINNED = 0.55, 0.5, 0.7
WING_AT, WING_LONG, WING_WIDE = 0.4, 1.65, 0.4
FEELER_AT, FEELER_LONG, FEELER_THICK = 0.72, 1.5, 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Creature(Family):
    """A creature bait, every limb lying in the parting plane."""

    key: ClassVar[str] = "creature"
    label: ClassVar[str] = "Creature"

    length_mm: float = number("Length, flappers included", low=30, high=250, default=105)
    body_length_mm: float = number("Length of the body", low=15, high=200, default=66)
    body_width_mm: float = number("Width of the body", low=4, high=60, default=14)
    body_thick_mm: float = number("Thickness of the body", low=3, high=50, default=11)
    flapper_width_mm: float = number("Width of a flapper", low=3, high=60, default=12)
    flapper_thick_mm: float = number("Thickness of a flapper", low=0.8, high=15, default=2.6)
    wing_mm: float | None = number(
        "Length of a side wing, root to tip; 0 for none, in proportion if left out",
        low=0, high=120, default=None,
    )  # fmt: skip
    feeler_mm: float | None = number(
        "Length of a feeler, root to tip; 0 for none, in proportion if left out",
        low=0, high=120, default=None,
    )  # fmt: skip
    rings: int | None = number(
        "Ribs around the body, as grooves between them; 0 for none, as usual if left out",
        low=0, high=50, default=None,
    )  # fmt: skip
    ring_depth_mm: float | None = number(
        "Depth between the ribs; in proportion if left out", low=0, high=10, default=None
    )

    def check(self) -> None:
        """Refuse limbs that do not fit the body, and grooves too deep."""
        if not 0.35 * self.length_mm <= self.body_length_mm <= 0.85 * self.length_mm:
            why = "must lie between 0.35 and 0.85 of the length"
            raise BadInput("body_length_mm", self.body_length_mm, why)
        if self.body_width_mm > self.body_length_mm / 2:
            raise BadInput("body_width_mm", self.body_width_mm, "is over half the body's length")
        if not self.body_width_mm / 3 <= self.body_thick_mm <= self.body_width_mm:
            why = "must lie between a third of the body's width and all of it"
            raise BadInput("body_thick_mm", self.body_thick_mm, why)
        if self.flapper_width_mm > self.length_mm - self.body_length_mm:
            raise BadInput("flapper_width_mm", self.flapper_width_mm, "is more than its length")
        if self.flapper_width_mm > 1.4 * self.body_width_mm:
            raise BadInput("flapper_width_mm", self.flapper_width_mm, "is over 1.4 of the body")
        if self.flapper_thick_mm > self.body_thick_mm / 2:
            raise BadInput("flapper_thick_mm", self.flapper_thick_mm, "is over half of the body")
        for name in ("wing_mm", "feeler_mm"):
            long = getattr(self, name)
            if long and not self.body_width_mm <= long <= self.body_length_mm:
                raise BadInput(name, long, "must lie between the body's width and length, or be 0")
        refuse_deep_rings(self.ring_depth_mm, self.body_thick_mm)

    def solid(self) -> Solid:
        """Body, wings, feelers and flappers joined; the flappers end at the stated length."""
        limbs = [self._flapper(), *self._wing(), *self._feeler()]
        return joined(self._body(), *limbs, *(limb.mirror((0.0, 1.0, 0.0)) for limb in limbs))

    def _body(self) -> Solid:
        """A ribbed body that thins toward its flappers."""
        end, nose, tail = self.body_length_mm, NOSE * self.body_width_mm, TAIL * self.body_width_mm
        ribbed = 0.8 * nose, end - 0.5 * tail
        grooves = rings(self.rings, self.ring_depth_mm, ribbed, self.body_width_mm, style=RIBS)
        x = grooves.among(stations(end, nose, tail, middle=13, dome=20))
        thinned = 1 - (1 - THINNED) * np.clip((x / end - 0.35) / 0.65, 0, 1) ** 2
        half = thinned * grooves.left(x) * domed(x, end, nose, tail) / 2
        return straight(x, half * self.body_width_mm, half * self.body_thick_mm, points=32)

    def _flapper(self) -> Solid:
        """A broad paddle behind the body, its tip at the stated length."""
        width = self.body_width_mm
        root = self.body_length_mm - 0.7 * width
        long = self.length_mm - root
        path = bent((0.0, 0.0), (0.4 * long, 0.0), (long, 0.3 * long), count=25)
        solid = flapper(path, self.flapper_width_mm, self.flapper_thick_mm)
        reach = solid.bounding_box()[3]
        return solid.scale((long / reach, 1.0, 1.0)).translate((root, 0.2 * width, 0.0))

    def _wing(self) -> list[Solid]:
        long = or_usual(self.wing_mm, WING_LONG * self.body_width_mm)
        if not long:
            return []
        root, width = WING_AT * self.body_length_mm, self.body_width_mm
        path = bent(
            (root, 0.1 * width), (root + 0.2 * long, 0.1 * width + 0.6 * long),
            (root + 0.7 * long, 0.1 * width + 0.714 * long),
            count=21,
        )  # fmt: skip
        return [flapper(path, WING_WIDE * long, self.flapper_thick_mm)]

    def _feeler(self) -> list[Solid]:
        long = or_usual(self.feeler_mm, FEELER_LONG * self.body_width_mm)
        if not long:
            return []
        root, width = FEELER_AT * self.body_length_mm, self.body_width_mm
        path = bent(
            (root, 0.1 * width), (root + 0.1 * long, 0.2 * width + 0.45 * long),
            (root + 0.86 * long, 0.1 * width + 0.51 * long),
            count=15,
        )  # fmt: skip
        return [tapered(path, FEELER_THICK * width, 0.5 * FEELER_THICK * width, flat=0.8)]
