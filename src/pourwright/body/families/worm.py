"""Straight worm: a ringed rod with an egg-sac band that thins toward its tail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid
from pourwright.body.part.ring import refuse_deep_rings, rings
from pourwright.body.part.rod import Rod, refuse_odd_sac, sac


@dataclass(frozen=True, slots=True, kw_only=True)
class Worm(Family):
    """A straight worm."""

    key: ClassVar[str] = "worm"
    label: ClassVar[str] = "Straight worm"

    length_mm: float = number("Length", low=20, high=500, default=160)
    diameter_mm: float = number("Thickest place of the body", low=2, high=50, default=9.5)
    tail_diameter_mm: float = number("Tail just before its tip", low=1, high=50, default=3.5)
    taper_share: float = number(
        "Where along the length it starts to thin, 0 to 1", low=0, high=0.95, default=0.4
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
        """Refuse a tail thicker than the body, a body thicker than long, details out of size."""
        if self.tail_diameter_mm > self.diameter_mm:
            raise BadInput("tail_diameter_mm", self.tail_diameter_mm, "is thicker than the body")
        if self.diameter_mm > self.length_mm / 2:
            raise BadInput("diameter_mm", self.diameter_mm, "is more than half the length")
        refuse_deep_rings(self.ring_depth_mm, self.diameter_mm)
        refuse_odd_sac(self.sac_mm, self.diameter_mm)

    def solid(self) -> Solid:
        """Full thickness up to the taper, then evenly thinner; both ends round."""
        nose, tail = self.diameter_mm / 2, self.tail_diameter_mm / 2
        bend = self.taper_share * self.length_mm

        def thick(x: Array) -> Array:
            return np.interp(x, [bend, self.length_mm], [self.diameter_mm, self.tail_diameter_mm])

        ringed = nose, self.length_mm - tail
        rod = Rod(
            length_mm=self.length_mm,
            domes_mm=(nose, tail),
            thick=thick,
            bends_mm=(bend,),
            rings=rings(self.rings, self.ring_depth_mm, ringed, self.diameter_mm),
            sac=sac(self.sac_mm, self.length_mm, self.diameter_mm),
        )
        return rod.solid()
