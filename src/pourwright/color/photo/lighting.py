"""How light falls off over the table: a plane and a bowl in its logarithm."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array

# Standard deviations, in log light, over half a diagonal of the target: a lamp or a window beside
# the table, and the bowl it makes at five times that distance; estimates.
SLOPE, BOWL = 0.3, 0.045
TERMS = 5
# Half diagonals from the middle of the target beyond which nothing is known of the light; estimate.
REACH = 8.0
FALL_PRIOR = np.array([SLOPE**-2] * 2 + [BOWL**-2] * 3)


@dataclass(frozen=True, slots=True)
class Frame:
    """Middle and half diagonal of a target, in pixels."""

    middle: Array
    half_px: float

    def terms(self, at: Array) -> Array:
        """Plane and bowl at points in pixels (n, 2), shape (n, 5)."""
        right, down = ((at - self.middle) / self.half_px).T
        return np.stack([right, down, right**2, right * down, down**2], axis=1)

    def out_of_reach(self, at: Array) -> Array:
        """Which of some points in pixels (n, 2) lie too far off to know their light."""
        return np.asarray(np.hypot(*(at - self.middle).T) > REACH * self.half_px)


def frame_of(corners: Array) -> Frame:
    """The frame of a target by its corners."""
    middle = corners.mean(axis=0)
    return Frame(middle, float(np.hypot(*(corners - middle).T).mean()))
