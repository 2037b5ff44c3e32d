"""The block around cavities and feed, with places for pins, bolts and pry notches."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.body.loft import Solid
from pourwright.body.mold.bolt import BoltSize
from pourwright.body.mold.nest import Nest
from pourwright.body.mold.rod import box

XY = tuple[float, float]

# Mold left around holes near an edge, and under pockets and sockets.
AROUND_HOLE_MM, UNDER_POCKET_MM = 4.0, 4.0
# A bolt at least every so many mm along either side.
BOLT_EVERY_MM = 70.0
NOTCH_LONG_MM, NOTCH_WIDE_MM, NOTCH_DEEP_MM = 14.0, 3.5, 3.0


@dataclass(frozen=True, slots=True)
class Block:
    """A box parted at z = 0, from -below_mm to above_mm."""

    low: XY
    high: XY
    below_mm: float
    above_mm: float
    pins: tuple[XY, ...] = ()
    bolts: tuple[XY, ...] = ()
    notches: tuple[XY, ...] = ()

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Length, width and height."""
        return (
            self.high[0] - self.low[0],
            self.high[1] - self.low[1],
            self.below_mm + self.above_mm,
        )

    def lower(self) -> Solid:
        """The box under the parting plane."""
        return box((*self.low, -self.below_mm), (*self.high, 0.0))

    def upper(self) -> Solid:
        """The box over the parting plane."""
        return box((*self.low, 0.0), (*self.high, self.above_mm))


def block_around(
    nest: Nest,
    *,
    edge_x: float,
    wall_mm: float,
    base_mm: float,
    feed_half_mm: float,
    pin_mm: float,
    bolt: BoltSize | None,
) -> Block:
    """A block that leaves the wall and base asked for, and room for what holds it together."""
    hole = max(pin_mm, bolt.nut_across_mm * 2 / math.sqrt(3) if bolt else 0.0)
    strip = max(wall_mm, hole + 2 * AROUND_HOLE_MM)
    low = (edge_x, nest.low_y - strip)
    high = (nest.tail_x + max(wall_mm, nest.cavity.seat_mm), nest.high_y + strip)
    least = UNDER_POCKET_MM + max(pin_mm, bolt.nut_high_mm if bolt else 0.0)
    below, above = (
        max(max(deep, feed_half_mm) + base_mm, least) for deep in (nest.below_mm, nest.above_mm)
    )
    pins = _pins(low, high, strip / 2)
    bolts = _bolts(low, high, strip / 2, hole + AROUND_HOLE_MM) if bolt else ()
    middle = (low[0] + high[0]) / 2
    return Block(low, high, below, above, pins, bolts, ((middle, low[1]), (middle, high[1])))


def _pins(low: XY, high: XY, edge: float) -> tuple[XY, ...]:
    """Three corners of four, so that the halves cannot close the wrong way round."""
    left, right = low[0] + edge, high[0] - edge
    return (left, low[1] + edge), (left, high[1] - edge), (right, low[1] + edge)


def _bolts(low: XY, high: XY, edge: float, from_pin: float) -> tuple[XY, ...]:
    """Evenly along both sides, clear of the pins."""
    first, last = low[0] + edge + from_pin, high[0] - edge - from_pin
    count = max(2, math.ceil((last - first) / BOLT_EVERY_MM) + 1)
    along = [first + (last - first) * k / (count - 1) for k in range(count)]
    return tuple((x, y) for y in (low[1] + edge, high[1] - edge) for x in along)
