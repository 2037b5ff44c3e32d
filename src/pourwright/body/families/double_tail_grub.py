"""Double-tail grub: a short thick ringed body with two thin sickles that curl away outward."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, joined
from pourwright.body.part.grub import grub_body
from pourwright.body.part.ring import refuse_deep_rings
from pourwright.body.part.tail import Blade, curl

# Shares of the root and of a tail; a shape of our own.
ROOT_INSIDE, ROOT_ASIDE, ROOT_EACH = 0.8, 0.2, 0.8
FIRST_BEND, BROADEST = 0.15, 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubleTailGrub(Family):
    """A double-tail grub, both tails lying in the parting plane."""

    key: ClassVar[str] = "double_tail_grub"
    label: ClassVar[str] = "Double-tail grub"

    body_length_mm: float = number("Length of the body", low=10, high=150, default=46)
    body_mm: float = number("Thickness of the body", low=4, high=50, default=13)
    root_mm: float = number("Thickness where the tails begin", low=2, high=50, default=9)
    tail_width_mm: float = number("Width of a tail", low=2, high=50, default=8)
    tail_thick_mm: float = number("Thickness of a tail", low=0.6, high=10, default=1.8)
    curl_radius_mm: float = number(
        "Radius of a curl where it is tightest", low=4, high=80, default=9.5
    )
    curl_degrees: float = number("How far a tail curls, in degrees", low=60, high=240, default=200)
    rings: int | None = number(
        "Rings around the body; 0 for none, as usual if left out", low=0, high=70, default=None
    )
    ring_depth_mm: float | None = number(
        "Depth of the rings; in proportion if left out", low=0, high=10, default=None
    )

    def check(self) -> None:
        """Refuse tails that do not fit their body or their own curl, and rings too deep."""
        if self.body_mm > self.body_length_mm:
            raise BadInput("body_mm", self.body_mm, "is more than the length of the body")
        if self.root_mm > self.body_mm:
            raise BadInput("root_mm", self.root_mm, "is thicker than the body")
        if self.tail_thick_mm > self.root_mm / 2:
            raise BadInput("tail_thick_mm", self.tail_thick_mm, "is over half of the root")
        if self.tail_width_mm > self.curl_radius_mm:
            raise BadInput("tail_width_mm", self.tail_width_mm, "is wider than the curl's radius")
        if self.root_mm > 2 * self.curl_radius_mm:
            raise BadInput("root_mm", self.root_mm, "is too thick for the curl's radius")
        refuse_deep_rings(self.ring_depth_mm, self.body_mm)

    def _path(self) -> Array:
        start = self.body_length_mm - ROOT_INSIDE * self.root_mm, ROOT_ASIDE * self.root_mm
        return np.asarray(
            curl(self.curl_degrees, self.curl_radius_mm, first=FIRST_BEND) + np.array(start)
        )

    def solid(self) -> Solid:
        """A ringed body joined with two swept tails, each the mirror of the other."""
        body = grub_body(
            length_mm=self.body_length_mm, thick_mm=self.body_mm, root_mm=self.root_mm,
            ring_count=self.rings, ring_depth_mm=self.ring_depth_mm,
        )  # fmt: skip
        blade = Blade(
            root_mm=ROOT_EACH * self.root_mm,
            width_mm=self.tail_width_mm,
            thick_mm=self.tail_thick_mm,
        )
        tail = blade.along(self._path(), broadest=BROADEST)
        return joined(body, tail, tail.mirror((0.0, 1.0, 0.0)))
