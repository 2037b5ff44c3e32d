"""From a layout to the solids of a mold."""

from __future__ import annotations

import functools
from collections.abc import Callable

from pourwright.body.loft import Solid, joined
from pourwright.body.mold import open_mold
from pourwright.body.mold.block import XY, Block
from pourwright.body.mold.bolt import SIZES
from pourwright.body.mold.cavity import grown
from pourwright.body.mold.feed import Feed, feed_of
from pourwright.body.mold.fit import play_mm
from pourwright.body.mold.halves import lower_half, upper_half
from pourwright.body.mold.layout import KEY_MM, Layout, laid_out
from pourwright.body.mold.master import corner, keys, master
from pourwright.body.mold.mold import Mold
from pourwright.body.mold.nudge import NUDGES, Nudge
from pourwright.body.mold.part import Lies, Part
from pourwright.body.mold.request import MoldInput, Route
from pourwright.body.mold.rod import box
from pourwright.body.mold.vent import VentSize, vent_cutter

Builder = Callable[[Nudge], Mold]


def mold_solids(inputs: MoldInput) -> Mold:
    """The mold as solids, for a picture: no file is written or read back."""
    return builder(inputs)(NUDGES[0])


@functools.lru_cache(maxsize=2)
def builder(inputs: MoldInput) -> Builder:
    """Lays a mold out once; what comes back cuts it, a little differently for every nudge.

    Raises: BadInput for measures that do not go together, NoAnswer for a bait without a nose on
    the parting plane.
    """
    if inputs.route.open:
        return _open_builder(inputs)
    layout = laid_out(inputs)
    make = _cast_halves if inputs.route is Route.HALVES_MASTER else _cut_halves
    return lambda nudge: make(inputs, layout, nudge)


def _cut_halves(inputs: MoldInput, layout: Layout, nudge: Nudge) -> Mold:
    feed = feed_of(layout.nest.noses_y, layout.size, nudge)
    block, bolt, play = layout.block, SIZES.get(inputs.bolt), play_mm(inputs.material)
    void = joined(layout.nest.hollow, feed.solid)
    lower = lower_half(block, void, inputs.pin_mm, bolt)
    upper = upper_half(block, void, _vents(inputs, layout), inputs.pin_mm, fit_mm=play, bolt=bolt)
    halves = (
        Part("half with pins", lower),
        Part("half with sockets", upper, Lies.ROLLED_OVER),
    )
    closed = tuple((part.name, part.solid) for part in halves)
    return _in_halves(layout, feed, halves, closed, ())


def _cast_halves(inputs: MoldInput, layout: Layout, nudge: Nudge) -> Mold:
    """Two masters; the castings are what is left of the box around each."""
    feed = feed_of(layout.nest.noses_y, layout.size, nudge)
    block, play = layout.block, play_mm(inputs.material)
    over = _rolled_over(block)
    void = joined(layout.nest.hollow, feed.solid)
    dents = tuple(key.mirror((0.0, 0.0, 1.0)) for key in keys(over.pins, KEY_MM, 0.0))
    first = master(over, void.rotate((180.0, 0.0, 0.0)), bumps=(), dents=dents)
    bumps = keys(block.pins, KEY_MM, play)
    second = master(block, joined(void, *_vents(inputs, layout)), bumps=bumps, dents=())
    high = max(block.below_mm, block.above_mm)
    lower = joined(_poured_box(over, high), *dents) - first
    upper = _poured_box(block, high) - second
    parts = (
        Part("master of the half with keys", first, master=True),
        Part("master of the half with sockets", second, master=True),
        Part("corner of the casting box", corner(block, high), copies=2),
    )
    castings = (
        ("casting with keys", lower.rotate((180.0, 0.0, 0.0))),
        ("casting with sockets", upper),
    )
    return _in_halves(layout, feed, parts, castings, castings)


def _in_halves(
    layout: Layout,
    feed: Feed,
    parts: tuple[Part, ...],
    closed: tuple[tuple[str, Solid], ...],
    castings: tuple[tuple[str, Solid], ...],
) -> Mold:
    nest, block = layout.nest, layout.block
    pins = [Part("core pin", pin, Lies.ON_ITS_TAIL, len(nest.pins)) for pin in nest.pins[:1]]
    inside = box((*block.low, -1e3), (*block.high, 1e3))
    length, width, height = block.size_mm
    if castings:
        height = 2 * max(block.below_mm, block.above_mm)
    return Mold(
        parts=(*parts, *pins),
        plastic=nest.plastic,
        shot=joined(nest.plastic, feed.solid ^ inside),
        closed=(*closed, *(("core pin", pin) for pin in nest.pins)),
        castings=castings,
        size_mm=(length, width, height),
        bait_ml=float(nest.plastic.volume()) / 1000 / len(nest.noses_y),
        layout=layout,
    )


def _vents(inputs: MoldInput, layout: Layout) -> tuple[Solid, ...]:
    size = VentSize(inputs.vent_width_mm, inputs.vent_depth_mm)
    return tuple(vent_cutter(vent, size) for vent in layout.outlets.vents)


def _open_builder(inputs: MoldInput) -> Builder:
    bait = grown(inputs.solid(), inputs.cut_shrink)
    hollow = open_mold.row(open_mold.sunk(bait, inputs.rise_mm), inputs.cavities, inputs.spacing_mm)
    block = open_mold.open_block(
        hollow, rise_mm=inputs.rise_mm, wall_mm=inputs.wall_mm, base_mm=inputs.base_mm
    )
    make = _cast_open if inputs.route is Route.OPEN_MASTER else _cut_open
    plastic = open_mold.poured(block, hollow)
    bait_ml = float(bait.volume()) / 1000
    return lambda _: make(block, hollow, plastic, bait_ml)


def _cut_open(block: Block, hollow: Solid, plastic: Solid, bait_ml: float) -> Mold:
    mold = open_mold.open_mold(block, hollow)
    return _opened(block, plastic, bait_ml, (Part("open mold", mold),), (("open mold", mold),), ())


def _cast_open(block: Block, hollow: Solid, plastic: Solid, bait_ml: float) -> Mold:
    """The master stands on the pour plane; the casting is poured over it."""
    over, high = _rolled_over(block), block.below_mm + block.above_mm
    first = master(
        over,
        hollow.rotate((180.0, 0.0, 0.0)).translate((0.0, 0.0, block.above_mm)),
        bumps=(),
        dents=(),
    )
    upright = (_poured_box(over, high) - first).translate((0.0, 0.0, -block.above_mm))
    castings = (("casting", upright.rotate((180.0, 0.0, 0.0))),)
    parts = (
        Part("master", first, master=True),
        Part("corner of the casting box", corner(block, high), copies=2),
    )
    return _opened(block, plastic, bait_ml, parts, castings, castings)


def _opened(
    block: Block,
    plastic: Solid,
    bait_ml: float,
    parts: tuple[Part, ...],
    closed: tuple[tuple[str, Solid], ...],
    castings: tuple[tuple[str, Solid], ...],
) -> Mold:
    return Mold(
        parts=parts,
        plastic=plastic,
        shot=plastic,
        closed=closed,
        castings=castings,
        size_mm=block.size_mm,
        bait_ml=bait_ml,
        layout=None,
    )


def _rolled_over(block: Block) -> Block:
    """The block turned half around its length; only its outline and pins are of use."""

    def rolled(place: XY) -> XY:
        return place[0], -place[1]

    return Block(
        (block.low[0], -block.high[1]),
        (block.high[0], -block.low[1]),
        block.above_mm,
        block.below_mm,
        tuple(rolled(pin) for pin in block.pins),
    )


def _poured_box(block: Block, high_mm: float) -> Solid:
    return box((*block.low, 0.0), (*block.high, high_mm))
