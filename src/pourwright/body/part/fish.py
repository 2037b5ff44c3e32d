"""What makes a body on its side a fish: a gill line, eyes on both flanks, a slot for the hook."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import manifold3d
import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.body.loft import Solid
from pourwright.body.part.hull import PAST_SKIN, Hull, socket
from pourwright.body.part.ring import Rings
from pourwright.body.part.usual import or_usual

POINTS = 32
# A gill line in shares of the body's length; its bow fades over this many times itself, and
# under 1.6 it would fold the body over.
GILL_HALF, GILL_BOW, BOW_FADES = 0.012, 0.035, 3.0


@dataclass(frozen=True, slots=True)
class Gill:
    """A groove down either flank behind the head, bowed tailward, that fades to back and belly."""

    at_mm: float
    body_length_mm: float
    depth_share: float

    def cut(self, hull: Hull) -> Solid:
        """The closed body with its gill line."""
        half = GILL_HALF * self.body_length_mm
        groove = Rings(np.array([self.at_mm]), half, self.depth_share)
        x = groove.among(hull.x)
        half_y, half_z, mid_y = (
            np.interp(x, hull.x, v) for v in (hull.half_y, hull.half_z, hull.mid_y)
        )
        cut = Hull(x=x, half_y=half_y, half_z=half_z * groove.left(x), mid_y=mid_y).solid(POINTS)
        middle, half_high = (float(np.interp(self.at_mm, x, v)) for v in (mid_y, half_y))
        return self._bowed(cut, middle, half_high)

    def _bowed(self, solid: Solid, middle_y: float, half_y: float) -> Solid:
        bow = GILL_BOW * self.body_length_mm

        def moved(points: Array) -> Array:
            off = np.clip((points[:, 1] - middle_y) / half_y, -1, 1)
            near = np.clip((points[:, 0] - self.at_mm) / (BOW_FADES * bow), -1, 1)
            shift = bow * (1 - off**2) * (1 - near**2) ** 2
            return np.column_stack([points[:, 0] + shift, points[:, 1:]])

        return solid.warp_batch(moved)


class FishMeasures(Protocol):
    """What a family of fish tells of itself; a detail of 0 is left out, None is as usual."""

    @property
    def length_mm(self) -> float:
        """Nose to tail."""

    @property
    def height_mm(self) -> float:
        """Back to belly."""

    @property
    def width_mm(self) -> float:
        """Side to side."""

    @property
    def eye_mm(self) -> float | None:
        """Eye sockets across."""

    @property
    def gill_mm(self) -> float | None:
        """Depth of the gill line."""

    @property
    def slot_mm(self) -> float:
        """Depth of the hook slot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FishStyle:
    """Where the details of a fish lie and how large they usually are, a shape of our own.

    Places along the bait are shares of its length, `eye_up` one of its height, `slot_wide` one of
    its width; `eye_wide` and `gill_deep` are shares of the lesser of height and width.
    """

    eye_from_nose: float
    eye_up: float
    eye_wide: float
    gill_from_nose: float
    gill_deep: float
    slot_from: float
    slot_to: float
    slot_wide: float

    def body(self, bait: FishMeasures, hull: Hull) -> Solid:
        """The body with its gill line, less eye sockets and slot."""
        long, least = bait.length_mm, min(bait.height_mm, bait.width_mm)
        solid = self._gilled(bait, hull, or_usual(bait.gill_mm, self.gill_deep * least))
        eye = or_usual(bait.eye_mm, self.eye_wide * least)
        if eye:
            upper = socket(hull, (self.eye_from_nose * long, self.eye_up * bait.height_mm), eye)
            solid = solid - (upper + upper.mirror((0.0, 0.0, 1.0)))
        return solid - self._slot(bait, hull) if bait.slot_mm else solid

    def _gilled(self, bait: FishMeasures, hull: Hull, deep: float) -> Solid:
        if not deep:
            return hull.solid(POINTS)
        at = self.gill_from_nose * bait.length_mm
        return Gill(at, bait.length_mm, 2 * deep / bait.width_mm).cut(hull)

    def _slot(self, bait: FishMeasures, hull: Hull) -> Solid:
        """Cutter of a slot into the belly, in the parting plane; both of its ends slope."""
        first, last = self.slot_from * bait.length_mm, self.slot_to * bait.length_mm
        deep, wide = bait.slot_mm, self.slot_wide * bait.width_mm
        floor = hull.belly_y((first + last) / 2) + deep
        under = float((hull.mid_y - hull.half_y).min()) - PAST_SKIN * deep
        ramp = min(deep, 0.3 * (last - first))
        corners = [(first, under), (last, under), (last - ramp, floor), (first + ramp, floor)]
        plate = manifold3d.CrossSection([corners]).extrude(wide)
        return plate.translate((0.0, 0.0, -wide / 2))


def refuse_odd_details(bait: FishMeasures) -> None:
    """Refuse eyes, gill lines and slots that the body has no room for.

    Raises: BadInput naming the detail.
    """
    least = min(bait.height_mm, bait.width_mm)
    if bait.eye_mm and bait.eye_mm > 0.45 * least:
        raise BadInput("eye_mm", bait.eye_mm, "is over 0.45 of the body's lesser thickness")
    if bait.gill_mm and bait.gill_mm > least / 8:
        raise BadInput("gill_mm", bait.gill_mm, "is over an eighth of the body's lesser thickness")
    if bait.slot_mm > bait.height_mm / 2:
        raise BadInput("slot_mm", bait.slot_mm, "is over half of the body's height")
