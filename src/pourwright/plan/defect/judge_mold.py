"""Verdicts on the mold: clamps, gaps, filling, air, holding."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.base.band import exact
from pourwright.body.filling_order import FillingAnswer
from pourwright.fill.air import AirAnswer
from pourwright.fill.clamp import ClampAnswer
from pourwright.fill.flash import SEEN_MM as FLASH_SEEN_MM
from pourwright.fill.hold import SEEN_MM as DENT_SEEN_MM
from pourwright.fill.hold import HoldAnswer
from pourwright.fill.odds import OddsAnswer
from pourwright.plan.defect.likelihood import SHARE, Judged, Likelihood, Shown, by_limit, by_odds

_WORD = {
    Likelihood.LIKELY: "likely",
    Likelihood.POSSIBLE: "possible",
    Likelihood.UNLIKELY: "not the likely cause",
}


def judge_clamp(it: ClampAnswer, _: Mapping[str, float]) -> Judged:
    """Force that lifts against force that holds; without clamps on record nothing is said."""
    needed = Shown("Needed", it.needed_n, "n")
    if it.had_n.high <= 0:
        return Judged(
            Likelihood.CANNOT_SAY, "No clamps are on the record of this mold.", (needed,),
            "list the clamps you use on the mold's record",
        )  # fmt: skip
    found = by_odds(it.lift_share)
    words = {
        Likelihood.LIKELY: "The last push may well lift the halves.",
        Likelihood.POSSIBLE: "The last push may lift the halves, if it is a hard one.",
    }.get(found, "The clamps hold the last push: not the likely cause.")
    had, lifts = (
        Shown("Had", it.had_n, "n"),
        Shown("Odds that it lifts", exact(it.lift_share), SHARE),
    )
    return Judged(
        found, words,
        (needed, had, lifts),
        "push a bathroom scale as hard as the plunger",
    )  # fmt: skip


def judge_gap(it: ClampAnswer, _: Mapping[str, float]) -> Judged:
    """Whether a usual gap makes a flash that is seen; nobody measured this very one."""
    found = by_limit(it.flash_mm, FLASH_SEEN_MM)
    if found is Likelihood.UNLIKELY:
        found = Likelihood.CANNOT_SAY
    words = {
        Likelihood.LIKELY: "A usual gap makes a flash that is seen.",
        Likelihood.POSSIBLE: "Only a gap at the wide end of the usual makes a flash that is seen.",
        Likelihood.CANNOT_SAY: "A usual gap is not enough for it; dirt or a warp would be.",
    }
    shown = (
        Shown("Flash at a usual gap", it.flash_mm, "mm"),
        Shown("Gap from which it shows", it.visible_gap_mm, "mm"),
    )
    return Judged(found, words[found], shown, "try feeler gauges or slips of paper in the gap")


def judge_full(it: OddsAnswer, _: Mapping[str, float]) -> Judged:
    """Odds of a full shot."""
    found = by_odds(1 - it.odds.typical)
    return Judged(
        found, f"Stopping short on the way: {_WORD[found]}.",
        (Shown("Shots that come out full", it.odds, SHARE),),
        "time one full shot with a stopwatch on the mold's page",
    )  # fmt: skip


def judge_cold_mold(it: OddsAnswer, _: Mapping[str, float]) -> Judged:
    """The same with the mold as cold as the room."""
    found = by_odds(1 - it.odds.typical)
    return Judged(
        found, f"A mold as cold as the room: {_WORD[found]}.",
        (Shown("Shots full in a cold mold", it.odds, SHARE),),
        "read the mold with the gun before the first shot",
    )  # fmt: skip


def judge_air(it: AirAnswer, told: Mapping[str, float]) -> Judged:
    """Vents against the time of the push; without vents what would stay in."""
    stays = Shown("Stays empty if no air gets out", it.trapped_share, SHARE)
    if it.out_s is None:
        tight = told.get("tight", 0.0) > 0
        return Judged(
            Likelihood.LIKELY if tight else Likelihood.POSSIBLE,
            "No vents are on the record of this mold, and its parting line is "
            + ("tight." if tight else "an ordinary one, which leaks a little all around."),
            (stays,),
            "scratch one vent there and look whether that tip comes out",
        )
    found = by_odds(1 - it.in_time_share)
    return Judged(
        found, f"Air held in by usual vents, one a cavity: {_WORD[found]}.",
        (Shown("Air out after", it.out_s, "s"), stays),
        "measure how deep the vents are, and time one push",
    )  # fmt: skip


def judge_ends(it: FillingAnswer, _: Mapping[str, float]) -> Judged:
    """Whether the bait has places that fill last, all by themselves."""
    count = len(it.dead_ends)
    if count < 2:
        words = "The map of filling knows no dead end beside the far tip."
        return Judged(Likelihood.UNLIKELY, words, (Shown("Ways end at", exact(count), ""),))
    last = it.dead_ends[0]
    return Judged(
        Likelihood.POSSIBLE, "It has places where the plastic comes last: look whether it is one.",
        (
            Shown("Such places", exact(count), ""),
            Shown("The last of them, from the nose", exact(last.x_mm), "mm"),
        ),
        "shoot short on purpose and look where the plastic stops",
    )  # fmt: skip


def judge_hold(it: HoldAnswer, told: Mapping[str, float]) -> Judged:
    """The time it was held against that of the gate, and the dent that is left even so."""
    shown = (
        Shown("Keep pushing", it.hold_s, "s"),
        Shown("Dent even so, all in one place", it.dent_mm, "mm"),
    )
    held = told.get("held_s")
    if held is None:
        found = by_limit(it.dent_mm, DENT_SEEN_MM)
        sinks = (
            "What shrinks after the gate is shut can be seen"
            if found is Likelihood.LIKELY
            else ("What shrinks after the gate is shut can hardly be seen, if you held that long")
        )
        return Judged(found, f"{sinks}.", shown, "count the seconds you keep pushing")
    if held < it.hold_s.low:
        return Judged(Likelihood.LIKELY, "You let go while the gate was still open.", shown)
    if held < it.hold_s.high:
        return Judged(Likelihood.POSSIBLE, "You let go about when the gate shuts.", shown)
    found = by_limit(it.dent_mm, DENT_SEEN_MM)
    return Judged(found, "You held until the gate was shut; the rest is the gate's size.", shown)
