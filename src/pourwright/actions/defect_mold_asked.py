"""What is asked of the mold and the push when a defect is looked into."""

from __future__ import annotations

import dataclasses

from pourwright.actions.defect_case import DefectCase
from pourwright.actions.defect_known import (
    UntoldError,
    closed,
    known,
    no_shape,
    plunged,
    thickest_mm,
)
from pourwright.actions.mold_case import MoldCase
from pourwright.actions.mold_question import clamp_asked, cure_asked, hold_asked, odds_asked
from pourwright.actions.see_mold import shadow_cm2
from pourwright.base.record import Record
from pourwright.base.units import in_both
from pourwright.body.filling_order import FillingInput
from pourwright.fill.air import AirInput, Vent
from pourwright.fill.air_way import AirWay
from pourwright.fill.push import Push
from pourwright.forecast.mold_feed import volume_ml
from pourwright.heat.window import Vessel, WindowInput

_LEAST_SHOT_C = 155.0


def clamp(it: DefectCase) -> Record:
    """Whether the last push lifts the halves."""
    push = plunged(it, "nothing lifts its halves")
    return clamp_asked(push, shadow_cm2(push.case))


def full(it: DefectCase) -> Record:
    """Whether the shot comes out full."""
    return odds_asked(closed(it))


def cold_mold(it: DefectCase) -> Record:
    """The same with the mold as cold as the room."""
    push = closed(it)
    return dataclasses.replace(odds_asked(push), mold_c=push.room_c)


def air(it: DefectCase) -> Record:
    """Whether the air gets out in time."""
    push = plunged(it, "the air rises out on its own")
    case = push.case
    cavities, volume = case.mold.cavities, case.known.volume_ml
    vented = case.mold.air is AirWay.VENTED
    return AirInput(
        cavity_ml=cavities * volume + _feed_ml(case),
        vents=(Vent(count=cavities),) if vented else (),
        push_n=push.entry.push_n,
        two_hands=push.entry.push is Push.TWO_HANDS,
        bore_mm=push.pushed["bore_mm"],
        mold_c=push.entry.mold_c,
        material=case.mold.material,
        **push.plastic_now,
    )


def ends(it: DefectCase) -> Record:
    """Where it fills last."""
    push, body = known(it), it.body
    if body is None:
        raise no_shape(push)
    return FillingInput(family=body.family, file=body.file, unit=body.unit, placing=body.placing)


def hold(it: DefectCase) -> Record:
    """How long to keep pushing."""
    push = known(it)
    if push.case.mold.open_face:
        raise UntoldError("An open mold has no gate: top it up while it shrinks")
    return hold_asked(push, thickest_mm(push))


def opening(it: DefectCase) -> Record:
    """When it is firm enough to open."""
    push = known(it)
    return cure_asked(push, thickest_mm(push))


def window(it: DefectCase) -> Record:
    """How long the barrel stays hot enough."""
    push = plunged(it, "it goes from the cup into the mold")
    if it.melt_c <= _LEAST_SHOT_C:
        raise UntoldError(f"It was at {in_both(it.melt_c)} before it was drawn: too cool already")
    return WindowInput(
        vessel=Vessel.INJECTOR, melt_c=it.melt_c, bore_mm=push.pushed["bore_mm"],
        ambient_c=push.room_c, least_c=_LEAST_SHOT_C,
    )  # fmt: skip


def _feed_ml(case: MoldCase) -> float:
    """Weighed, or by its measures."""
    if case.mold.feed_ml is not None:
        return case.mold.feed_ml
    return volume_ml(case.known_feed.slices(case.mold.cavities))
