"""Paddle-tail swimbait: a fish body, a thin stem and an upright paddle, laid on its side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, along, axial, rounded

BODY_SHARE = 0.78


@dataclass(frozen=True, slots=True, kw_only=True)
class PaddleTail(Family):
    """A paddle-tail swimbait; height lies in the parting plane, width along the pull."""

    key: ClassVar[str] = "paddle_tail"
    label: ClassVar[str] = "Paddle-tail swimbait"

    length_mm: float = number("Length", low=25, high=350, default=100)
    height_mm: float = number("Back to belly", low=5, high=90, default=21)
    width_mm: float = number("Side to side", low=4, high=70, default=14)
    stem_mm: float = number("Thickness of the stem", low=1.5, high=30, default=5)
    paddle_height_mm: float = number("Height of the paddle", low=4, high=90, default=17)
    paddle_width_mm: float = number("Width of the paddle", low=4, high=70, default=12)
    paddle_thick_mm: float = number("Thickness of the paddle", low=1, high=20, default=3.5)

    def check(self) -> None:
        """Refuse a stem thicker than body or paddle, and a body thicker than long."""
        if self.stem_mm >= min(self.width_mm, self.height_mm):
            raise BadInput("stem_mm", self.stem_mm, "must be thinner than the body")
        if self.paddle_width_mm < self.stem_mm or self.paddle_height_mm < self.stem_mm:
            raise BadInput("stem_mm", self.stem_mm, "must be no thicker than the paddle")
        if self.height_mm > self.length_mm * 0.6:
            raise BadInput("height_mm", self.height_mm, "is more than 0.6 of the length")
        if self.width_mm > self.length_mm * 0.6:
            raise BadInput("width_mm", self.width_mm, "is more than 0.6 of the length")
        if self.paddle_thick_mm > self.length_mm * 0.1:
            raise BadInput("paddle_thick_mm", self.paddle_thick_mm, "is over a tenth of the length")

    def solid(self) -> Solid:
        """Body, stem and paddle joined."""
        return self._body() + self._stem() + self._paddle()

    def _body(self) -> Solid:
        length = self.length_mm * BODY_SHARE
        x = along(length, 101)
        ends = rounded(x, length, self.length_mm * 0.17, 1.0)

        def profile(most: float) -> Array:
            fade = np.cos(math.pi / 2 * np.clip((x / length - 0.35) / 0.65, 0, 1)) ** 1.2
            return np.asarray(self.stem_mm + (most - self.stem_mm) * fade)

        return axial(x, ends * profile(self.height_mm) / 2, ends * profile(self.width_mm) / 2)

    def _stem(self) -> Solid:
        start = self.length_mm * BODY_SHARE - self.stem_mm
        x = np.linspace(start, self.length_mm - self.paddle_thick_mm * 0.6, 24)
        half = np.full_like(x, self.stem_mm / 2)
        return axial(x, half, half * 0.85, points=32)

    def _paddle(self) -> Solid:
        thick = self.paddle_thick_mm
        x = along(thick, 25, self.length_mm - thick)
        middle = self.length_mm - thick / 2
        edge = np.sqrt(np.clip(1 - ((x - middle) / (thick / 2)) ** 2, 0.0025, 1)) ** 0.5
        return axial(x, edge * self.paddle_height_mm / 2, edge * self.paddle_width_mm / 2)
