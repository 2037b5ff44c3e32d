"""One mold, laid out for its page."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.mold_case import MoldCase
from pourwright.actions.see_mold import MoldSeen
from pourwright.base.band import Band, exact
from pourwright.fill.odds import Help
from pourwright.plan.batch_plan import Figure
from pourwright.web.mold_picture import MoldPicture, mold_picture
from pourwright.web.mold_section import (
    CountView,
    Door,
    FlowView,
    Opened,
    Part,
    clamp_part,
    count_view,
    door_to,
    flow_view,
    hold_part,
    notes_of,
)
from pourwright.web.mold_words import (
    WORTH,
    helps_worth,
    percents,
    pressure_words,
    stop_words,
    verdict,
)
from pourwright.web.question.note import Notes
from pourwright.web.show import Settings, percent
from pourwright.web.solid_scale import Scale, filling_scale

_PRESSED = ("the push on the plunger", "the bore of the injector")
_HELD = ("the slices of sprue, runner, gates and cavities",)


@dataclass(frozen=True, slots=True)
class OddsView:
    """The big answer; `warming` has shot, mold temperature and odds."""

    words: str
    share: str
    range: str
    stop: str
    branches: tuple[tuple[str, str], ...]
    helps: tuple[tuple[Help, str], ...]
    pressure: str
    warming: tuple[tuple[int, float, str], ...]
    notes: Notes
    figures: tuple[Figure, ...]
    door: Door


@dataclass(frozen=True, slots=True)
class LoadRow:
    """One mold of a load."""

    number: int
    since_s: float
    melt_c: Band
    odds: str
    preheated: str


@dataclass(frozen=True, slots=True)
class LoadView:
    """The odds mold by mold."""

    words: str
    rows: tuple[LoadRow, ...]
    door: Door


@dataclass(frozen=True, slots=True)
class MoldView:
    """Everything that follows the form."""

    odds: OddsView | None
    picture: MoldPicture | None
    scale: Scale
    load: LoadView | None
    hold: Part | None
    clamp: Part | None
    count: CountView | None
    flow: FlowView
    missing: tuple[str, ...]


def mold_view(case: MoldCase, seen: MoldSeen, settings: Settings) -> MoldView:
    """The answers as the page shows them."""
    mold, shaped = case.mold, case.cavity is not None
    return MoldView(
        odds=_odds(seen, settings),
        picture=mold_picture(case.known, case.known_feed, mold.cavities) if shaped else None,
        scale=filling_scale(),
        load=_load(seen),
        hold=hold_part(seen, settings),
        clamp=clamp_part(seen, len(mold.clamps), settings),
        count=count_view(seen, mold.cavities),
        flow=flow_view(seen, settings),
        missing=seen.missing,
    )


def _odds(seen: MoldSeen, settings: Settings) -> OddsView | None:
    told = seen.odds
    if told is None or told.answer is None:
        return None
    it, pushed = told.answer, Opened(told, settings)
    figures = [
        pushed.figure("pressure_kpa", "Pressure of the push", "kpa", of=_PRESSED),
        pushed.figure("shot_ml", "One shot", "ml", value=exact(round(it.shot_ml, 1)), of=_HELD),
    ]
    if it.fill_s:
        figures.insert(0, pushed.figure("fill_s", "Time to fill, where it does", "s"))
    return OddsView(
        words=verdict(it.odds.typical),
        share=percent(it.odds.typical),
        range=percents(it.odds),
        stop=stop_words(it.stop, told.inputs.chain, settings)
        if it.stop and it.stop.share >= WORTH
        else "",
        branches=tuple((b.label, percent(b.odds.typical)) for b in it.branches),
        helps=helps_worth(it.helps),
        pressure=pressure_words(it.helps),
        warming=tuple((w.shot, w.mold_c, percent(w.odds.typical)) for w in seen.warming),
        notes=notes_of(told, settings),
        figures=tuple(figures),
        door=door_to(told),
    )


def _load(seen: MoldSeen) -> LoadView | None:
    told = seen.load
    if told is None or told.answer is None:
        return None
    rows = tuple(
        LoadRow(i + 1, m.since_s, m.melt_c, percent(m.odds.typical), percent(m.preheated_odds))
        for i, m in enumerate(told.answer.molds)
    )
    odds = told.answer.all_odds
    words = f"All {len(rows)} fill in {percent(odds.typical)} of the loads ({percents(odds)})."
    return LoadView(words, rows, door_to(told))
