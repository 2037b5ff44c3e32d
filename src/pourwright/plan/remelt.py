"""What remelt brings of its own past into the cups of a batch."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.draws import Array, Draws
from pourwright.forecast.request import RemeltPart
from pourwright.heat.pot_dose import pot_dose
from pourwright.heat.scorch_words import BLEND, SPENT
from pourwright.matter.remelt import HEAT_DOSE
from pourwright.plan.batch_plan import Caution, CupPlan, HeatPlan

_STOP, _RISK = "stop", "risk"
_FUMES = "Spent plastic yellows and gives off acid fumes"


def remelt_dose(draws: Draws, remelt: RemeltPart) -> Array:
    """Heat budget the remelt has used: as entered, else a usual heat's for each of its heats."""
    if remelt.dose_share is not None:
        return draws.known(remelt.dose_share)
    return HEAT_DOSE.drawn(draws) * remelt.heats


def remelt_assumption(remelt: RemeltPart) -> tuple[str, ...]:
    """What stands in where nobody knows the remelt's past; nothing for a pot left alone."""
    if not remelt.available_g or remelt.dose_share is not None:
        return ()
    usual = HEAT_DOSE.band
    words = (
        f"remelt: dose_share was left out: typical {usual.typical:g} ({usual.low:g} to "
        f"{usual.high:g}) for each of its {remelt.heats} heats stands in. "
        f"To replace it, {HEAT_DOSE.measure}."
    )
    return (words,)


def brought(cup: CupPlan, dose: Array) -> Array:
    """Heat budget that a cup has used before it is heated, by mass; additives count as fresh."""
    return pot_dose([(cup.total_g - cup.remelt_g, 0.0 * dose), (cup.remelt_g, dose)])


def scorch_cautions(
    remelt: RemeltPart, cups: Sequence[CupPlan], heat: Sequence[HeatPlan]
) -> tuple[Caution, ...]:
    """What to do about remelt that is spent, and about cups that would use much of their budget."""
    with_remelt = {c.number for c in cups if c.remelt_g}
    found = _spent(remelt) if with_remelt else ()
    for plan in heat:
        found += _of_cups(plan, remelt=not with_remelt.isdisjoint(plan.cups))
    return found


def _spent(remelt: RemeltPart) -> tuple[Caution, ...]:
    known = remelt.dose_share
    typical = HEAT_DOSE.typical * remelt.heats if known is None else known
    if typical < SPENT:
        return ()
    words = f"The remelt has used up its heat budget: discard it. {_FUMES}."
    return (Caution(_STOP, words),)


def _of_cups(plan: HeatPlan, *, remelt: bool) -> tuple[Caution, ...]:
    share = plan.scorch_share.typical
    names = f"Cup{'s' if len(plan.cups) > 1 else ''} {', '.join(map(str, plan.cups))}"
    used = f"{share:.0%} of the heat budget would be used at the hottest place"
    if share <= BLEND:
        return ()
    if share > SPENT:
        cure = "Use less remelt, or none" if remelt else "Heat in shorter rounds"
        return (Caution(_STOP, f"{names}: {used}. {_FUMES}. {cure}."),)
    cure = "more fresh plastic brings it" if remelt else "shorter rounds and more stirs bring it"
    return (Caution(_RISK, f"{names}: {used}; {cure} down."),)
