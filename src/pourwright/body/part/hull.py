"""A body of elliptic sections known along x, and the sockets of eyes in its skin."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid, straight

# Cutters reach this far past the skin, so that no two faces coincide.
PAST_SKIN = 1.5
SEGMENTS = 40
# Share of its diameter that a socket is deep where the skin around it is lowest.
SOCKET_DEEP = 0.1
# However steep the skin, this share of the half under the eye stays whole.
STAYS = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Hull:
    """Halves of the sections across and along the pull, and their middles, along x."""

    x: Array
    half_y: Array
    half_z: Array
    mid_y: Array

    def solid(self, points: int) -> Solid:
        """The closed body."""
        return straight(self.x, self.half_y, self.half_z, mid_y=self.mid_y, points=points)

    def skin_z(self, x: Array, y: Array) -> Array:
        """Height of the skin over the parting plane; 0 beside the body."""
        half_y = np.maximum(np.interp(x, self.x, self.half_y), 1e-9)
        off = (y - np.interp(x, self.x, self.mid_y)) / half_y
        round_share = np.sqrt(np.clip(1 - off**2, 0, None))
        return np.asarray(np.interp(x, self.x, self.half_z) * round_share)

    def belly_y(self, x: float) -> float:
        """Where the body ends toward -y."""
        return float(np.interp(x, self.x, self.mid_y - self.half_y))


def socket(hull: Hull, at: tuple[float, float], eye_mm: float) -> Solid:
    """Cutter of a round flat-bottomed eye socket in the upper skin, open along the pull."""
    turn = np.linspace(0, 2 * np.pi, 25)
    rim = hull.skin_z(at[0] + eye_mm / 2 * np.cos(turn), at[1] + eye_mm / 2 * np.sin(turn))
    over = float(hull.skin_z(np.array([at[0]]), np.array([at[1]]))[0])
    floor = max(float(rim.min()) - SOCKET_DEEP * eye_mm, STAYS * over)
    height = PAST_SKIN * float(hull.half_z.max()) - floor
    cutter = manifold3d.Manifold.cylinder(height, eye_mm / 2, circular_segments=SEGMENTS)
    return cutter.translate((*at, floor))
