"""Places in a photo, in pixels from its upper left corner, and what a place shows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, text
from pourwright.base.picture import Picture
from pourwright.base.record import Record

SIDE_PX = 20_000
# Codes at which a channel no longer tells how bright or dark it was.
FULL, EMPTY = 250, 2
# A camera's own sharpening and noise stay below this share of the middle; a lamp's mirror image
# does not; estimate.
_GLARE_SHARE = 0.2
_GLARE_SPREADS = 6
_MOST_ACROSS = 64

# IEC 61966-2-1:1999, the curve of a screen's 256 codes.
_CODE = np.arange(256) / 255
LINEAR = np.where(_CODE <= 0.04045, _CODE / 12.92, ((_CODE + 0.055) / 1.055) ** 2.4)
Codes = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, kw_only=True)
class Point(Record):
    """A point in a photo, as seen upright."""

    x_px: float = number("Pixels from the left", low=0, high=SIDE_PX)
    y_px: float = number("Pixels from the top", low=0, high=SIDE_PX)

    def array(self) -> Array:
        """Right and down."""
        return np.array([self.x_px, self.y_px])


@dataclass(frozen=True, slots=True, kw_only=True)
class Disk(Point):
    """A round place in a photo."""

    radius_px: float = number("Radius in pixels", low=2, high=2000)

    def check_inside(self, picture: Picture, where: str) -> None:
        """Raises: BadInput for a place that reaches out of the picture."""
        reach = self.radius_px
        ends = ((self.x_px, picture.width_px, "x_px"), (self.y_px, picture.height_px, "y_px"))
        for middle, side, name in ends:
            if middle < reach or middle + reach > side:
                why = f"reaches out of the picture, which has {side} pixels that way"
                raise BadInput(f"{where}.{name}", middle, why)

    def codes(self, picture: Picture) -> Codes:
        """Codes of its pixels, (n, 3), inside the picture; every second or so of a big one."""
        reach = self.radius_px
        step = max(1, int(2 * reach / _MOST_ACROSS))
        left, top = int(self.x_px - reach), int(self.y_px - reach)
        right = min(int(self.x_px + reach) + 1, picture.width_px)
        bottom = min(int(self.y_px + reach) + 1, picture.height_px)
        down, across = np.mgrid[top:bottom:step, left:right:step] + 0.5
        inside = np.hypot(across - self.x_px, down - self.y_px) <= reach
        return np.asarray(picture.codes[top:bottom:step, left:right:step][inside])


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot(Disk):
    """A puck, or a place on a bait, to be read."""

    name: str = text("What lies there")


@dataclass(frozen=True, slots=True)
class Reading:
    """What a place shows: linear red, green and blue, 0 to 1, and how far that can be trusted."""

    linear: Array
    full_share: float
    empty_share: float
    glare_share: float
    uneven: float

    @property
    def clipped_share(self) -> float:
        """Share of the pixels in which a channel is at its end."""
        return min(1.0, self.full_share + self.empty_share)


def reading(codes: Codes) -> Reading:
    """The middle of a place, its brightest outliers and then its ends left out."""
    linear = LINEAR[codes]
    bright = linear.mean(axis=1)
    middle = float(np.median(bright))
    spread = 1.4826 * float(np.median(abs(bright - middle)))
    glare = bright > middle + max(_GLARE_SHARE * middle, _GLARE_SPREADS * spread) + 0.005
    kept = linear[~glare]
    order = np.argsort(bright[~glare], kind="stable")
    cut = len(order) // 10
    return Reading(
        kept[order[cut : len(order) - cut]].mean(axis=0),
        float((codes >= FULL).any(axis=1).mean()),
        float((codes <= EMPTY).any(axis=1).mean()),
        float(glare.mean()),
        spread / max(middle, 0.005),
    )
