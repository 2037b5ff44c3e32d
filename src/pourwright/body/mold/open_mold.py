"""An open mold: cavities sunk into one block up to their widest section, and a little more."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid, joined
from pourwright.body.mold.block import Block
from pourwright.body.mold.nest import places
from pourwright.body.mold.rod import box

# Cutters reach past the pour plane; a point this near the widest section lies on it.
OVER_MM, ON_PLANE_MM = 1.0, 1e-6


def sunk(bait: Solid, rise_mm: float) -> Solid:
    """What one cavity takes from the block: the lower half, its rim drawn up to the pour plane.

    So the walls above the widest section lean out a little, with the facets under it.
    """
    lower = bait.trim_by_plane((0.0, 0.0, -1.0), 0.0)

    def drawn_up(points: Array) -> Array:
        rim = points[:, 2] > -ON_PLANE_MM
        return np.asarray(points + np.outer(rim, (0.0, 0.0, rise_mm + OVER_MM)))

    return lower.warp_batch(drawn_up)


def row(cavity: Solid, count: int, spacing_mm: float) -> Solid:
    """Equal cavities side by side."""
    _, low, _, _, high, _ = cavity.bounding_box()
    rows = places(count, high - low + spacing_mm)
    return joined(*(cavity.translate((0.0, y, 0.0)) for y in rows))


def open_block(hollow: Solid, *, rise_mm: float, wall_mm: float, base_mm: float) -> Block:
    """The block around a row of sunk cavities; its top is where the pour is level."""
    x0, y0, z0, x1, y1, _ = hollow.bounding_box()
    return Block((x0 - wall_mm, y0 - wall_mm), (x1 + wall_mm, y1 + wall_mm), base_mm - z0, rise_mm)


def open_mold(block: Block, hollow: Solid) -> Solid:
    """The block less its cavities."""
    return whole(block) - hollow


def poured(block: Block, hollow: Solid) -> Solid:
    """What plastic fills when it is poured level."""
    return hollow ^ whole(block)


def whole(block: Block) -> Solid:
    """The block without cavities."""
    return box((*block.low, -block.below_mm), (*block.high, block.above_mm))
