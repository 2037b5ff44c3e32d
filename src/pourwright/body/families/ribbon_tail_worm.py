"""Ribbon-tail worm: a ringed body and behind it a long thin ribbon that waves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, joined
from pourwright.body.part.ring import refuse_deep_rings, rings
from pourwright.body.part.rod import Rod, refuse_odd_sac, sac
from pourwright.body.part.tail import Blade, tightest_mm, wave

# Shares of the body's length, of the root and of the ribbon; a shape of our own.
TAPER_STARTS, ROOT_INSIDE, BROADEST = 0.55, 0.8, 0.55


@dataclass(frozen=True, slots=True, kw_only=True)
class RibbonTailWorm(Family):
    """A ribbon-tail worm, its ribbon waving in the parting plane."""

    key: ClassVar[str] = "ribbon_tail_worm"
    label: ClassVar[str] = "Ribbon-tail worm"

    length_mm: float = number(
        "Length from the nose to the tip of the ribbon, as it lies", low=40, high=500, default=200
    )
    body_length_mm: float = number("Length of the body", low=15, high=400, default=98)
    diameter_mm: float = number("Thickest place of the body", low=3, high=50, default=10)
    root_mm: float = number("Thickness where the ribbon begins", low=1.5, high=40, default=5)
    ribbon_width_mm: float = number("Width of the ribbon", low=2, high=50, default=9)
    ribbon_thick_mm: float = number("Thickness of the ribbon", low=0.6, high=8, default=1.5)
    bends: int = number("Bends of the ribbon; 0 if it lies straight", low=0, high=8, default=4)
    swing_mm: float = number(
        "How far the middle of the ribbon swings, side to side", low=0, high=80, default=13
    )
    rings: int | None = number(
        "Rings around the body; 0 for none, as usual if left out", low=0, high=70, default=None
    )
    ring_depth_mm: float | None = number(
        "Depth of the rings; in proportion if left out", low=0, high=10, default=None
    )
    sac_mm: float | None = number(
        "Thickness across the egg-sac band; 0 for none, in proportion if left out",
        low=0, high=70, default=None,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse a ribbon that does not fit its body or its own bends, details out of size."""
        if self.diameter_mm > self.body_length_mm / 2:
            raise BadInput("diameter_mm", self.diameter_mm, "is more than half the body's length")
        if self.body_length_mm > 0.85 * self.length_mm:
            raise BadInput("body_length_mm", self.body_length_mm, "leaves no room for a ribbon")
        if self.root_mm > self.diameter_mm:
            raise BadInput("root_mm", self.root_mm, "is thicker than the body")
        if self.ribbon_thick_mm > self.root_mm:
            raise BadInput("ribbon_thick_mm", self.ribbon_thick_mm, "is thicker than the root")
        if self.ribbon_width_mm > self._ribbon_mm / 3:
            raise BadInput("ribbon_width_mm", self.ribbon_width_mm, "is over a third of its length")
        if self.ribbon_width_mm > 1.8 * tightest_mm(self._ribbon_mm, self.swing_mm, self.bends):
            raise BadInput("swing_mm", self.swing_mm, "bends the ribbon tighter than it is wide")
        refuse_deep_rings(self.ring_depth_mm, self.diameter_mm)
        refuse_odd_sac(self.sac_mm, self.diameter_mm)

    @property
    def _ribbon_from_mm(self) -> float:
        return self.body_length_mm - ROOT_INSIDE * self.root_mm

    @property
    def _ribbon_mm(self) -> float:
        return self.length_mm - self._ribbon_from_mm

    def solid(self) -> Solid:
        """A rod joined with a swept ribbon."""
        return joined(self._body(), self._ribbon())

    def _body(self) -> Solid:
        nose, root = self.diameter_mm / 2, self.root_mm / 2
        bend = TAPER_STARTS * self.body_length_mm

        def thick(x: Array) -> Array:
            return np.interp(x, [bend, self.body_length_mm], [self.diameter_mm, self.root_mm])

        ringed = nose, self.body_length_mm - root
        rod = Rod(
            length_mm=self.body_length_mm,
            domes_mm=(nose, root),
            thick=thick,
            bends_mm=(bend,),
            rings=rings(self.rings, self.ring_depth_mm, ringed, self.diameter_mm),
            sac=sac(self.sac_mm, self.body_length_mm, self.diameter_mm),
        )
        return rod.solid()

    def _ribbon(self) -> Solid:
        path = wave(self._ribbon_mm, self.swing_mm, self.bends)
        blade = Blade(
            root_mm=self.root_mm, width_mm=self.ribbon_width_mm, thick_mm=self.ribbon_thick_mm
        )
        start = np.array([self._ribbon_from_mm, 0.0])
        return blade.along(path + start, broadest=BROADEST)
