"""One bait, laid out for its page."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pourwright.actions.bait_figures import bait_figures
from pourwright.actions.keep_record import users_of
from pourwright.actions.port import Bench, Stored
from pourwright.actions.shape_of import measures_of, own_shape_of
from pourwright.base.units import UNITS
from pourwright.body.measure import MeasureAnswer
from pourwright.plan.bait_part import bait_part
from pourwright.plan.batch_plan import Figure
from pourwright.shop.mold import Bait, Mold
from pourwright.web.bait_water import WaterView, water_view
from pourwright.web.deed import Deed
from pourwright.web.drawing import Drawing, Mark
from pourwright.web.extent import extent
from pourwright.web.form import Typed
from pourwright.web.portrait import portrait
from pourwright.web.show import Settings, exactly
from pourwright.web.solid_scale import filling_scale, thick_scale


@dataclass(frozen=True, slots=True)
class BaitContext:
    """A bait: its picture, its numbers, the molds that make it."""

    title: str
    shape: str
    size: str
    address: str
    record: str
    drawing: Drawing | None
    figures: tuple[Figure, ...]
    notes: tuple[str, ...]
    note: str
    molds: tuple[Deed, ...]
    make_mold: str
    water: WaterView | None


def bait_context(
    bench: Bench, stored: Stored, bait: Bait, asked: Typed, settings: Settings
) -> BaitContext:
    """Everything the page says of a bait; `asked` is its rig and its water, as typed."""
    measured, own = measures_of(bench, bait), own_shape_of(bench, bait)
    return BaitContext(
        title=bait.name,
        shape=bait.shape.label if bait.shape else f"From {own.source}" if own else "",
        size=extent(measured.length_mm, measured.width_mm, measured.height_mm, settings)
        if measured
        else "",
        address=f"/baits/{stored.id}",
        record=f"/records/{Bait.key}/{stored.id}",
        drawing=_drawing(bench, stored, measured, settings) if measured else None,
        figures=bait_figures(bait, bait_part(bait, own), measured),
        notes=_notes(bait, measured) if measured else (),
        note=bait.note,
        molds=tuple(
            Deed(s.noun.name, f"/molds/{s.id}")
            for s in users_of(bench, Bait.key, stored.id)
            if isinstance(s.noun, Mold)
        ),
        make_mold=f"/baits/{stored.id}/mold",
        water=water_view(bench, bait, measured, asked, settings) if measured else None,
    )


def _drawing(bench: Bench, stored: Stored, it: MeasureAnswer, settings: Settings) -> Drawing:
    return Drawing(
        solid=f"/baits/{stored.id}/solid",
        scales=(thick_scale(it.thickest_mm, settings.system), filling_scale()),
        marks=_marks(it, settings),
        portrait=portrait(bench, stored.noun, settings),
        system=settings.system.value,
    )


def _marks(it: MeasureAnswer, settings: Settings) -> tuple[Mark, ...]:
    """The thickest place; the gate and where the cavity fills last, the very last one labeled."""
    thickest = exactly(it.thickest_mm, UNITS["mm"], settings)
    last = [Mark("filling", (end.x_mm, end.y_mm, 0.0), "") for end in it.dead_ends]
    if last:
        last[0] = replace(last[0], label="fills last")
    return (Mark("thickness", (it.thickest_at_mm, 0.0, 0.0), f"thickest, {thickest}"), *last)


def _notes(bait: Bait, it: MeasureAnswer) -> tuple[str, ...]:
    """What the solid says of mold and filling; a known core pin is among the notes already."""
    caught = it.undercut if it.undercut and not (bait.shape and bait.shape.core_pin) else ""
    return tuple(filter(None, [caught, *it.notes, _last(it)]))


def _last(it: MeasureAnswer) -> str:
    """What the rings on the filling picture mean."""
    count = len(it.dead_ends)
    places = "at one place" if count == 1 else f"at {count} places"
    words = f"With the gate at its nose it fills last {places}: air is left there without a vent"
    return f"{words}." if count else ""
