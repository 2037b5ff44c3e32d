"""How a stored bait goes in the water, rigged as somebody says."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import numpy as np

from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.see_record import Ring
from pourwright.actions.shape_of import body_of, own_shape_of
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput, NotFound
from pourwright.base.field import number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.blend.hang import HangAnswer, HangInput, hang
from pourwright.blend.rig import Weight, loads
from pourwright.blend.sink import SinkAnswer, SinkInput, sink
from pourwright.body.body_input import BodyInput
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.split_tail_minnow import SplitTailMinnow
from pourwright.body.loft import Solid
from pourwright.body.measure import MeasureAnswer
from pourwright.matter.metal import Metal
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.matter.water import HIGHEST_C, LOWEST_C, Water
from pourwright.plan.bait_part import bait_part
from pourwright.shop.mold import Bait

# Ten feet.
DEPTH_M = 3.048
ON_ITS_SIDE = (PaddleTail, SplitTailMinnow)
# An outline, as a share of the bait's length, and how many bodies stay at hand.
RING_SHARE, KEPT = 1 / 400, 16


class Back(StrEnum):
    """Where a bait's back is as it lies in its mold."""

    UP = "flat: its back looks along the pull"
    ACROSS = "on its side"


@dataclass(frozen=True, slots=True, kw_only=True)
class SwimWish(Record):
    """Water and rig."""

    water: Water = pick("Water", default=Water.FRESH)
    water_c: float | None = unmeasured(
        "Its temperature", low=LOWEST_C, high=HIGHEST_C, typical=(9, 18, 26),
        measure="read the water temperature",
    )  # fmt: skip
    back: Back = pick("How it lies in its mold", default=Back.UP)
    hook_g: float | None = number("Hook, weight in air", low=0.01, high=100, default=None)
    hook_at_mm: float | None = number(
        "Middle of the hook, from the nose", low=0, high=600, default=None
    )
    weight_g: float | None = number("Weight on it, in air", low=0.01, high=300, default=None)
    metal: Metal = pick("What that weight is made of", default=Metal.TUNGSTEN)
    weight_at_mm: float = number("Middle of that weight, from the nose", low=0, high=600, default=0)
    under_mm: float = number("Hook and weight under the center line", low=-50, high=100, default=0)
    tie_at_mm: float = number("Where the line is tied, from the nose", low=0, high=600, default=0)
    tie_up_mm: float = number("The same above the center line", low=-50, high=100, default=0)


@dataclass(frozen=True, slots=True)
class SwimSeen:
    """A bait in the water; `outline_mm` is its side, x from the nose and up.

    `radii_mm` are those of balls as heavy as the `weights`.
    """

    sinks: SinkAnswer
    hangs: HangAnswer
    weights: tuple[Weight, ...]
    radii_mm: tuple[float, ...]
    outline_mm: tuple[Ring, ...]
    density_g_ml: float
    volume_ml: float


def first_swim(bench: Bench, bait: Bait) -> SwimWish:
    """The bait without a rig, in the water that the bench fishes."""
    back = Back.ACROSS if isinstance(bait.shape, ON_ITS_SIDE) else Back.UP
    place = workplace(bench)
    return SwimWish(water=place.water, water_c=place.water_c, back=back)


def see_swim(bench: Bench, bait: Bait, measured: MeasureAnswer, wish: SwimWish) -> SwimSeen:
    """How a bait with a shape sinks and hangs.

    Raises: BadInput for a rig that does not fit the bait, NotFound for a bait without a shape.
    """
    body = body_of(bench, bait)
    if body is None:
        raise NotFound(f"{bait.name!r} has no shape yet")
    _check(measured, wish)
    side_on, top_cm2 = _seen(body, wish.back)
    own = _figures(bench, bait)
    weights = tuple(_weights(wish, measured.length_mm))
    shared = own | {
        "salinity": wish.water.salinity, "water_c": wish.water_c, "weights": weights,
    }  # fmt: skip
    sinks = sink(
        SinkInput(
            length_mm=measured.length_mm,
            thick_mm=min(bait.thickest_mm or measured.thickest_mm, measured.length_mm),
            shadow_cm2=top_cm2, center_x_mm=measured.center_x_mm, depth_m=DEPTH_M, **shared,
        )
    )  # fmt: skip
    up = measured.center_y_mm if wish.back is Back.ACROSS else measured.center_z_mm
    hangs = hang(
        HangInput(
            buoyancy_at_mm=measured.center_x_mm, buoyancy_up_mm=up, tie_at_mm=wish.tie_at_mm,
            tie_up_mm=wish.tie_up_mm, **shared,
        )
    )  # fmt: skip
    volume = own["volume_ml"].typical
    grams = own["mass_g"] if "mass_g" in own else volume * own["density_g_ml"].typical
    return SwimSeen(sinks, hangs, weights, _radii_mm(weights), side_on, grams / volume, volume)


def _check(measured: MeasureAnswer, wish: SwimWish) -> None:
    for name in ("hook_at_mm", "weight_at_mm", "tie_at_mm"):
        at = getattr(wish, name)
        if at is not None and at > measured.length_mm:
            why = f"lies behind the tail: the bait is {measured.length_mm:.0f} mm long"
            raise BadInput(name, at, why)


def _figures(bench: Bench, bait: Bait) -> dict[str, Any]:
    """Volume, and the scale's word where there is one; else the density of plain plastic."""
    part = bait_part(bait, own_shape_of(bench, bait))
    grams = bait.weighing.air_g if bait.weighing else bait.mass_g
    if grams is not None:
        return {"volume_ml": part.volume_ml, "mass_g": grams}
    return {"volume_ml": part.volume_ml, "density_g_ml": COLD_DENSITY_G_ML.band}


def _weights(wish: SwimWish, length_mm: float) -> Iterator[Weight]:
    if wish.hook_g is not None:
        at = length_mm / 3 if wish.hook_at_mm is None else wish.hook_at_mm
        yield Weight(name="hook", mass_g=wish.hook_g, at_mm=at, up_mm=-wish.under_mm)
    if wish.weight_g is not None:
        yield Weight(
            name="weight", metal=wish.metal, mass_g=wish.weight_g, at_mm=wish.weight_at_mm,
            up_mm=-wish.under_mm,
        )  # fmt: skip


def _radii_mm(weights: tuple[Weight, ...]) -> tuple[float, ...]:
    return tuple(500 * float(np.median(load.size_m)) for load in loads(Draws(), weights))


@functools.lru_cache(maxsize=KEPT)
def _seen(body: BodyInput, back: Back) -> tuple[tuple[Ring, ...], float]:
    """The outline from the side, and the area from above."""
    solid = body.solid()
    lying, edge = solid, solid.rotate((-90.0, 0.0, 0.0))
    side, top = (lying, edge) if back is Back.ACROSS else (edge, lying)
    return _rings(side), float(top.project().area()) / 100


def _rings(solid: Solid) -> tuple[Ring, ...]:
    low, _, _, high, _, _ = solid.bounding_box()
    shadow = solid.project().simplify((high - low) * RING_SHARE)
    return tuple(tuple((float(x), float(y)) for x, y in ring) for ring in shadow.to_polygons())
