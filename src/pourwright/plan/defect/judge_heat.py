"""Verdicts on heat: scorching, cooking through, opening, cooling on the way."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.base.band import exact
from pourwright.heat.bait_cooling import BaitCoolingAnswer
from pourwright.heat.next_burst import NextBurstAnswer
from pourwright.heat.scorch_answer import ScorchAnswer
from pourwright.heat.scorch_words import BLEND, USE_SOON
from pourwright.heat.window import WindowAnswer
from pourwright.plan.defect.likelihood import SHARE, Judged, Likelihood, Shown, too_short

# Share that has fused from which plastic holds together; estimate.
FUSED_WELL, FUSED_BADLY = 0.95, 0.8


def judge_scorch(it: ScorchAnswer, told: Mapping[str, float]) -> Judged:
    """Share of the heat budget that is used at the hottest place."""
    dose = it.dose_share
    shown = (Shown("Heat budget used", dose, SHARE),)
    how = "note readings and times of the next cup, and the past of remelt"
    if told.get("unlogged"):
        words = "Nobody logged its heats; one usual heat stands in."
        return Judged(Likelihood.CANNOT_SAY, words, shown, how)
    if dose.typical >= BLEND:
        return Judged(Likelihood.LIKELY, "Most of the heat budget is gone.", shown, how)
    if dose.typical >= USE_SOON or dose.high >= BLEND:
        words = "A good part of the heat budget may be gone."
        return Judged(Likelihood.POSSIBLE, words, shown, how)
    return Judged(Likelihood.UNLIKELY, "Little of the heat budget is used.", shown, how)


def judge_fused(it: NextBurstAnswer, _: Mapping[str, float]) -> Judged:
    """How much of the cup has fused, by its readings."""
    least = min(it.estimates.fused, it.estimates.bottom_fused)
    shown = (
        Shown("Fused", exact(it.estimates.fused), SHARE),
        Shown("Fused at the bottom", exact(it.estimates.bottom_fused), SHARE),
        Shown("Mean of the plastic", it.estimates.mean_c, "c"),
    )
    how = "pull a cooled strip of that cup: it must snap back"
    if least < FUSED_BADLY:
        return Judged(Likelihood.LIKELY, "Part of the cup had not fused.", shown, how)
    if least < FUSED_WELL:
        return Judged(Likelihood.POSSIBLE, "The last of the cup had not quite fused.", shown, how)
    return Judged(Likelihood.UNLIKELY, "By its readings the cup had fused through.", shown, how)


def judge_open(it: BaitCoolingAnswer, told: Mapping[str, float]) -> Judged:
    """The time waited against the time until the middle is firm."""
    shown = (Shown("Firm enough after", it.open_s, "s"),)
    waited = told.get("waited_s")
    if waited is None:
        words = "That depends on how long you waited."
        return Judged(Likelihood.CANNOT_SAY, words, shown, "time from the shot to the opening")
    found = too_short(waited, it.open_s)
    words = {
        Likelihood.LIKELY: "Opened before the thickest place was firm.",
        Likelihood.POSSIBLE: "Opened about when the thickest place becomes firm.",
    }.get(found, "You waited long enough, unless the mold had warmed up.")
    return Judged(found, words, shown, "read the mold before the shot: a warm one takes longer")


def judge_window(it: WindowAnswer, told: Mapping[str, float]) -> Judged:
    """How long the barrel stays hot enough, against how long a load took."""
    shown = [Shown("Time left to shoot", it.window_s, "s")]
    if it.preheated is not None:
        shown.append(Shown("With a primed barrel", it.preheated.window_s, "s"))
    how = "read the barrel after one draw and back"
    load_s = told.get("load_s")
    if load_s is None:
        words = "That depends on how long a load stays in the barrel."
        return Judged(Likelihood.CANNOT_SAY, words, tuple(shown), "time a load from draw to shot")
    if load_s > it.window_s.typical:
        words = "A load that long in the barrel is too cold to shoot."
        return Judged(Likelihood.LIKELY, words, tuple(shown), how)
    if load_s > it.window_s.low:
        words = "A load that long in the barrel may be too cold to shoot."
        return Judged(Likelihood.POSSIBLE, words, tuple(shown), how)
    return Judged(Likelihood.UNLIKELY, "It was shot while it was hot enough.", tuple(shown), how)
