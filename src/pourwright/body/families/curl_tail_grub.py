"""Curl-tail grub: a short thick ringed body with a thin sickle of a tail."""

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

# Shares of the root and of the tail; a shape of our own.
ROOT_INSIDE, FIRST_BEND, BROADEST = 0.8, 0.5, 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class CurlTailGrub(Family):
    """A curl-tail grub, its tail lying in the parting plane."""

    key: ClassVar[str] = "curl_tail_grub"
    label: ClassVar[str] = "Curl-tail grub"

    body_length_mm: float = number("Length of the body", low=10, high=150, default=42)
    body_mm: float = number("Thickness of the body", low=4, high=50, default=12.5)
    root_mm: float = number("Thickness where the tail begins", low=2, high=50, default=7.5)
    tail_width_mm: float = number("Width of the tail", low=2, high=50, default=9)
    tail_thick_mm: float = number("Thickness of the tail", low=0.6, high=10, default=1.8)
    curl_radius_mm: float = number(
        "Radius of the curl where it is tightest", low=4, high=80, default=11
    )
    curl_degrees: float = number(
        "How far the tail curls, in degrees", low=60, high=270, default=215
    )
    rings: int | None = number(
        "Rings around the body; 0 for none, as usual if left out", low=0, high=70, default=None
    )
    ring_depth_mm: float | None = number(
        "Depth of the rings; in proportion if left out", low=0, high=10, default=None
    )

    def check(self) -> None:
        """Refuse a tail that does not fit its body or its own curl, and rings too deep."""
        if self.body_mm > self.body_length_mm:
            raise BadInput("body_mm", self.body_mm, "is more than the length of the body")
        if self.root_mm > self.body_mm:
            raise BadInput("root_mm", self.root_mm, "is thicker than the body")
        if self.tail_thick_mm >= self.root_mm:
            raise BadInput("tail_thick_mm", self.tail_thick_mm, "must be thinner than the root")
        if self.tail_width_mm > self.curl_radius_mm:
            raise BadInput("tail_width_mm", self.tail_width_mm, "is wider than the curl's radius")
        if self.root_mm > 2 * self.curl_radius_mm:
            raise BadInput("root_mm", self.root_mm, "is too thick for the curl's radius")
        if self._path()[:, 0].min() < self.tail_width_mm / 2:
            raise BadInput("curl_radius_mm", self.curl_radius_mm, "curls the tail past the nose")
        refuse_deep_rings(self.ring_depth_mm, self.body_mm)

    def _path(self) -> Array:
        start = np.array([self.body_length_mm - ROOT_INSIDE * self.root_mm, 0.0])
        return np.asarray(curl(self.curl_degrees, self.curl_radius_mm, first=FIRST_BEND) + start)

    def solid(self) -> Solid:
        """A ringed body joined with a swept tail."""
        body = grub_body(
            length_mm=self.body_length_mm, thick_mm=self.body_mm, root_mm=self.root_mm,
            ring_count=self.rings, ring_depth_mm=self.ring_depth_mm,
        )  # fmt: skip
        blade = Blade(
            root_mm=self.root_mm, width_mm=self.tail_width_mm, thick_mm=self.tail_thick_mm
        )
        return joined(body, blade.along(self._path(), broadest=BROADEST))
