"""How much of its heat budget a lot has used, earlier heats and remelt included."""

from __future__ import annotations

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import estimate, published
from pourwright.heat.heat_dose import history_seconds, hold_seconds
from pourwright.heat.pot_dose import fresh_to_reach, pot_dose
from pourwright.heat.scorch_answer import ScorchAnswer, TimeLeft
from pourwright.heat.scorch_input import HeldBurst, LoggedPoint, RemeltIn, ScorchInput
from pourwright.heat.scorch_words import BLEND, HCL, Advice, advice_for, hot_note, in_words
from pourwright.heat.yellowing import Yellowing, yellowing_of
from pourwright.matter import scorch
from pourwright.matter.remelt import HEAT_DOSE

LEFT_AT_C = (175.0, 190.0, 200.0)


@calculation(
    "cook.scorch",
    purpose="how much of the heat budget is used, remelts included",
    sources=(
        scorch.ACTIVATION_J_MOL.source,
        scorch.STABLE_MIN_AT_190C.source,
        HEAT_DOSE.source,
        published("29 CFR 1910.1000, table Z-1: hydrogen chloride, ceiling 5 ppm"),
        estimate("doses of one plastic add up, whatever order the temperatures came in"),
    ),
    example={
        "heats": [
            {
                "bursts": [
                    {"for_s": 90, "mean_c": 160, "hottest_c": 178},
                    {"for_s": 240, "mean_c": 174, "hottest_c": 183},
                ],
                "times": 2,
            }
        ],
        "remelt": [{"mass_g": 120}],
        "fresh_g": 380,
    },
)
def cook_scorch(inputs: ScorchInput) -> ScorchAnswer:
    """Arrhenius dose: time over the time the stabilizer would last at that temperature.

    The hottest place at each moment is an upper bound, since stirring moves plastic; the mean
    temperature is a lower one.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    energy, stable_s = v["activation_kj_mol"] * 1e3, v["stable_at_190c_min"] * 60
    brought = _brought(draws, inputs)
    hot = brought + _heated(inputs, v["hotter_k"], energy) / stable_s
    mean = brought + _heated(inputs, None, energy) / stable_s
    pot_g = inputs.fresh_g + sum(r.mass_g for r in inputs.remelt)
    fresh = fresh_to_reach(pot_g or 1.0, hot, BLEND)
    advice = advice_for(float(hot[0]))
    fit = yellowing_of([(s.dose_share, s.yellowness) for s in inputs.yellowed]) if (
        inputs.yellowed
    ) else None  # fmt: skip
    return ScorchAnswer(
        dose_share=draws.band(hot),
        mean_dose_share=draws.band(mean),
        brought_share=draws.band(brought),
        left=tuple(
            TimeLeft(c, draws.band(_left_min(hot, c, stable_s, energy)))
            for c in inputs.left_at_c or LEFT_AT_C
        ),
        advice=advice,
        fresh_needed_g=draws.band(fresh) if pot_g and advice is not Advice.DISCARD else None,
        words=in_words(
            advice, fresh_g=float(fresh[0]) if pot_g else None,
            fresh_share=float(fresh[0]) / (pot_g or 1.0),
        ),
        yellowness=_yellowness(draws, fit, hot),
        yellow_from_share=fit.lowest if fit else None,
        yellow_to_share=fit.highest if fit else None,
        cautions=(HCL, *hot_note(_hottest_c(inputs, float(v["hotter_k"][0])))),
        notes=_notes(draws, inputs, hot, fit),
    )  # fmt: skip


def _brought(draws: Draws, inputs: ScorchInput) -> Array:
    """What remelt brings, shared out over the lot."""
    parts = [(inputs.fresh_g, draws.known(0.0))]
    for i, remelt in enumerate(inputs.remelt):
        parts.append((remelt.mass_g, _past(draws, i, remelt)))
    return pot_dose(parts)


def _past(draws: Draws, i: int, remelt: RemeltIn) -> Array:
    if remelt.dose_share is None:
        return HEAT_DOSE.drawn(draws) * remelt.heats
    name = f"heat budget remelt {i + 1} had used"
    return draws.of(name, Doubt(name, remelt.dose_share, HEAT_DOSE.measure))


def _heated(inputs: ScorchInput, hotter_k: Array | None, energy: Array) -> Array:
    """Seconds at 190 °C all heats are worth: at the hottest place, or without `hotter_k` the mean.

    Shape of the draws.
    """
    total = np.zeros_like(energy)
    for heat in inputs.heats:
        one = np.zeros_like(energy)
        if heat.log:
            temps = [_place(p, hotter_k, energy) for p in heat.log]
            one = one + history_seconds([p.at_s for p in heat.log], temps, energy)
        for burst in heat.bursts:
            one = one + hold_seconds(burst.for_s, _place(burst, hotter_k, energy), energy)
        total = total + heat.times * one
    return total


def _place(point: LoggedPoint | HeldBurst, hotter_k: Array | None, like: Array) -> Array:
    if hotter_k is None:
        return np.full_like(like, point.mean_c)
    if point.hottest_c is None:
        return point.mean_c + hotter_k
    return np.full_like(like, point.hottest_c)


def _left_min(dose: Array, at_c: float, stable_s: Array, energy: Array) -> Array:
    left = np.maximum(1 - dose, 0.0)
    return left * stable_s / 60 / hold_seconds(1.0, np.full_like(dose, at_c), energy)


def _hottest_c(inputs: ScorchInput, hotter_k: float) -> float:
    points = _points(inputs)
    return max(
        (p.mean_c + hotter_k if p.hottest_c is None else p.hottest_c for p in points), default=0.0
    )


def _points(inputs: ScorchInput) -> list[LoggedPoint | HeldBurst]:
    found: list[LoggedPoint | HeldBurst] = []
    for heat in inputs.heats:
        found += heat.log
        found += heat.bursts
    return found


def _yellowness(draws: Draws, fit: Yellowing | None, dose: Array) -> Band | None:
    if fit is None or not fit.lowest <= dose[0] <= fit.highest:
        return None
    return draws.band(fit.at(dose) + fit.spread * draws.scores("yellowness of one sample"))


def _worse(hot: Band) -> tuple[str, ...]:
    """A word where a weak stabilizer would change the advice."""
    if advice_for(hot.high) is advice_for(hot.typical):
        return ()
    words = f"With a weak stabilizer {hot.high:.2f} of the budget may be gone: watch for yellow."
    return (words,)


def _notes(draws: Draws, inputs: ScorchInput, hot: Array, fit: Yellowing | None) -> tuple[str, ...]:
    logged = all(p.hottest_c is not None for p in _points(inputs))
    told = [
        *left_out(inputs, unused=("hotter_k",) if logged else ()),
        *width_notes(draws, {"dose_share": hot}),
        *_worse(draws.band(hot)),
    ]
    guessed = [i for i, r in enumerate(inputs.remelt) if r.dose_share is None]
    if guessed:
        names = ", ".join(f"remelt[{i}]" for i in guessed)
        told.append(
            f"{names}: dose_share was left out: typical {HEAT_DOSE.typical:g} "
            f"({HEAT_DOSE.band.low:g} to {HEAT_DOSE.band.high:g}) for each of its heats stands in. "
            f"To replace it, {HEAT_DOSE.measure}."
        )
    if fit is not None and not fit.lowest <= hot[0] <= fit.highest:
        told.append(
            f"yellowness: your samples reach from {fit.lowest:g} to {fit.highest:g}; at "
            f"{hot[0]:.2f} they tell nothing."
        )
    return tuple(told)
