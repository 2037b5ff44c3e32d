"""How the air of a whole mold gets out: a vent from every dead end, or what would cure it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.dead_end import DeadEnd
from pourwright.body.filling import FillingMap
from pourwright.body.loft import Solid
from pourwright.body.mold.block import Block
from pourwright.body.mold.nest import Nest, places
from pourwright.body.mold.vent import Router, Vent

# The open end of a tube, as far from it as the map may place its last cell.
PIN_VENTS_MM = 3.0
WIDER = "only the next cavity is in the way: widen the spacing"
POCKET = (
    "the bait itself shuts it in: cut a blind pocket some 4 mm wide and 3 mm deep beside it, and a "
    "shallow vent into that, so that the air has a place to go"
)


@dataclass(frozen=True, slots=True)
class Shut:
    """A dead end that no straight vent reaches, and what would help."""

    end: DeadEnd
    cure: str


@dataclass(frozen=True, slots=True)
class Outlets:
    """Vents, and ends without one."""

    vents: tuple[Vent, ...] = ()
    shut: tuple[Shut, ...] = ()


def outlets(
    block: Block, nest: Nest, filled: FillingMap, *, hole_mm: float, width_mm: float
) -> Outlets:
    """A straight vent from each dead end of the cavities, where one gets out."""
    section = nest.plastic.slice(0.0)
    router = Router(block, _cut(filled, nest), hole_mm=hole_mm, width_mm=width_mm)
    ends = _ends(filled, nest)
    ways = [router.way_out((end.x_mm, end.y_mm), section) for end in ends]
    shut = []
    for end, way in zip(ends, ways, strict=True):
        if way is None:
            own = _own(filled.xy, nest, end.y_mm)
            alone = Router(block, own, hole_mm=hole_mm, width_mm=width_mm)
            free = alone.way_out((end.x_mm, end.y_mm), section)
            shut.append(Shut(end, WIDER if free else POCKET))
    return Outlets(tuple(way for way in ways if way), tuple(shut))


def _ends(filled: FillingMap, nest: Nest) -> list[DeadEnd]:
    """Dead ends of the cavities; around a core pin air leaves by the play of its seat."""
    last = nest.tail_x - PIN_VENTS_MM if nest.pins else math.inf
    return [end for end in filled.dead_ends() if 0 < end.x_mm < last]


def _cut(filled: FillingMap, nest: Nest) -> Array:
    """Places that are cut in the parting plane: cavities and feed, and seats of core pins."""
    return np.vstack([filled.xy, *(_grid(pin) for pin in nest.pins)])


def _own(xy: Array, nest: Nest, y_mm: float) -> Array:
    """The places of the cavity that lies at y."""
    middles = places(len(nest.noses_y), nest.step_mm)
    middle = min(middles, key=lambda y: abs(y - y_mm))
    return np.asarray(xy[abs(xy[:, 1] - middle) <= nest.step_mm / 2])


def _grid(pin: Solid) -> Array:
    """Places all over a pin, seen along the pull, a millimeter apart."""
    x0, y0, _, x1, y1, _ = pin.bounding_box()
    x, y = np.meshgrid(np.arange(x0, x1, 1.0), np.arange(y0, y1 + 1.0, 1.0))
    return np.column_stack([x.ravel(), y.ravel()])
