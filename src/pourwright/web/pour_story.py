"""The story of a pour as a table: when, who, what, and what is to be said of it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import PourStanding
from pourwright.actions.pour_story import Told, pour_story
from pourwright.actions.told_pour import ToldPour
from pourwright.base.wording import clock, span
from pourwright.bench.clock import after
from pourwright.bench.cup_story import WORKED, Happening, entry_of
from pourwright.web.event_words import event_words
from pourwright.web.guard import LAPTOP
from pourwright.web.local_time import day_of, time_of_day, to_the_second
from pourwright.web.show import Settings

MOST_ROWS = 300


@dataclass(frozen=True, slots=True)
class StoryRow:
    """One event; `day` stands where a new one begins, `gone` where it was taken back."""

    day: str
    at: str
    who: str
    what: str
    notes: tuple[str, ...]
    gone: bool
    stray: bool


@dataclass(frozen=True, slots=True)
class StoryView:
    """Part of a story: `first` and `last` count its rows from 1, `others` are the other parts."""

    count: int
    first: int
    last: int
    rows: tuple[StoryRow, ...]
    others: tuple[tuple[str, int], ...]
    opened: bool


def story_view(
    bench: Bench, it: PourStanding, settings: Settings, *, now: str, part: int
) -> StoryView | None:
    """A part of what happened, 1 being the first; 0 shows the newest, folded. None untold."""
    story = pour_story(bench, it)
    if story is None:
        return None
    told = story.told
    parts = -(-len(told) // MOST_ROWS)
    wanted = min(part or parts, parts)
    first = (wanted - 1) * MOST_ROWS
    shown = told[first : first + MOST_ROWS]
    rows: list[StoryRow] = []
    day = ""
    for one in shown:
        at = _at(one.event)
        fresh = day_of(at) if day_of(at) != day else ""
        day = fresh or day
        rows.append(_row(one, at, fresh, story.pour, settings, now))
    others = tuple((_span(n, len(told)), n) for n in range(1, parts + 1) if n != wanted)
    return StoryView(len(told), first + 1, first + len(shown), tuple(rows), others, bool(part))


def _span(part: int, count: int) -> str:
    return f"{(part - 1) * MOST_ROWS + 1} to {min(part * MOST_ROWS, count)}"


def _row(
    one: Told, at: str, day: str, pour: ToldPour | None, settings: Settings, now: str
) -> StoryRow:
    what = event_words(one.event, one.takes, pour, settings)
    return StoryRow(
        day,
        to_the_second(at),
        _who(one),
        what,
        _notes(one, now),
        gone=bool(one.gone_at),
        stray=bool(one.stray),
    )


def _who(one: Told) -> str:
    if not one.by:
        return "On a page"
    return "Laptop" if one.by == LAPTOP else one.name or "A phone"


def _notes(one: Told, now: str) -> tuple[str, ...]:
    notes = []
    if one.gone_at:
        notes.append(f"taken back {time_of_day(one.gone_at, now)}")
    if one.stray:
        notes.append(f"does not count: {one.stray}")
    if one.late_s:
        notes.append(f"sent {clock(one.late_s)} late")
    if one.off_s:
        ahead = "ahead" if one.off_s > 0 else "behind"
        notes.append(f"its clock was {span(abs(one.off_s))} {ahead}, put right")
    return tuple(notes)


def _at(it: Happening) -> str:
    """When it was told: a round counts from the start of its burst and is told at its end."""
    if it.kind != WORKED:
        return it.at
    entry = entry_of(it)
    ended = max((s.at_s or 0.0) + s.lasted_s for s in entry.steps)
    return it.at if entry.late else after(it.at, round(ended))
