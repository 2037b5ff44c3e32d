"""Two halves that meet at z = 0: cavities, feed and vents cut, pins and bolts set."""

from __future__ import annotations

import math
from collections.abc import Iterable

import manifold3d

from pourwright.body.loft import Solid, joined
from pourwright.body.mold.block import (
    NOTCH_DEEP_MM,
    NOTCH_LONG_MM,
    NOTCH_WIDE_MM,
    XY,
    Block,
)
from pourwright.body.mold.bolt import BoltSize
from pourwright.body.mold.rod import box, rod_z

# Pins are as long as they are thick and lose a fifth of that on the way up.
PIN_TOP_SHARE = 0.8
ROOT_MM = 2.0


def lower_half(block: Block, void: Solid, pin_mm: float, bolt: BoltSize | None) -> Solid:
    """The half with the pins, pockets for nuts, and notches for prying."""
    cut = [void, *_notches(block), *_bolt_holes(block, bolt), *_nut_pockets(block, bolt)]
    return joined(block.lower() - joined(*cut), *pins(block.pins, pin_mm, 0.0))


def upper_half(
    block: Block, void: Solid, vents: Iterable[Solid], pin_mm: float, *, fit_mm: float,
    bolt: BoltSize | None,
) -> Solid:  # fmt: skip
    """The half with the sockets and the vents."""
    sockets = pins(block.pins, pin_mm, fit_mm)
    return block.upper() - joined(void, *vents, *sockets, *_bolt_holes(block, bolt))


def pins(places: Iterable[XY], wide: float, fit: float) -> tuple[Solid, ...]:
    """Tapered pins rooted below the parting plane, or their sockets with play all around."""
    slope = 1 - PIN_TOP_SHARE
    root, tip = wide + slope * ROOT_MM + 2 * fit, wide * PIN_TOP_SHARE + 2 * fit
    pin = rod_z(-ROOT_MM, wide + fit, root, tip)
    return tuple(pin.translate((x, y, 0.0)) for x, y in places)


def _bolt_holes(block: Block, bolt: BoltSize | None) -> Iterable[Solid]:
    if bolt is None:
        return
    hole = rod_z(-block.below_mm - 1, block.above_mm + 1, bolt.hole_mm)
    for x, y in block.bolts:
        yield hole.translate((x, y, 0.0))


def _nut_pockets(block: Block, bolt: BoltSize | None) -> Iterable[Solid]:
    """Hexagons from the underside, a fifth of a millimeter wider than the nut."""
    if bolt is None:
        return
    corner = (bolt.nut_across_mm + 0.2) / math.sqrt(3)
    pocket = manifold3d.Manifold.cylinder(bolt.nut_high_mm + 1, corner, corner, 6)
    for x, y in block.bolts:
        yield pocket.translate((x, y, -block.below_mm - 1))


def _notches(block: Block) -> Iterable[Solid]:
    """Slots at the edge for a screwdriver."""
    half = NOTCH_LONG_MM / 2, NOTCH_WIDE_MM
    for x, y in block.notches:
        yield box((x - half[0], y - half[1], -NOTCH_DEEP_MM), (x + half[0], y + half[1], 1.0))
