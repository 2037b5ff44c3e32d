"""What makes a body on its side a fish: a gill line, eyes on both flanks, a slot for the hook."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.body.loft import Solid
from pourwright.body.part.hull import PAST_SKIN, Hull, socket
from pourwright.body.part.ring import Rings

POINTS = 36
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
        x = np.union1d(hull.x, groove.stations())
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


@dataclass(frozen=True, slots=True, kw_only=True)
class FishDetail:
    """Where the details of a fish lie and how large they are; None or 0 leaves one out."""

    gill: Gill | None
    eye_at: tuple[float, float]
    eye_mm: float
    slot_from_mm: float
    slot_to_mm: float
    slot_mm: float
    slot_wide_mm: float

    def body(self, hull: Hull) -> Solid:
        """The body with its gill line."""
        return self.gill.cut(hull) if self.gill else hull.solid(POINTS)

    def carved(self, bait: Solid, hull: Hull) -> Solid:
        """The whole bait less eye sockets and slot."""
        if self.eye_mm:
            upper = socket(hull, self.eye_at, self.eye_mm)
            bait = bait - (upper + upper.mirror((0.0, 0.0, 1.0)))
        return bait - self._slot(hull) if self.slot_mm else bait

    def _slot(self, hull: Hull) -> Solid:
        """Cutter of a slot into the belly, in the parting plane; both of its ends slope."""
        first, last, deep = self.slot_from_mm, self.slot_to_mm, self.slot_mm
        floor = hull.belly_y((first + last) / 2) + deep
        under = float((hull.mid_y - hull.half_y).min()) - PAST_SKIN * deep
        ramp = min(deep, 0.3 * (last - first))
        corners = [(first, under), (last, under), (last - ramp, floor), (first + ramp, floor)]
        plate = manifold3d.CrossSection([corners]).extrude(self.slot_wide_mm)
        return plate.translate((0.0, 0.0, -self.slot_wide_mm / 2))


def refuse_odd_details(
    height_mm: float,
    width_mm: float,
    *,
    eye_mm: float | None,
    gill_mm: float | None,
    slot_mm: float,
) -> None:
    """Refuse eyes, gill lines and slots that the body has no room for.

    Raises: BadInput naming the detail.
    """
    least = min(height_mm, width_mm)
    if eye_mm and eye_mm > 0.45 * least:
        raise BadInput("eye_mm", eye_mm, "is over 0.45 of the body's lesser thickness")
    if gill_mm and gill_mm > least / 8:
        raise BadInput("gill_mm", gill_mm, "is over an eighth of the body's lesser thickness")
    if slot_mm > height_mm / 2:
        raise BadInput("slot_mm", slot_mm, "is over half of the body's height")
