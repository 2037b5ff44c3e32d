"""A picture of flakes close up, as shapes that a page can draw."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.field import out
from pourwright.color.buried import Bath
from pourwright.color.lab import screen_color
from pourwright.color.texture import Plates


@dataclass(frozen=True, slots=True)
class Plate:
    """One flake."""

    corners_mm: tuple[float, ...] = out("x and y of its six corners in turn, from a corner")
    depth_mm: float = out("How deep its middle lies")
    srgb_hex: str = out("Its color under the plastic above it, for a screen")


@dataclass(frozen=True, slots=True)
class CloseUp:
    """A square of the bait."""

    window_mm: float = out("Its side: 10 mm, or less where that would hold too many flakes")
    plastic_hex: str = out("The plastic between the flakes")
    plates: tuple[Plate, ...] = out("The flakes, the deepest first; some reach in from outside")


def close_up(bath: Bath, pattern: Plates) -> CloseUp:
    """The pattern in the typical colors of the bath."""
    colors = [bath.flake(float(z))[0] for z in pattern.depth_mm]
    flat = np.round(pattern.corners_mm.reshape(-1, 12), 3)
    return CloseUp(
        pattern.window_mm,
        screen_color(bath.plain()[0]),
        tuple(
            Plate(tuple(corners), round(float(depth), 3), screen_color(color))
            for corners, depth, color in zip(flat.tolist(), pattern.depth_mm, colors, strict=True)
        ),
    )
