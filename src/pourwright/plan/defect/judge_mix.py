"""Verdicts on what is in the cup: bubbles, water, flake, salt, layers, softness, density."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.base.band import exact
from pourwright.blend.hardness import HardnessAnswer
from pourwright.blend.sink import SinkAnswer
from pourwright.fill.bubbles import BubblesAnswer
from pourwright.fill.join import JoinAnswer
from pourwright.fill.settle import SettleAnswer
from pourwright.plan.defect.likelihood import (
    SHARE,
    Judged,
    Likelihood,
    Shown,
    by_odds,
    too_short,
)

# How long a cup usually stands unstirred; estimate.
STILL_S = 60.0


def judge_bubbles(it: BubblesAnswer, told: Mapping[str, float]) -> Judged:
    """The rest the raw cup had against the rest that bubbles take."""
    shown = (Shown("Rest until half-millimeter bubbles are out", it.rest_min, "min"),)
    stood = told.get("stood_min")
    if stood is None:
        words = "That depends on how long the raw cup stood."
        return Judged(Likelihood.CANNOT_SAY, words, shown, "time the rest after stirring")
    found = too_short(stood, it.rest_min)
    words = {
        Likelihood.LIKELY: "Bubbles of half a millimeter had not risen yet.",
        Likelihood.POSSIBLE: "A thick plastic may still have held them.",
    }.get(found, "Such bubbles had risen by then; only far smaller ones were left.")
    return Judged(found, words, shown, "let a spoon of it run: how thick is the raw plastic")


def judge_steam(it: BubblesAnswer, _: Mapping[str, float]) -> Judged:
    """What a drop of water does; how much there was, only a scale tells."""
    shown = (Shown("Steam that two drops of water make", exact(it.steam_ml), "ml"),)
    return Judged(
        Likelihood.CANNOT_SAY, "Two drops are enough; nobody has weighed how damp it was.", shown,
        "weigh the salt or flake, dry it an hour, weigh it again",
    )  # fmt: skip


def judge_settle(it: SettleAnswer, told: Mapping[str, float]) -> Judged:
    """How far it sinks while the cup stands."""
    found = by_odds(it.shows_share)
    words = {
        Likelihood.LIKELY: "It sinks far enough to show while the cup stands.",
        Likelihood.POSSIBLE: "It may sink far enough to show while the cup stands.",
    }.get(found, "It hardly moves in that time.")
    if "still_s" not in told:
        words = f"{words} {STILL_S:g} s unstirred stand in: say above how long it stood."
    shown = (
        Shown("Sinks in a minute", it.rate_mm_min, "mm"),
        Shown("While the cup stands", it.in_cup_mm, "mm"),
        Shown("Stir at least every", it.stir_every_s, "s"),
    )
    return Judged(found, words, shown, "time how long the cup stands unstirred")


def judge_join(it: JoinAnswer, _: Mapping[str, float]) -> Judged:
    """Odds that the layers hold."""
    found = by_odds(1 - it.holds.typical)
    words = {
        Likelihood.LIKELY: "They met so cool that they may well peel.",
        Likelihood.POSSIBLE: "They met about where layers begin to hold.",
    }.get(found, "They met hot enough to hold.")
    shown = (Shown("They met at", it.join_c, "c"), Shown("Odds that they hold", it.holds, SHARE))
    return Judged(
        found, f"{words} That is an estimate until you pull some apart.", shown,
        "make three pairs that hot, pull them apart after a day",
    )  # fmt: skip


def judge_softness(it: HardnessAnswer, told: Mapping[str, float]) -> Judged:
    """The hardness of the recipe against the label; how it feels, only a puck tells."""
    shown = [Shown("Hardness by the recipe, Shore OO", it.hardness_oo, "")]
    label = told.get("label_oo")
    if label is None:
        words = "Nobody has said how hard this plastic is by itself."
        return Judged(Likelihood.CANNOT_SAY, words, tuple(shown), "press a puck after a day")
    shown.append(Shown("The plastic by itself", exact(label), ""))
    if it.hardness_oo.low <= label <= it.hardness_oo.high:
        words = "The recipe leaves the plastic about as hard as it is by itself."
        return Judged(Likelihood.UNLIKELY, words, tuple(shown), "press a puck after a day")
    way = "softer" if it.hardness_oo.typical < label else "harder"
    words = f"The recipe makes it {way} than the plastic is by itself."
    return Judged(Likelihood.LIKELY, words, tuple(shown), "press a puck after a day")


def judge_sink(it: SinkAnswer, told: Mapping[str, float]) -> Judged:
    """Whether its weight and volume explain what it does."""
    shown = (
        Shown("Odds that it sinks, without a hook", exact(it.sinks_share), SHARE),
        Shown("Weighs in the water", it.net_g, "g"),
    )
    how = "hang it on a thread in fresh water and type what it weighs"
    floats = told.get("floats")
    if floats is None:
        words = "Pick above what it does."
        return Judged(Likelihood.CANNOT_SAY, words, shown, how)
    found = by_odds(1 - it.sinks_share if floats else it.sinks_share)
    does = "float" if floats else "sink"
    words = {
        Likelihood.LIKELY: f"By its weight and volume it would {does}.",
        Likelihood.POSSIBLE: f"By its weight and volume it may {does}.",
    }.get(found, f"By its weight and volume it would not {does}: something else is at work.")
    return Judged(found, words, shown, how)
