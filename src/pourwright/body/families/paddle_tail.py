"""Paddle-tail swimbait: a fish body that narrows to a stem, and an upright paddle behind it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, stations, straight

# Shares of the length and of the height; a shape of our own.
NOSE, DEEPEST, STEM_STARTS = 0.2, 0.3, 0.8
BELLY_HANGS = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class PaddleTail(Family):
    """A paddle-tail swimbait on its side: height in the parting plane, width along the pull."""

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
        if self.stem_mm > min(self.paddle_width_mm, self.paddle_height_mm):
            raise BadInput("stem_mm", self.stem_mm, "must be no thicker than the paddle")
        if self.height_mm > self.length_mm * 0.6:
            raise BadInput("height_mm", self.height_mm, "is more than 0.6 of the length")
        if self.width_mm > self.length_mm * 0.6:
            raise BadInput("width_mm", self.width_mm, "is more than 0.6 of the length")
        if self.paddle_height_mm > self.length_mm * 0.6:
            raise BadInput("paddle_height_mm", self.paddle_height_mm, "is over 0.6 of the length")
        if self.paddle_thick_mm > self.length_mm * 0.1:
            raise BadInput("paddle_thick_mm", self.paddle_thick_mm, "is over a tenth of the length")

    def solid(self) -> Solid:
        """Body with its stem, joined with the paddle."""
        return self._body() + self._paddle()

    def _body(self) -> Solid:
        end = self.length_mm - self.paddle_thick_mm / 2
        nose = NOSE * self.length_mm
        x = stations(end, nose, 0.0, middle=81)
        narrowed = _smooth_step((x / self.length_mm - DEEPEST) / (STEM_STARTS - DEEPEST))
        round_nose = domed(x, end, nose, 0.0)

        def thick(most_mm: float) -> Array:
            return np.asarray((most_mm + (self.stem_mm - most_mm) * narrowed) * round_nose)

        return straight(x, thick(self.height_mm) / 2, thick(self.width_mm) / 2, mid_y=self._sag(x))

    def _sag(self, x: Array) -> Array:
        """The belly hangs lower than the back rises, most where the body is deepest."""
        bow = np.sin(np.pi * np.clip(x / (STEM_STARTS * self.length_mm), 0, 1))
        return np.asarray(-BELLY_HANGS / 2 * self.height_mm * bow)

    def _paddle(self) -> Solid:
        """A lens of oval outline, square to the swimming direction."""
        thick = self.paddle_thick_mm
        x = stations(thick, thick / 2, thick / 2)
        edge = np.sqrt(domed(x, thick, thick / 2, thick / 2))
        half_y, half_z = self.paddle_height_mm / 2 * edge, self.paddle_width_mm / 2 * edge
        return straight(x + self.length_mm - thick, half_y, half_z)


def _smooth_step(share: Array) -> Array:
    """0 below 0, 1 above 1, and a smooth cubic between."""
    s = np.clip(share, 0, 1)
    return np.asarray(s * s * (3 - 2 * s))
