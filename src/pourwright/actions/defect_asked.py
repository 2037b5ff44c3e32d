"""The question each test asks, with the numbers of the lot; or why it cannot be asked."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Mapping

import numpy as np

from pourwright.actions.defect_case import DefectCase
from pourwright.actions.mold_case import MoldCase
from pourwright.actions.mold_question import (
    PushCase,
    clamp_asked,
    cure_asked,
    hold_asked,
    odds_asked,
)
from pourwright.actions.see_mold import shadow_cm2
from pourwright.base.band import Band
from pourwright.base.draws import Draws
from pourwright.base.record import Record
from pourwright.base.units import in_both
from pourwright.blend.hardness import Grade, HardnessInput
from pourwright.blend.sink import SinkInput
from pourwright.body.filling_order import FillingInput
from pourwright.fill.air import AirInput, Vent
from pourwright.fill.air_way import AirWay
from pourwright.fill.bubbles import BubblesInput
from pourwright.fill.join import JoinInput
from pourwright.fill.push import Push
from pourwright.fill.settle_input import Particle, SettleInput
from pourwright.forecast.mix import dose_grams
from pourwright.forecast.mold_feed import volume_ml
from pourwright.forecast.request import DosePart, Sort
from pourwright.heat.window import Vessel, WindowInput
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.plan.defect.judge_mix import STILL_S
from pourwright.plan.defect.trial import Trial

# A bubble that is seen in a bait, two drops of water, fine table salt: estimates.
SEEN_BUBBLE_MM, TWO_DROPS_MG, FINE_SALT_MM, FINE_FLAKE_MM = 0.5, 100.0, 0.2, 0.4
# Cup depth of raw plastic: estimate.
_DEPTH_MM = 60.0
_LEAST_SHOT_C = 155.0
_BAITS_WEIGHED = 5


class UntoldError(Exception):
    """Why a test cannot be put, in words for the person."""


def asked(trial: Trial, it: DefectCase) -> Record:
    """The input of a test. Raises: UntoldError where the bench does not know enough."""
    return _ASKED[trial](it)


def _clamp(it: DefectCase) -> Record:
    push = _plunged(it, "nothing lifts its halves")
    return clamp_asked(push, shadow_cm2(push.case))


def _full(it: DefectCase) -> Record:
    return odds_asked(_closed(it))


def _cold_mold(it: DefectCase) -> Record:
    push = _closed(it)
    return dataclasses.replace(odds_asked(push), mold_c=push.room_c)


def _air(it: DefectCase) -> Record:
    push = _plunged(it, "the air rises out on its own")
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


def _ends(it: DefectCase) -> Record:
    push, body = _known(it), it.body
    if body is None:
        raise UntoldError(f"{push.case.bait.name} has no shape yet: give it one by ruler")
    return FillingInput(family=body.family, file=body.file, unit=body.unit, placing=body.placing)


def _hold(it: DefectCase) -> Record:
    push = _known(it)
    if push.case.mold.open_face:
        raise UntoldError("An open mold has no gate: top it up while it shrinks")
    return hold_asked(push, _thickest_mm(push))


def _open(it: DefectCase) -> Record:
    push = _known(it)
    return cure_asked(push, _thickest_mm(push))


def _window(it: DefectCase) -> Record:
    push = _plunged(it, "it goes from the cup into the mold")
    if it.melt_c <= _LEAST_SHOT_C:
        raise UntoldError(f"It was at {in_both(it.melt_c)} before it was drawn: too cool already")
    return WindowInput(
        vessel=Vessel.INJECTOR, melt_c=it.melt_c, bore_mm=push.pushed["bore_mm"],
        ambient_c=push.room_c, least_c=_LEAST_SHOT_C,
    )  # fmt: skip


def _bubbles(_: DefectCase) -> Record:
    return BubblesInput(bubble_mm=SEEN_BUBBLE_MM, depth_mm=_DEPTH_MM)


def _steam(_: DefectCase) -> Record:
    return BubblesInput(bubble_mm=SEEN_BUBBLE_MM, depth_mm=_DEPTH_MM, damp_mg=TWO_DROPS_MG)


def _flake(it: DefectCase) -> Record:
    found = _dose(it, Sort.FLAKE)
    return SettleInput(
        particle=Particle.FLAKE,
        size_mm=(found and found.flake_mm) or FINE_FLAKE_MM,
        film_um=found.film_um if found else None,
        grams_per_100g=_grams(found),
        plastic_c=it.melt_c,
        melt_pa_s=it.push.melt_pa_s if it.push else None,
        stand_s=it.told.get("still_s", STILL_S),
    )


def _salt(it: DefectCase) -> Record:
    found = _dose(it, Sort.SALT)
    return SettleInput(
        particle=Particle.SALT,
        size_mm=it.told.get("grain_mm", FINE_SALT_MM),
        grams_per_100g=_grams(found),
        plastic_c=it.melt_c,
        melt_pa_s=it.push.melt_pa_s if it.push else None,
        stand_s=it.told.get("still_s", STILL_S),
    )


def _join(it: DefectCase) -> Record:
    if it.lot and it.lot.request and len(it.lot.request.layers) < 2:
        raise UntoldError("The look of this lot has one layer")
    if "apart_s" not in it.told:
        raise UntoldError("That depends on how long the first layer cooled: pick it above")
    if it.told["apart_s"] > 0:
        raise UntoldError(
            "Nobody read the face of the first layer: read it with the gun when the second comes, "
            "then ask again"
        )
    return JoinInput(first_c=it.melt_c, second_c=it.melt_c)


def _softness(it: DefectCase) -> Record:
    if it.lot is None or it.lot.request is None:
        raise UntoldError("Pick a lot: softness is a matter of its recipe")
    plastic, layers = it.lot.request.plastic, it.lot.request.layers
    if plastic.hardness_oo is None:
        raise UntoldError(
            "Nobody has said how hard this plastic is: press a puck, or read its label"
        )
    own = Grade(name=plastic.name, grams_g=100, hardness_oo=plastic.hardness_oo)
    doses = max((layer.doses for layer in layers), key=_softener_g, default=())
    hard = [
        Grade(name=d.name, grams_g=_grams(d), hardness_oo=d.hardness_oo)
        for d in doses
        if d.sort is Sort.HARDENER and d.hardness_oo
    ]
    none = Grade(name="no hardener", grams_g=0, hardness_oo=plastic.hardness_oo)
    return HardnessInput(grades=(own, *(hard or [none])), softener_per_100g=_softener_g(doses))


def _sink(it: DefectCase) -> Record:
    push = _known(it)
    volume = push.bait.volume_ml
    if push.case.cavity is None or volume is None:
        raise UntoldError(f"{push.case.bait.name} has no shape yet: give it one by ruler")
    weighed = it.lot.entry.five_g if it.lot and it.lot.entry else None
    return SinkInput(
        mass_g=None if weighed is None else weighed / _BAITS_WEIGHED,
        volume_ml=volume,
        density_g_ml=_density(it) if weighed is None else None,
        length_mm=float(np.ptp(push.case.known.filled.xy[:, 0])),
        thick_mm=_thickest_mm(push),
    )


_ASKED: Mapping[Trial, Callable[[DefectCase], Record]] = {
    Trial.CLAMP: _clamp,
    Trial.GAP: _clamp,
    Trial.FULL: _full,
    Trial.COLD_MOLD: _cold_mold,
    Trial.AIR: _air,
    Trial.ENDS: _ends,
    Trial.HOLD: _hold,
    Trial.OPEN: _open,
    Trial.BUBBLES: _bubbles,
    Trial.STEAM: _steam,
    Trial.FLAKE: _flake,
    Trial.SALT: _salt,
    Trial.JOIN: _join,
    Trial.WINDOW: _window,
    Trial.SOFTNESS: _softness,
    Trial.SINK: _sink,
}


def _known(it: DefectCase) -> PushCase:
    if it.push is None:
        raise UntoldError(f"{it.missing[:1].upper()}{it.missing[1:]}")
    return it.push


def _closed(it: DefectCase) -> PushCase:
    push = _known(it)
    if push.case.mold.open_face:
        raise UntoldError("An open mold is filled from above, with no gate to freeze")
    if push.case.cavity is None:
        raise UntoldError(f"{push.case.bait.name} has no shape yet: give it one by ruler")
    if not push.case.forecast:
        raise UntoldError("So many cavities on one push are beyond the forecast")
    return push


def _plunged(it: DefectCase, otherwise: str) -> PushCase:
    push = _closed(it)
    if push.entry.push is Push.POUR:
        raise UntoldError(f"It was poured by hand: {otherwise}")
    return push


def _thickest_mm(push: PushCase) -> float:
    if push.bait.thickest_mm is None:
        raise UntoldError(f"Measure the thickest place of {push.case.bait.name}")
    return push.bait.thickest_mm


def _feed_ml(case: MoldCase) -> float:
    """Weighed, or by its measures."""
    if case.mold.feed_ml is not None:
        return case.mold.feed_ml
    return volume_ml(case.known_feed.slices(case.mold.cavities))


def _doses(it: DefectCase) -> Iterable[DosePart]:
    layers = it.lot.request.layers if it.lot and it.lot.request else ()
    return (dose for layer in layers for dose in layer.doses)


def _dose(it: DefectCase, sort: Sort) -> DosePart | None:
    """The largest dose of a sort; none where no lot was picked. Raises: UntoldError without one."""
    if it.lot is None:
        return None
    found = max((d for d in _doses(it) if d.sort is sort), key=_grams, default=None)
    if found is None:
        raise UntoldError(f"The recipe of this lot has no {sort.value} in it")
    return found


def _grams(dose: DosePart | None) -> float:
    """Grams in 100 g of plastic; a usual drop or spoon where nobody weighed one."""
    return 0.0 if dose is None else float(dose_grams(Draws(count=1), dose)[0])


def _softener_g(doses: Iterable[DosePart]) -> float:
    return sum(_grams(d) for d in doses if d.sort is Sort.SOFTENER)


def _density(it: DefectCase) -> Band:
    """As the sheet forecast it, or that of plain plastic: a bait shrinks, it does not thin."""
    if it.lot is not None:
        figures = {f["key"]: f["value"] for f in it.lot.sheet.plan["figures"]}
        if found := figures.get("bait_density_g_ml"):
            return Band(found["low"], found["typical"], found["high"])
    return COLD_DENSITY_G_ML.band
