"""Craw: a ringed tail in front, a smooth back, legs, feelers and two pinching claws behind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import manifold3d
import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, joined, stations, straight
from pourwright.body.part.claw import claw
from pourwright.body.part.eased import eased
from pourwright.body.part.limb import bent, tapered
from pourwright.body.part.ring import Rings, refuse_deep_rings
from pourwright.body.part.usual import or_usual

# Shares of the body's thickness and of its length; a shape of our own.
FLATNESS = 0.85
TAIL_RINGS, RING_DEEP, RING_HALF = 5, 0.07, 0.32
TAIL_TAKES, WIDENS, TAIL_THICK, HEAD = 0.52, 0.12, 0.76, 1.0
LEGS_FROM, LEGS_TO, LEGS_FAN = 0.58, 0.74, (118.0, 58.0)
EYE_FROM_HEAD, EYE_ASIDE, EYE_WIDE = 0.64, 0.43, 0.2
FEELER_LONG, FEELER_THICK = 0.72, 0.13


@dataclass(frozen=True, slots=True, kw_only=True)
class Craw(Family):
    """A craw; it swims backward, so its tail is the nose of the bait."""

    key: ClassVar[str] = "craw"
    label: ClassVar[str] = "Craw"

    length_mm: float = number("Length, claws included", low=25, high=200, default=85)
    body_mm: float = number("Thickness of the body", low=4, high=50, default=12)
    claw_length_mm: float = number("Length of a claw", low=8, high=100, default=32)
    claw_width_mm: float = number("Width of a claw", low=3, high=50, default=13)
    claw_thick_mm: float = number("Thickness of a claw", low=1, high=20, default=5)
    splay_degrees: float = number("Claws point outward by, in degrees", low=0, high=60, default=20)
    leg_pairs: int = number("Pairs of legs", low=0, high=5, default=3)
    feeler_mm: float | None = number(
        "Length of a feeler, root to tip; 0 for none, in proportion if left out",
        low=0, high=100, default=None,
    )  # fmt: skip
    rings: int = number("Rings around the tail; 0 for none", low=0, high=12, default=TAIL_RINGS)
    ring_depth_mm: float | None = number(
        "Depth of the rings; in proportion if left out", low=0, high=10, default=None
    )

    def check(self) -> None:
        """Refuse claws and feelers that outgrow the bait, and rings too deep."""
        if self.claw_length_mm > self.length_mm * 0.7:
            raise BadInput("claw_length_mm", self.claw_length_mm, "is over 0.7 of the length")
        if self.claw_thick_mm > self.body_mm * FLATNESS:
            raise BadInput("claw_thick_mm", self.claw_thick_mm, "is thicker than the body")
        if self.claw_width_mm > self.claw_length_mm:
            raise BadInput("claw_width_mm", self.claw_width_mm, "is more than the claw's length")
        if self.body_mm > self.length_mm * 0.4:
            raise BadInput("body_mm", self.body_mm, "is over 0.4 of the length")
        if self.feeler_mm and self.feeler_mm > self.claw_length_mm * 0.9:
            raise BadInput("feeler_mm", self.feeler_mm, "is over 0.9 of the claw's length")
        refuse_deep_rings(self.ring_depth_mm, self.body_mm * TAIL_THICK)

    def solid(self) -> Solid:
        """Body, claws, feelers and legs joined; the tips of the claws end at the stated length.

        Where claws are so short or splayed that another limb reaches further, all is drawn in.
        """
        limb = claw(self.claw_length_mm, self.claw_width_mm, self.claw_thick_mm)
        limb = limb.rotate((0.0, 0.0, self.splay_degrees))
        start = self.length_mm - limb.bounding_box()[3]
        end = start + 0.45 * self.body_mm
        limbs = [limb.translate((start, 0.24 * self.body_mm, 0.0)), *self._legs(end)]
        limbs += [*self._feeler(end), self._eye(end)]
        bait = joined(self._body(end), *limbs, *(limb.mirror((0.0, 1.0, 0.0)) for limb in limbs))
        return bait.scale((self.length_mm / bait.bounding_box()[3], 1.0, 1.0))

    def _body(self, end: float) -> Solid:
        """A slim ringed tail in front, then a smooth back that narrows to the head."""
        nose, head = 0.4 * self.body_mm, HEAD * self.body_mm
        tail = TAIL_TAKES * end
        pitch = (tail - nose) / max(self.rings, 1)
        deep = or_usual(self.ring_depth_mm, RING_DEEP * self.body_mm)
        middles = np.asarray(nose + pitch * np.arange(1, self.rings + 1))
        grooves = Rings(middles, RING_HALF * pitch, 2 * deep / (TAIL_THICK * self.body_mm))
        x = grooves.among(stations(end, nose, head, middle=17, dome=24))
        widens = tail, (TAIL_TAKES + WIDENS) * end
        share = eased(x, widens, (TAIL_THICK, 1.0)) * grooves.left(x) * domed(x, end, nose, head)
        half = self.body_mm / 2 * share
        return straight(x, half, half * FLATNESS, points=32)

    def _legs(self, end: float) -> list[Solid]:
        """Bent legs along the back that fan out, the foremost the longest."""
        size, last = self.body_mm, max(self.leg_pairs - 1, 1)
        legs = []
        for pair in range(self.leg_pairs):
            first = LEGS_FROM + (LEGS_TO - LEGS_FROM) * pair / last
            fan = LEGS_FAN[0] + (LEGS_FAN[1] - LEGS_FAN[0]) * pair / last
            path = bent((0.0, 0.0), (0.5, 0.2), (0.9, 0.15), (1.2, -0.25), count=15)
            leg = tapered(
                path * (0.75 + 0.08 * pair) * size, 0.19 * size, 0.08 * size, flat=0.9, points=12
            )
            turned = leg.rotate((0.0, 0.0, fan))
            legs.append(turned.translate((first * end, 0.25 * size, 0.0)))
        return legs

    def _eye(self, end: float) -> Solid:
        """A round eye that stands out beside the head."""
        eye = manifold3d.Manifold.sphere(EYE_WIDE / 2 * self.body_mm, circular_segments=16)
        from_head, aside = EYE_FROM_HEAD * self.body_mm, EYE_ASIDE * self.body_mm
        return eye.translate((end - from_head, aside, 0.0))

    def _feeler(self, end: float) -> list[Solid]:
        long = or_usual(self.feeler_mm, FEELER_LONG * self.claw_length_mm)
        if not long:
            return []
        root, size = end - 0.35 * self.body_mm, self.body_mm
        path = bent(
            (root, 0.1 * size), (root + 0.5 * long, 0.1 * size),
            (root + 0.998 * long, 0.1 * size + 0.06 * long),
            count=15,
        )  # fmt: skip
        thick = FEELER_THICK * size
        return [tapered(path, thick, 0.6 * thick, flat=1.0, points=12)]
