"""The parts of a mold's page: holding, clamping, cavities, and how the plastic flows."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from pourwright.actions.catalog import named
from pourwright.actions.port import Stored
from pourwright.actions.see_mold import MoldSeen, Told
from pourwright.base.band import Band
from pourwright.base.record import to_json
from pourwright.base.units import UNITS
from pourwright.forecast.cavity_count import CountRow
from pourwright.plan.batch_plan import Figure
from pourwright.web.mold_words import (
    dent_words,
    depth,
    lift_words,
    narrowed_words,
    percents,
)
from pourwright.web.question.note import Notes, sorted_notes
from pourwright.web.show import Settings, exactly, opened, percent

_TIMED = "fill.timed_shot"
# Where that question tells the viscosity.
_TOLD_AT_C = 170.0


@dataclass(frozen=True, slots=True)
class Door:
    """A calculation that can be opened with these numbers."""

    address: str
    inputs: str


@dataclass(frozen=True, slots=True)
class Part:
    """A section: a sentence, figures, what to do, notes, and its calculation."""

    words: str
    figures: tuple[Figure, ...]
    advice: tuple[str, ...]
    notes: Notes
    door: Door


@dataclass(frozen=True, slots=True)
class CountView:
    """One cavity fewer, now, one more."""

    now: int
    rows: tuple[CountRow, ...]
    advice: str
    door: Door


@dataclass(frozen=True, slots=True)
class FlowView:
    """What the timed shots of a plastic tell."""

    words: str
    change: str
    figure: Figure | None
    shots: tuple[Stored, ...]
    doubts: tuple[str, ...]


def hold_part(seen: MoldSeen, settings: Settings) -> Part | None:
    """How long to push, beside when to open."""
    told, cure = seen.hold, seen.cure
    if told is None:
        return None
    if told.answer is None:
        return Part(f"No answer: {told.why}.", (), (), Notes(), door_to(told))
    it = told.answer
    held = Opened(told, settings)
    figures = [
        held.figure("hold_s", "Keep pushing, once it is full", "s"),
        held.figure("dent_mm", "Dent, all of it in one place", "mm"),
    ]
    if cure and cure.answer:
        cooled = Opened(cure, settings)
        figures.append(cooled.figure("open_s", "Firm enough to open after", "s"))
    sinks = f"{percent(it.sink_share.typical, 1)} of its thickest place sinks in afterwards."
    return Part(
        words=f"{dent_words(it.dent_mm)} {sinks}",
        figures=tuple(figures),
        advice=tuple(
            f"{h.change}: hold {h.hold_s:.0f} s, dent {depth(h.dent_mm)}" for h in it.helps
        ),
        notes=notes_of(told, settings),
        door=door_to(told),
    )


def clamp_part(seen: MoldSeen, clamps: int, settings: Settings) -> Part | None:
    """What lifts the halves against what holds them."""
    told = seen.clamp
    if told is None or told.answer is None:
        return None
    pressed, it = Opened(told, settings), told.answer
    had = (
        pressed.figure("had_n", "Your clamps press with", "n"),
        pressed.figure("push_held_n", "Hardest push they hold", "n"),
    )
    return Part(
        words=lift_words(it.lift_share, clamps),
        figures=(
            pressed.figure("needed_n", "Pushes the halves apart", "n"),
            *(had if clamps else ()),
            pressed.figure("visible_gap_mm", "Gap that shows flash", "mm"),
        ),
        advice=it.advice,
        notes=notes_of(told, settings),
        door=door_to(told),
    )


def count_view(seen: MoldSeen, now: int) -> CountView | None:
    """One cavity more or fewer."""
    told = seen.count
    if told is None or told.answer is None:
        return None
    return CountView(now, told.answer.rows, told.answer.advice, door_to(told))


def flow_view(seen: MoldSeen, settings: Settings) -> FlowView:
    """How the plastic flows, as far as its timed shots tell."""
    flow = seen.flow
    if flow.melt_pa_s is None:
        return FlowView("", "", None, flow.shots, flow.doubts)
    now = seen.odds.answer.odds if seen.odds and seen.odds.answer else None
    change = (
        f"Odds here without them {percent(seen.untimed.typical)} ({percents(seen.untimed)}), "
        f"with them {percent(now.typical)} ({percents(now)})."
        if seen.untimed and now
        else ""
    )
    question = named(_TIMED)
    notes = sorted_notes(flow.notes, question.takes, question.gives, settings)
    told = Figure(
        key="melt_pa_s",
        label=f"Viscosity of the hot plastic, at {exactly(_TOLD_AT_C, UNITS['c'], settings)}",
        value=flow.melt_pa_s,
        unit="pa_s",
        inputs=tuple(s.noun.name for s in flow.shots),
        source=_source(_TIMED),
        narrow=(*_stand_ins(notes), *notes.mind),
    )
    words = narrowed_words(flow.factor_before, flow.factor_now, len(flow.shots))
    return FlowView(words, change, told, flow.shots, flow.doubts)


def door_to(told: Told[Any, Any]) -> Door:
    """Where a calculation opens with the numbers it was asked with."""
    return Door(f"/questions/{told.name}", json.dumps(to_json(told.inputs), separators=(",", ":")))


def notes_of(told: Told[Any, Any], settings: Settings) -> Notes:
    """What an answer rests on, in the words and units of the bench."""
    question = named(told.name)
    return sorted_notes(_notes(told), question.takes, question.gives, settings)


@dataclass(frozen=True, slots=True)
class Opened:
    """Makes figures of one answer."""

    told: Told[Any, Any]
    settings: Settings

    def figure(
        self,
        key: str,
        label: str,
        unit: str,
        *,
        value: Band | None = None,
        of: tuple[str, ...] = (),
    ) -> Figure:
        """A number that can be opened; `of` names what it comes from, left out the stand-ins."""
        mine = tuple(n for n in _notes(self.told) if n.startswith(f"{key}: "))
        return Figure(
            key=key,
            label=label,
            value=value or getattr(self.told.answer, key),
            unit=unit,
            inputs=of or _stand_ins(notes_of(self.told, self.settings)),
            source=_source(self.told.name),
            narrow=tuple(opened(n.removeprefix(f"{key}: ")) for n in mine),
        )


def _stand_ins(notes: Notes) -> tuple[str, ...]:
    return tuple(f"{s.label}: typical {s.value}, {s.range}" for s in notes.stand_ins)


def _notes(told: Told[Any, Any]) -> tuple[str, ...]:
    return told.answer.notes if told.answer is not None else ()


def _source(name: str) -> str:
    return "; ".join(str(s) for s in named(name).sources)
