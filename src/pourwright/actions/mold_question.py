"""The questions that the page of a mold asks, each from the same mold, push and plastic."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from pourwright.actions.mold_case import MoldCase, MoldEntry, injector_of, plastic_of, push_fields
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.base.band import Band
from pourwright.fill.clamp import ClampInput
from pourwright.fill.gate import Gate
from pourwright.fill.hold import BodyShape, HoldInput
from pourwright.fill.odds import OddsInput
from pourwright.fill.push import Push
from pourwright.forecast.cavity_count import CavityCountInput
from pourwright.forecast.mold_feed import sizes
from pourwright.forecast.request import BaitPart
from pourwright.forecast.shot_on_load import LoadInput, MoldOnLoad
from pourwright.heat.bait_cooling import BaitCoolingInput, Shape
from pourwright.heat.mold_warming_input import MoldWarmingInput
from pourwright.matter.plastisol import COLD_DENSITY_G_ML, PACKED_RATIO
from pourwright.plan.bait_part import bait_part
from pourwright.shop.tool import Cup, Injector

# 16 and 6 fl oz, a heated room: common practice, no source.
USUAL_CUP_ML, USUAL_LOAD_ML, USUAL_ROOM_C = 473.0, 177.4, 22.0


@dataclass(frozen=True, slots=True, eq=False)
class PushCase:
    """A mold, a push into it, and what the bench knows of both."""

    case: MoldCase
    entry: MoldEntry
    pushed: dict[str, Any]
    melt_pa_s: Band | None
    flash_point_c: float | None
    injector: Injector | None
    bait: BaitPart
    room_c: float
    cup_ml: float

    @property
    def plastic_now(self) -> dict[str, Any]:
        """The plastic as every question of filling takes it."""
        return {"melt_c": self.entry.melt_c, "melt_pa_s": self.melt_pa_s}


def push_case(bench: Bench, case: MoldCase, entry: MoldEntry, melt_pa_s: Band | None) -> PushCase:
    """Everything looked up once. Raises: NotFound for a tool or a plastic that is gone."""
    plastic = plastic_of(bench, entry.plastic)
    cups = [s.noun.volume_ml for s in bench.records.all(Cup.key) if isinstance(s.noun, Cup)]
    room_c = workplace(bench).ambient_c
    return PushCase(
        case=case,
        entry=entry,
        pushed=push_fields(bench, entry.push, entry.push_n, entry.injector),
        melt_pa_s=melt_pa_s,
        flash_point_c=plastic.flash_point_c if plastic else None,
        injector=injector_of(bench, entry.injector),
        bait=bait_part(case.bait, own_shape_of(bench, case.bait)),
        room_c=USUAL_ROOM_C if room_c is None else room_c,
        cup_ml=max(cups, default=USUAL_CUP_ML),
    )


def odds_asked(it: PushCase) -> OddsInput:
    """Will it fill. Raises: NotFound where the bait has no shape."""
    return OddsInput(
        **it.case.fields(), **it.pushed, **it.plastic_now, mold_c=it.entry.mold_c,
        flash_point_c=it.flash_point_c,
    )  # fmt: skip


def load_asked(it: PushCase) -> LoadInput:
    """Several molds from one load; the clock starts with the first push."""
    way = it.case.fields()
    return LoadInput(
        **it.pushed, **it.plastic_now, ambient_c=it.room_c,
        molds=tuple(
            MoldOnLoad(**way, mold_c=it.entry.mold_c, since_s=i * it.entry.pause_s)
            for i in range(it.entry.molds)
        ),
    )  # fmt: skip


def hold_asked(it: PushCase, thickest_mm: float) -> HoldInput:
    """How long to push; the runner's gates are alike."""
    feed = sizes(it.case.mold.feed, bait_width_mm=thickest_mm)
    return HoldInput(
        gates=(Gate(thick_mm=feed.gate_thick_mm, width_mm=feed.gate_width_mm),),
        thickest_mm=thickest_mm,
        shape=BodyShape.FLAT if it.bait.flat else BodyShape.ROUND,
        melt_c=it.entry.melt_c, mold_c=it.entry.mold_c, material=it.case.mold.material,
        room_c=it.room_c,
    )  # fmt: skip


def cure_asked(it: PushCase, thickest_mm: float) -> BaitCoolingInput:
    """When to open it."""
    return BaitCoolingInput(
        thickest_mm=thickest_mm, shape=Shape.FLAT if it.bait.flat else Shape.ROUND,
        melt_c=it.entry.melt_c, mold_c=it.entry.mold_c, material=it.case.mold.material,
        open_face=it.case.mold.open_face,
    )  # fmt: skip


def clamp_asked(it: PushCase, shadow_cm2: float) -> ClampInput:
    """What lifts the halves, against the clamps at hand."""
    return ClampInput(
        shadow_cm2=shadow_cm2, clamps=tuple(c.sort for c in it.case.mold.clamps),
        push_n=it.entry.push_n, two_hands=it.entry.push is Push.TWO_HANDS,
        bore_mm=it.pushed["bore_mm"], material=it.case.mold.material, mold_c=it.entry.mold_c,
        **it.plastic_now,
    )  # fmt: skip


def count_asked(it: PushCase) -> CavityCountInput:
    """One cavity more or fewer."""
    cavity, mold = it.case.known, it.case.mold
    feed = replace(mold.feed, pitch_mm=it.case.known_feed.pitch_mm)
    return CavityCountInput(
        **it.pushed, **it.plastic_now, cavity=cavity.slices, branches=cavity.branches,
        feed=feed, feed_ml=mold.feed_ml, cavities=mold.cavities, material=mold.material,
        air=mold.air, mold_c=it.entry.mold_c, cup_ml=it.cup_ml,
        injector_ml=it.injector.volume_ml if it.injector else USUAL_LOAD_ML, molds=mold.owned,
    )  # fmt: skip


def warming_asked(it: PushCase, thickest_mm: float) -> MoldWarmingInput:
    """How warm the mold becomes in a row of shots, from the room on.

    Raises: NotFound for a bait that has neither weight nor shape.
    """
    mold, g_per_ml = it.case.mold, COLD_DENSITY_G_ML.typical * PACKED_RATIO.typical
    weighed, volume = it.bait.mass_g, it.bait.volume_ml
    volume_ml = volume.typical if volume else it.case.known.volume_ml
    bait_g = weighed.typical if weighed else volume_ml * g_per_ml
    return MoldWarmingInput(
        thickest_mm=thickest_mm, shape=Shape.FLAT if it.bait.flat else Shape.ROUND, bait_g=bait_g,
        cavities=mold.cavities, melt_c=it.entry.melt_c, material=mold.material,
        feed_g=None if mold.feed_ml is None else mold.feed_ml * g_per_ml, mold_g=mold.mass_g,
        mold_c=it.room_c, ambient_c=it.room_c, open_face=mold.open_face, molds=mold.owned,
    )  # fmt: skip
