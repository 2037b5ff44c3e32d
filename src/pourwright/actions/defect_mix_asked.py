"""What is asked of the cup when a defect is looked into: bubbles, grains, layers, recipe."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from pourwright.actions.defect_case import DefectCase
from pourwright.actions.defect_known import UntoldError, known, no_shape, thickest_mm
from pourwright.base.band import Band
from pourwright.base.draws import Draws
from pourwright.base.record import Record
from pourwright.blend.hardness import Grade, HardnessInput
from pourwright.blend.sink import SinkInput
from pourwright.fill.bubbles import BubblesInput
from pourwright.fill.join import JoinInput
from pourwright.fill.settle_input import Particle, SettleInput
from pourwright.forecast.mix import dose_grams
from pourwright.forecast.request import DosePart, Sort
from pourwright.matter.plastisol import COLD_DENSITY_G_ML
from pourwright.plan.defect.judge_mix import STILL_S

# A bubble that is seen in a bait, two drops of water, fine table salt: estimates.
SEEN_BUBBLE_MM, TWO_DROPS_MG, FINE_SALT_MM, FINE_FLAKE_MM = 0.5, 100.0, 0.2, 0.4
# Cup depth of raw plastic: estimate.
_DEPTH_MM = 60.0


def bubbles(_: DefectCase) -> Record:
    """How long raw plastic stands until bubbles that show are out."""
    return BubblesInput(bubble_mm=SEEN_BUBBLE_MM, depth_mm=_DEPTH_MM)


def steam(_: DefectCase) -> Record:
    """What two drops of water do."""
    return BubblesInput(bubble_mm=SEEN_BUBBLE_MM, depth_mm=_DEPTH_MM, damp_mg=TWO_DROPS_MG)


def flake(it: DefectCase) -> Record:
    """How far flake sinks while the cup stands."""
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


def salt(it: DefectCase) -> Record:
    """How far salt sinks while the cup stands."""
    found = _dose(it, Sort.SALT)
    return SettleInput(
        particle=Particle.SALT,
        size_mm=it.told.get("grain_mm", FINE_SALT_MM),
        grams_per_100g=_grams(found),
        plastic_c=it.melt_c,
        melt_pa_s=it.push.melt_pa_s if it.push else None,
        stand_s=it.told.get("still_s", STILL_S),
    )


def join(it: DefectCase) -> Record:
    """Whether layers that were shot together hold."""
    if it.lot and it.lot.request and len(it.lot.request.layers) < 2:
        raise UntoldError("The look of this lot has one layer")
    if "apart_s" not in it.told:
        raise UntoldError("That depends on how long the first layer cooled: pick it above")
    if it.told["apart_s"] > 0:
        raise UntoldError(
            "Nobody read the face of the first layer: read it with the gun when the second comes, "
            "then ask again"
        )
    return JoinInput(first_c=it.shot_c, second_c=it.shot_c)


def softness(it: DefectCase) -> Record:
    """How hard the recipe makes it."""
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


def sink(it: DefectCase) -> Record:
    """Whether it sinks by its weight and volume."""
    push = known(it)
    volume = push.bait.volume_ml
    if push.case.cavity is None or volume is None:
        raise no_shape(push)
    bait_g = it.lot.entry.bait_g if it.lot and it.lot.entry else None
    return SinkInput(
        mass_g=bait_g,
        volume_ml=volume,
        density_g_ml=_density(it) if bait_g is None else None,
        length_mm=float(np.ptp(push.case.known.filled.xy[:, 0])),
        thick_mm=thickest_mm(push),
    )


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
