"""Curl-tail grub: a short thick body with a thin sickle of a tail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, along, axial, ribbon, rounded


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
    curl_radius_mm: float = number("Radius of the curl", low=4, high=80, default=15)
    curl_degrees: float = number(
        "How far the tail curls, in degrees", low=60, high=300, default=215
    )

    def check(self) -> None:
        """Refuse a tail that does not fit its body or its own curl."""
        if self.root_mm > self.body_mm:
            raise BadInput("root_mm", self.root_mm, "is thicker than the body")
        if self.tail_thick_mm >= self.root_mm:
            raise BadInput("tail_thick_mm", self.tail_thick_mm, "must be thinner than the root")
        if self.tail_width_mm / 2 >= 0.7 * self.curl_radius_mm:
            raise BadInput("tail_width_mm", self.tail_width_mm, "is too wide for the curl's radius")
        if self.body_mm > self.body_length_mm:
            raise BadInput("body_mm", self.body_mm, "is more than the length of the body")

    def solid(self) -> Solid:
        """A round body joined with a swept tail."""
        x = along(self.body_length_mm, 81)
        taper = np.clip((x / self.body_length_mm - 0.5) / 0.5, 0, 1) ** 1.5
        diameter = self.body_mm + (self.root_mm - self.body_mm) * taper
        ends = rounded(x, self.body_length_mm, self.body_mm / 2, self.root_mm * 0.6)
        body = axial(x, diameter / 2 * ends, diameter / 2 * ends)
        return body + self._tail()

    def _tail(self) -> Solid:
        q = np.linspace(0, 1, 90)
        angle = np.radians(self.curl_degrees) * q
        radius = self.curl_radius_mm * (1 - 0.22 * q)
        start = self.body_length_mm - self.root_mm * 0.7
        path = np.stack(
            [start + radius * np.sin(angle), self.curl_radius_mm - radius * np.cos(angle)], axis=1
        )
        path[:, 1] -= path[0, 1]
        tip = np.sqrt(np.clip(1 - q**6, 0, 1))
        width = self.tail_width_mm / 2 * (0.5 + 2.0 * q * (1 - q)) * tip
        root = (self.root_mm - self.tail_thick_mm) * 0.4 * np.clip(1 - 9 * q, 0, 1) ** 2
        thick = self.tail_thick_mm / 2 * (1 - 0.25 * q) + root
        return ribbon(path, np.maximum(width, 0.15), np.maximum(thick, 0.25))
