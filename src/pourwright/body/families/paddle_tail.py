"""Paddle-tail swimbait: a fish body that narrows to a stem, and an upright paddle behind it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, joined, stations, straight
from pourwright.body.part.eased import eased
from pourwright.body.part.fish import FishStyle, refuse_odd_details
from pourwright.body.part.hull import Hull

# Shares of the length and of the height; a shape of our own.
NOSE, DEEPEST, STEM_STARTS = 0.2, 0.3, 0.8
BELLY_HANGS, PADDLE_HANGS = 0.1, 0.4
DETAILS = FishStyle(
    eye_from_nose=0.115, eye_up=0.1, eye_wide=0.32,
    gill_from_nose=0.21, gill_deep=0.07,
    slot_from=0.3, slot_to=0.62, slot_wide=0.13,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PaddleTail(Family):
    """A paddle-tail swimbait on its side: height in the parting plane, width along the pull."""

    key: ClassVar[str] = "paddle_tail"
    label: ClassVar[str] = "Paddle-tail swimbait"
    lies_on_side: ClassVar[bool] = True

    length_mm: float = number("Length", low=25, high=350, default=100)
    height_mm: float = number("Back to belly", low=5, high=90, default=21)
    width_mm: float = number("Side to side", low=4, high=70, default=14)
    stem_mm: float = number("Thickness of the stem", low=1.5, high=30, default=5)
    paddle_height_mm: float = number("Height of the paddle", low=4, high=90, default=17)
    paddle_width_mm: float = number("Width of the paddle", low=4, high=70, default=12)
    paddle_thick_mm: float = number("Thickness of the paddle", low=1, high=20, default=3.5)
    eye_mm: float | None = number(
        "Eye sockets across; 0 for none, in proportion if left out", low=0, high=40, default=None
    )
    gill_mm: float | None = number(
        "Depth of the gill line; 0 for none, in proportion if left out",
        low=0, high=10, default=None,
    )  # fmt: skip
    slot_mm: float = number(
        "Depth of a hook slot in the belly; 0 for none. Its mold needs a blade between the halves",
        low=0, high=60, default=0,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse a stem thicker than body or paddle, a body thicker than long, odd details."""
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
        refuse_odd_details(self)

    def solid(self) -> Solid:
        """Body with its stem, less eye sockets and slot, joined with the paddle."""
        return joined(DETAILS.body(self, self._hull()), self._paddle())

    def _hull(self) -> Hull:
        end = self.length_mm - self.paddle_thick_mm / 2
        nose = NOSE * self.length_mm
        x = stations(end, nose, 0.0, middle=41, dome=24)
        narrows = DEEPEST * self.length_mm, STEM_STARTS * self.length_mm
        round_nose = domed(x, end, nose, 0.0)

        def half(most_mm: float) -> Array:
            return np.asarray(eased(x, narrows, (most_mm, self.stem_mm)) * round_nose / 2)

        return Hull(
            x=x, half_y=half(self.height_mm), half_z=half(self.width_mm), mid_y=self._sag(x)
        )

    def _sag(self, x: Array) -> Array:
        """The belly hangs lower than the back rises, most where the body is deepest."""
        bow = np.sin(np.pi * np.clip(x / (STEM_STARTS * self.length_mm), 0, 1))
        return np.asarray(-BELLY_HANGS / 2 * self.height_mm * bow)

    def _paddle(self) -> Solid:
        """A lens of oval outline, square to the swimming direction; it hangs below the stem."""
        thick = self.paddle_thick_mm
        x = stations(thick, thick / 2, thick / 2, middle=2, dome=40)
        edge = np.sqrt(domed(x, thick, thick / 2, thick / 2))
        half_y, half_z = self.paddle_height_mm / 2 * edge, self.paddle_width_mm / 2 * edge
        hang = PADDLE_HANGS * (self.paddle_height_mm - self.stem_mm) / 2
        return straight(x + self.length_mm - thick, half_y, half_z, mid_y=-hang)
