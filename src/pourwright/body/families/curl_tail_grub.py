"""Curl-tail grub: a short thick body with a thin sickle of a tail."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, stations, straight, swept

# The tail leaves the body at half of its tightest bend; a shape of our own.
FIRST_BEND = 0.5
ROOT_SHARE = 0.2
TAIL_STATIONS = 91


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

    def check(self) -> None:
        """Refuse a tail that does not fit its body or its own curl."""
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
        if self._curl(np.linspace(0, 1, TAIL_STATIONS))[:, 0].min() < self.tail_width_mm / 2:
            raise BadInput("curl_radius_mm", self.curl_radius_mm, "curls the tail past the nose")

    def solid(self) -> Solid:
        """A round body joined with a swept tail."""
        return self._body() + self._tail()

    def _body(self) -> Solid:
        nose, end = self.body_mm / 2, self.root_mm / 2
        x = stations(self.body_length_mm, nose, end, middle=61)
        thinned = np.clip(2 * x / self.body_length_mm - 1, 0, 1) ** 2
        thick = self.body_mm + (self.root_mm - self.body_mm) * thinned
        half = thick / 2 * domed(x, self.body_length_mm, nose, end)
        return straight(x, half, half)

    def _tail(self) -> Solid:
        """Broad in its middle, thick and narrow where it leaves the body, pointed at its tip."""
        s = np.linspace(0, 1, TAIL_STATIONS)
        root = np.clip(1 - s / ROOT_SHARE, 0, 1) ** 2
        broad = self.tail_width_mm * np.sin(math.pi * (0.1 + 0.8 * s)) * np.sqrt(1 - s**8)
        width = np.maximum(broad, 0.75 * self.root_mm * root)
        thick = np.maximum(self.tail_thick_mm * (1 - 0.2 * s), 0.75 * self.root_mm * root)
        return swept(self._curl(s), width / 2, thick / 2)

    def _curl(self, s: Array) -> Array:
        """Path of the tail: its bend grows evenly from root to tip."""
        turn = math.radians(self.curl_degrees)
        length = turn * self.curl_radius_mm * 2 / (1 + FIRST_BEND)
        heading = turn * (FIRST_BEND * s + (1 - FIRST_BEND) * s**2 / 2) * 2 / (1 + FIRST_BEND)
        steps = np.stack([np.cos(heading), np.sin(heading)], axis=1) * length / (len(s) - 1)
        walked = np.vstack([np.zeros(2), np.cumsum((steps[1:] + steps[:-1]) / 2, axis=0)])
        start = np.array([self.body_length_mm - 0.8 * self.root_mm, 0.0])
        return np.asarray(walked + start)
