"""Stick: a thick ringed rod, fattest in the middle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, TypeVar

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid
from pourwright.body.part.ring import refuse_deep_rings, rings
from pourwright.body.part.rod import SAC_AT, Rod, refuse_odd_sac, sac

V = TypeVar("V", float, Array)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stick(Family):
    """A stick bait."""

    key: ClassVar[str] = "stick"
    label: ClassVar[str] = "Stick"

    length_mm: float = number("Length", low=20, high=400, default=120)
    middle_mm: float = number("Thickness in the middle", low=2, high=50, default=10)
    end_mm: float = number("Thickness at the ends", low=2, high=50, default=7.5)
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
        """Refuse ends thicker than the middle, a middle thicker than long, details out of size."""
        if self.end_mm > self.middle_mm:
            raise BadInput("end_mm", self.end_mm, "is thicker than the middle")
        if self.middle_mm > self.length_mm / 2:
            raise BadInput("middle_mm", self.middle_mm, "is more than half the length")
        refuse_deep_rings(self.ring_depth_mm, self.middle_mm)
        refuse_odd_sac(self.sac_mm, self._thick(SAC_AT * self.length_mm))

    def _thick(self, x: V) -> V:
        off_middle = 2 * x / self.length_mm - 1
        return self.end_mm + (self.middle_mm - self.end_mm) * (1 - off_middle**2)

    def solid(self) -> Solid:
        """A rod that swells as a parabola from its round ends to its middle."""
        dome = self.end_mm / 2
        ringed = dome, self.length_mm - dome
        rod = Rod(
            length_mm=self.length_mm,
            domes_mm=(dome, dome),
            thick=self._thick,
            rings=rings(self.rings, self.ring_depth_mm, ringed, self.middle_mm),
            sac=sac(self.sac_mm, self.length_mm, self._thick(SAC_AT * self.length_mm)),
        )
        return rod.solid()
