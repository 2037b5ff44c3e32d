"""One mold and one push: does it fill, how long to hold, do the clamps hold, one cavity more."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from pourwright.actions.answered import answered
from pourwright.actions.mold_case import MoldCase, MoldEntry
from pourwright.actions.mold_question import (
    PushCase,
    clamp_asked,
    count_asked,
    cure_asked,
    hold_asked,
    load_asked,
    odds_asked,
    push_case,
    warming_asked,
)
from pourwright.actions.port import Bench
from pourwright.actions.time_shot import Believed, believed
from pourwright.base.band import Band
from pourwright.base.calc import Calculation
from pourwright.base.errors import NoAnswer
from pourwright.base.record import Record
from pourwright.fill.clamp import ClampAnswer, ClampInput, clamp
from pourwright.fill.hold import HoldAnswer, HoldInput, fill_hold
from pourwright.fill.odds import OddsAnswer, OddsInput, fill_odds
from pourwright.fill.push import Push
from pourwright.forecast.cavity_count import CavityCountAnswer, CavityCountInput, mold_cavities
from pourwright.forecast.full_odds import full_odds
from pourwright.forecast.shot_on_load import LoadAnswer, LoadInput, fill_load
from pourwright.heat.bait_cooling import BaitCoolingAnswer, BaitCoolingInput, cool_bait
from pourwright.heat.mold_warming import MoldWarmingAnswer, cool_mold
from pourwright.heat.mold_warming_input import MoldWarmingInput

I = TypeVar("I", bound=Record)  # noqa: E741
O = TypeVar("O")  # noqa: E741


@dataclass(frozen=True, slots=True)
class Told(Generic[I, O]):
    """A question with its answer, or why there is none; its name and inputs open it again."""

    name: str
    inputs: I
    answer: O | None
    why: str = ""


@dataclass(frozen=True, slots=True)
class OddsAt:
    """The odds with the mold at another temperature; `shot` counts from the first."""

    shot: int
    mold_c: float
    odds: Band


@dataclass(frozen=True, slots=True)
class MoldSeen:
    """What becomes of one push; what cannot be told is none, and `missing` says why.

    `untimed` are the odds without the timed shots of the plastic.
    """

    odds: Told[OddsInput, OddsAnswer] | None
    untimed: Band | None
    warming: tuple[OddsAt, ...]
    load: Told[LoadInput, LoadAnswer] | None
    hold: Told[HoldInput, HoldAnswer] | None
    cure: Told[BaitCoolingInput, BaitCoolingAnswer] | None
    clamp: Told[ClampInput, ClampAnswer] | None
    count: Told[CavityCountInput, CavityCountAnswer] | None
    flow: Believed
    missing: tuple[str, ...]


def see_mold(bench: Bench, case: MoldCase, entry: MoldEntry) -> MoldSeen:
    """The answers to one push.

    Raises: BadInput for an entry that does not fit, NotFound for a tool that is gone.
    """
    flow = believed(bench, entry.plastic)
    it = push_case(bench, case, entry, flow.melt_pa_s)
    thick, closed = it.bait.thickest_mm, not case.mold.open_face
    fills = closed and case.forecast
    plunged = fills and entry.push is not Push.POUR
    return MoldSeen(
        odds=_told(fill_odds, odds_asked(it)) if fills else None,
        untimed=_untimed(it) if fills and flow.melt_pa_s else None,
        warming=tuple(_warming(it, thick)) if fills and thick else (),
        load=_told(fill_load, load_asked(it)) if plunged and entry.molds > 1 else None,
        hold=_told(fill_hold, hold_asked(it, thick)) if closed and thick else None,
        cure=_told(cool_bait, cure_asked(it, thick)) if thick else None,
        clamp=_told(clamp, clamp_asked(it, shadow_cm2(case))) if plunged else None,
        count=_told(mold_cavities, count_asked(it)) if fills else None,
        flow=flow,
        missing=tuple(_missing(case, thick)),
    )


def shadow_cm2(case: MoldCase) -> float:
    """All cavities and their feed, seen along the pull."""
    cavities = case.mold.cavities
    return cavities * case.known.shadow_cm2 + case.known_feed.shadow_cm2(cavities)


def _told(question: Calculation[I, O], inputs: I) -> Told[I, O]:
    try:
        return Told(question.name, inputs, answered(question.name, inputs))
    except NoAnswer as error:
        return Told(question.name, inputs, None, str(error))


def _untimed(it: PushCase) -> Band:
    return full_odds(replace(odds_asked(it), melt_pa_s=None))


def _warming(it: PushCase, thickest_mm: float) -> Iterable[OddsAt]:
    """The first shot of the day, and the last of a row; only the odds differ."""
    row = _row(warming_asked(it, thickest_mm))
    for shot in (row.shots[0], row.shots[-1]) if row else ():
        mold_c = shot.mold_c.typical
        yield OddsAt(shot.number, mold_c, full_odds(replace(odds_asked(it), mold_c=mold_c)))


@functools.lru_cache(maxsize=64)
def _row(asked: MoldWarmingInput) -> MoldWarmingAnswer | None:
    try:
        return cool_mold(asked)
    except NoAnswer:
        return None


def _missing(case: MoldCase, thickest_mm: float | None) -> Iterable[str]:
    if case.cavity is None:
        yield (
            "The bait is known by weight only, so nobody knows the way of the plastic: give it a "
            "shape by ruler or from a file, and odds, picture, clamps and waste are told."
        )
    elif not case.forecast:
        yield "So many cavities on one push are beyond the forecast: a ram fills them, no hand."
    if case.mold.open_face:
        yield (
            "An open mold is filled from above: no gate to shut, no halves to lift. Pour in one "
            "go, a little over the brim, and keep it level."
        )
    if thickest_mm is None:
        yield "Measure the bait's thickest place, and the time to hold and to open is told."
