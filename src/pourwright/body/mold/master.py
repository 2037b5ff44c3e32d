"""Masters to print and cast from: a plate with the positive on it, and box walls around."""

from __future__ import annotations

from collections.abc import Iterable

from pourwright.body.loft import Solid, joined
from pourwright.body.mold.block import XY, Block
from pourwright.body.mold.rod import ball, box

PLATE_MM = 5.0
# Walls of the casting box, the lip on the plate that holds them, and the play between.
WALL_MM, LIP_MM, LIP_HIGH_MM, PLAY_MM = 5.0, 3.0, 3.0, 0.2
# Positives are rooted so deep in the plate.
ROOT_MM = 2.0
# A key is a cap of a ball: it lines up two castings and lets go at any angle.
CAP_SHARE = 0.35


def plate(block: Block) -> Solid:
    """A plate under the parting plane, with a lip that holds the box walls."""
    foot = WALL_MM + PLAY_MM + LIP_MM
    base = _around(block, foot, -PLATE_MM, 0.0)
    lip = _around(block, foot, -ROOT_MM, LIP_HIGH_MM) - _around(
        block, WALL_MM + PLAY_MM, -PLATE_MM, LIP_HIGH_MM + 1
    )
    return joined(base, lip)


def master(
    block: Block, positive: Solid, *, bumps: Iterable[Solid], dents: Iterable[Solid]
) -> Solid:
    """A plate with what the casting gives way to, above the parting plane.

    `bumps` become sockets of the casting, `dents` become its keys.
    """
    inside = box((*block.low, -ROOT_MM), (*block.high, 1e3))
    return joined(plate(block), joined(positive, *bumps) ^ inside) - joined(*dents)


def keys(places: Iterable[XY], wide: float, fit: float) -> tuple[Solid, ...]:
    """Caps that stand on the parting plane, their balls below it."""
    radius = wide / 2
    cap = ball(wide + 2 * fit).translate((0.0, 0.0, radius * (2 * CAP_SHARE - 1)))
    return tuple(cap.translate((x, y, 0.0)) for x, y in places)


def corner(block: Block, high_mm: float) -> Solid:
    """A long and a short wall of the box; two of them close it, one turned half around."""
    (x0, y0), (x1, y1) = block.low, block.high
    long = box((x0 - WALL_MM, y0 - WALL_MM, 0.0), (x1 + WALL_MM, y0, high_mm))
    short = box((x0 - WALL_MM, y0 - 1.0, 0.0), (x0, y1, high_mm))
    return joined(long, short)


def _around(block: Block, more: float, low: float, high: float) -> Solid:
    (x0, y0), (x1, y1) = block.low, block.high
    return box((x0 - more, y0 - more, low), (x1 + more, y1 + more, high))
