"""What a bait or a look comes to before any batch is planned: its outline, measures, swatches."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.actions.shelf_color import calibrations
from pourwright.base.band import Band
from pourwright.base.errors import BadInput, NotFound
from pourwright.body.measure import MeasureInput, measure
from pourwright.color.swatch import swatch
from pourwright.forecast.request import BaitPart, LayerPart
from pourwright.plan.bait_part import bait_part
from pourwright.plan.layer import dose_of
from pourwright.plan.resolve import layer_parts
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import ADDITIVES
from pourwright.shop.own_shape import ShapeMeasures

# A thickness to compare looks at; a plan uses the bait's own. Estimate.
LOOK_MM = 10.0
# A list asks for the same looks again and again.
KEPT = 256

Ring = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class BaitView:
    """A bait: its outline along the pull of the mold (mm), its volume, its thickest place."""

    outline_mm: tuple[Ring, ...]
    length_mm: float
    width_mm: float
    volume_ml: Band | None
    thickest_mm: float | None
    undercut: str


@dataclass(frozen=True, slots=True)
class LayerView:
    """A layer of a look over white and over dark ground, #rrggbb, at `LOOK_MM`.

    `measured` says whether pucks taught every colorant in it; the plastic is the usual one.
    """

    layer: str
    over_white: str
    over_dark: str
    measured: bool


def see_bait(bench: Bench, bait: Bait) -> BaitView:
    """What is known of a bait. Raises: BadInput for measures that do not go together."""
    own = own_shape_of(bench, bait)
    part = bait_part(bait, own)
    if own is not None:
        return _from_file(own.measures, part)
    shape = None if bait.shape is None else measure(MeasureInput(family=bait.shape))
    return BaitView(
        outline_mm=shape.outline_mm if shape else (),
        length_mm=shape.length_mm if shape else 0.0,
        width_mm=shape.width_mm if shape else 0.0,
        volume_ml=part.volume_ml,
        thickest_mm=part.thickest_mm,
        undercut=shape.undercut if shape else "",
    )


def _from_file(kept: ShapeMeasures, part: BaitPart) -> BaitView:
    return BaitView(
        outline_mm=tuple(tuple(zip(r.x_mm, r.y_mm, strict=True)) for r in kept.outline),
        length_mm=kept.length_mm,
        width_mm=kept.width_mm,
        volume_ml=part.volume_ml,
        thickest_mm=part.thickest_mm,
        undercut=kept.undercut,
    )


def see_look(bench: Bench, look: Look) -> tuple[LayerView, ...]:
    """The layers of a look; none if a material is no longer there."""
    try:
        parts = layer_parts(look, materials_of(bench, look), calibrations(bench))
    except BadInput:
        return ()
    return _views(parts)


@functools.lru_cache(maxsize=KEPT)
def _views(parts: tuple[LayerPart, ...]) -> tuple[LayerView, ...]:
    views = []
    for part in parts:
        doses = [dose_of(d) for d in part.doses]
        shown = swatch(doses, thick_mm=LOOK_MM)
        measured = all(d.colorant.measured for d in doses if d.colorant)
        views.append(LayerView(part.name, shown.over_white, shown.over_dark, measured))
    return tuple(views)


def materials_of(bench: Bench, look: Look) -> dict[str, Noun]:
    """Everything on the shelf that a look asks for, by id; what is gone is left out."""
    wanted = {dose.material for layer in look.layers for dose in layer.doses}
    return {key: noun for key in wanted if (noun := _material(bench, key)) is not None}


def _material(bench: Bench, key: str) -> Noun | None:
    for sort in ADDITIVES:
        try:
            return bench.records.get(sort, key).noun
        except NotFound:
            continue
    return None
