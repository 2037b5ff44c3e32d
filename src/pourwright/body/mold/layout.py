"""Where everything of a mold in two halves goes, before it is cut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.body.filling import FillingMap, filling_map
from pourwright.body.loft import joined
from pourwright.body.mold.block import Block, block_around
from pourwright.body.mold.bolt import SIZES
from pourwright.body.mold.cavity import Cavity, grown, nose_of
from pourwright.body.mold.core_pin import cored_cavity
from pourwright.body.mold.feed import Feed, FeedSize, feed_of, own_gate_mm
from pourwright.body.mold.fit import play_mm
from pourwright.body.mold.nest import Nest, nested
from pourwright.body.mold.nudge import NUDGES
from pourwright.body.mold.outlet import Outlets, outlets
from pourwright.body.mold.request import MoldInput

# Castings break at thin pins: their keys are caps of balls no smaller than this.
KEY_MM = 10.0


@dataclass(frozen=True, slots=True)
class Layout:
    """Cavities, feed, block, and how the air gets out."""

    nest: Nest
    size: FeedSize
    feed: Feed
    block: Block
    filled: FillingMap
    outlets: Outlets

    @property
    def late_share(self) -> float:
        """Share of the shot that is in between the first nose to be reached and the last."""
        starts = self.filled.order_at(np.array([(1.0, y) for y in self.nest.noses_y]))
        return float(starts.max() - starts.min())


def laid_out(inputs: MoldInput) -> Layout:
    """The layout asked for; some cavities are turned over where that lets more vents out.

    Raises: BadInput for a gate wider than the nose, NoAnswer for a nose off the parting plane.
    """
    cavity = cavity_of(inputs)
    size = _feed_size(inputs, cavity)
    first = _laid(inputs, cavity, size, turned=False)
    if not first.outlets.shut or inputs.cavities == 1:
        return first
    second = _laid(inputs, cavity, size, turned=True)
    return min(first, second, key=lambda layout: len(layout.outlets.shut))


def cavity_of(inputs: MoldInput) -> Cavity:
    """One cavity, with a core pin if the bait has a bore."""
    core = inputs.family.core() if inputs.family else None
    if core:
        return cored_cavity(core, inputs.cut_shrink, play_mm(inputs.material))
    bait = grown(inputs.solid(), inputs.cut_shrink)
    return Cavity(bait, bait, nose_of(bait))


def _feed_size(inputs: MoldInput, cavity: Cavity) -> FeedSize:
    thick = cavity.nose.thick_mm
    gate = inputs.gate_mm or own_gate_mm(thick, inputs.runner_mm)
    if gate > thick:
        raise BadInput("gate_mm", gate, f"is wider than the nose, {thick:.1f} mm thick there")
    if gate > inputs.runner_mm:
        raise BadInput("gate_mm", gate, f"is wider than the runner of {inputs.runner_mm:g} mm")
    return FeedSize(gate, inputs.runner_mm, inputs.sprue_mm, inputs.injector_nose_mm)


def _laid(inputs: MoldInput, cavity: Cavity, size: FeedSize, *, turned: bool) -> Layout:
    nest = nested(cavity, inputs.cavities, inputs.spacing_mm, turned=turned)
    feed = feed_of(nest.noses_y, size, NUDGES[0])
    block = _block(inputs, nest, feed)
    filled = filling_map(joined(nest.plastic, feed.solid), (feed.edge_x, feed.sprue_y))
    found = Outlets()
    if inputs.vents:
        width, hole = inputs.vent_width_mm, _hole_mm(inputs)
        found = outlets(block, nest, filled, hole_mm=hole, width_mm=width)
    return Layout(nest, size, feed, block, filled, found)


def _block(inputs: MoldInput, nest: Nest, feed: Feed) -> Block:
    cast = inputs.route.cast
    return block_around(
        nest,
        edge_x=feed.edge_x,
        wall_mm=inputs.wall_mm,
        base_mm=inputs.base_mm,
        feed_half_mm=max(inputs.runner_mm, inputs.injector_nose_mm) / 2,
        pin_mm=KEY_MM if cast else inputs.pin_mm,
        bolt=None if cast else SIZES.get(inputs.bolt),
    )


def _hole_mm(inputs: MoldInput) -> float:
    if inputs.route.cast:
        return KEY_MM
    bolt = SIZES.get(inputs.bolt)
    return max(inputs.pin_mm, bolt.hole_mm if bolt else 0.0)
