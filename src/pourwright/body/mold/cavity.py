"""One cavity: what the mold is hollowed by, what plastic fills, and where its gate goes."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np

from pourwright.base.errors import NoAnswer
from pourwright.body.loft import Solid

# Facets that move the skin less than this are left out of the files.
PLAIN_MM = 0.002
# The nose is looked at this far behind its tip, in a slice this thin.
BEHIND_TIP_MM, SLICE_MM = 2.4, 0.02


@dataclass(frozen=True, slots=True)
class Nose:
    """Where the gate enters, on the parting plane, and how thick the nose is just behind."""

    y_mm: float
    thick_mm: float


@dataclass(frozen=True, slots=True)
class Cavity:
    """A cavity with its nose at x = 0, even about y = 0.

    `hollow` is all that the halves give way to, `plastic` what is filled; `pin` shapes a bore and
    needs `seat_mm` of block behind the tail.
    """

    hollow: Solid
    plastic: Solid
    nose: Nose
    pin: Solid | None = None
    seat_mm: float = 0.0

    @property
    def width_mm(self) -> float:
        """Extent across the length."""
        return float(self.hollow.bounding_box()[4] - self.hollow.bounding_box()[1])

    def turned_over(self) -> Cavity:
        """The same cavity, rolled half a turn about its length."""
        half = (180.0, 0.0, 0.0)
        pin = self.pin.rotate(half) if self.pin else None
        nose = Nose(-self.nose.y_mm, self.nose.thick_mm)
        return Cavity(self.hollow.rotate(half), self.plastic.rotate(half), nose, pin, self.seat_mm)


def grown(bait: Solid, shrink_share: float) -> Solid:
    """The bait as its cavity must be so that it shrinks to size, plainer than it was.

    The nose moves to x = 0 and the middle to y = 0; the parting plane stays.
    """
    return grown_with(bait, bait, shrink_share)


def grown_with(bait: Solid, part: Solid, shrink_share: float) -> Solid:
    """A part that belongs to a bait, grown and moved as that one is."""
    x0, y0, _, _, y1, _ = bait.bounding_box()
    larger = part.translate((-x0, -(y0 + y1) / 2, 0.0)).scale([1 / (1 - shrink_share)] * 3)
    return larger.as_original().simplify(PLAIN_MM)


def nose_of(solid: Solid) -> Nose:
    """Where a gate can enter a solid whose tip is at x = 0.

    Raises: NoAnswer for a solid that is not on the parting plane just behind its tip.
    """
    across = manifold3d.CrossSection.square((SLICE_MM, 1e4), center=True)
    at_nose = solid.slice(0.0) ^ across.translate((BEHIND_TIP_MM, 0.0))
    if at_nose.is_empty():
        raise NoAnswer(
            f"the bait has no plastic on the parting plane {BEHIND_TIP_MM:g} mm behind its nose, "
            "where the gate would enter"
        )
    _, low, _, high = max(at_nose.decompose(), key=lambda piece: piece.area()).bounds()
    slab = manifold3d.Manifold.cube((SLICE_MM, high - low, 1e4), center=True)
    middle = (low + high) / 2
    tall = np.array((solid ^ slab.translate((BEHIND_TIP_MM, middle, 0.0))).bounding_box())
    return Nose(middle, float(min(high - low, 2 * min(tall[5], -tall[2]))))
