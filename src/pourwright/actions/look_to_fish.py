"""What a fish makes of stored looks in a water, and from how far a person sees them there."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.actions.shelf_color import ColorShelf, color_shelf
from pourwright.base.draws import Array
from pourwright.color.layer import Mixture, mixture
from pourwright.forecast.fish_sight import FishSight, Plastic, fish_sight, plastic
from pourwright.plan.bait_part import bait_part
from pourwright.shop.look import Look, LookLayer
from pourwright.shop.mold import Bait
from pourwright.water.field import LightField, light_field
from pourwright.water.fish.species import Species, known
from pourwright.water.kind import WaterKind
from pourwright.water.scaled import typical_water
from pourwright.water.seen import SightAnswer, water_sight
from pourwright.water.sight_input import SightInput

# Of a bait without a known thickness; estimate.
USUAL_THICK_MM = 10.0
# Sights that are kept at hand.
KEPT = 128


@dataclass(frozen=True, slots=True)
class SomeWater:
    """A water by its look, and where somebody lowered a white disk, until where it was seen."""

    kind: WaterKind
    secchi_m: float | None = None


def own_water(bench: Bench) -> SomeWater:
    """The water that this bench fishes."""
    place = workplace(bench)
    return SomeWater(place.water_kind, place.secchi_m)


def field_at(water: SomeWater, depth_m: float) -> LightField:
    """The light in the middle of such waters, under a gray sky.

    Raises: NoAnswer for a white disk's depth that no such water has.
    """
    return light_field(typical_water(water.kind, water.secchi_m), depth_m=depth_m)


def thick_of(bench: Bench, bait: Bait) -> float:
    """The thickest place of a bait, mm."""
    return bait_part(bait, own_shape_of(bench, bait)).thickest_mm or USUAL_THICK_MM


def plastics(bench: Bench, look: Look, thick_mm: float) -> dict[str, Plastic]:
    """The layers of a look under water, by their place, that thick all through.

    Raises: NotFound where a material is gone.
    """
    shelf = color_shelf(bench)
    return {layer.place.value: plastic(_mixed(shelf, layer), thick_mm) for layer in look.layers}


def seen_by(
    species: Species,
    pieces: Mapping[str, Plastic],
    pairs: tuple[tuple[str, str], ...],
    field: LightField,
    away_m: float,
) -> FishSight:
    """What that fish makes of them. Raises: BadInput for a fish whose cones are not known."""
    return fish_sight(pieces, pairs, field, away_m=away_m, eye=known(species).eye)


def sight_of(water: SomeWater, depth_m: float, piece: Plastic) -> SightAnswer:
    """From how far a person sees plastic down there, level, and as what."""
    return _sight(water, depth_m, _plain(piece.back), _plain(piece.through))


@functools.lru_cache(maxsize=KEPT)
def _sight(
    water: SomeWater, depth_m: float, back: tuple[float, ...], through: tuple[float, ...]
) -> SightAnswer:
    return water_sight(
        SightInput(
            kind=water.kind, secchi_m=water.secchi_m, depth_m=depth_m, reflectance=back,
            transmittance=through,
        )
    )  # fmt: skip


def _plain(shares: Array) -> tuple[float, ...]:
    return tuple(np.clip(shares, 0, 1).tolist())


def _mixed(shelf: ColorShelf, layer: LookLayer) -> Mixture:
    doses = [dose for d in layer.doses if (dose := shelf.dose(d)).colorant]
    return mixture(shelf.plastic("").typical_flux(), [d.stuff(d.typical()) for d in doses])
