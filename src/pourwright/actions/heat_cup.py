"""Heat one cup by its thermometer: enter a round, take one back, say its unit, pour."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.actions.cup_fill import cup_fill, planned_cup
from pourwright.actions.oven_history import begun, happenings, stories
from pourwright.actions.port import Bench, Event, World
from pourwright.actions.see_cup import CupView, cup_view
from pourwright.base.errors import BadInput, Conflict
from pourwright.bench.cup_story import (
    MEANT,
    POURED,
    UNDONE,
    WORKED,
    CupStory,
    Entry,
    Happening,
    cup_stories,
    worked_body,
)
from pourwright.bench.round_entry import RoundEntry, entry
from pourwright.bench.told_fill import told_fill
from pourwright.heat.cooked_cup import CookedCup
from pourwright.heat.history import LEAST_LEFT_G, Did, left_g


def step_cup(
    world: World, sheet: int, number: int, done: RoundEntry, *,
    event_id: str, started_ago_s: float | None = None,
) -> CupView:  # fmt: skip
    """Enter a round of a cup; the same `event_id` a second time changes nothing.

    Raises: BadInput naming the entry that cannot be, Conflict for a cup that was poured or an id
    that carried another round.
    """
    now = world.clock.now()
    with world.bench() as bench:
        found = bench.sheets.get(sheet)
        told = happenings(bench, found.code)
        if any(h.id == event_id for h in told):
            _refuse_other(told, event_id, done)
            return cup_view(bench, sheet, number, now=now)
        fill = told_fill(told, number, cup_fill(found, number))
        story = cup_stories(told).get(number, CupStory(number))
        if story.poured:
            raise Conflict("this cup was poured; take that back first")
        new = entry(done, id=event_id, now=now, started_ago_s=started_ago_s, story=story)
        _refuse_empty(story, new, done, fill)
        body = worked_body(number, new)
        bench.ledger.append(Event(event_id, f"lot/{found.code}", WORKED, new.at, body))
        if not story.entries:
            first = begun(found, number, fill, id=world.ids.fresh(), at=new.at)
            bench.ledger.append(first)
        seen = cup_view(bench, sheet, number, now=now)
        bench.commit()
    return seen


def undo_cup(world: World, sheet: int, number: int, named: str, *, event_id: str) -> None:
    """Take back what was entered last. Raises: Conflict if something was entered since."""
    with world.bench() as bench:
        story = _story(bench, sheet, number)
        if named and named == story.newest:
            _append(world, bench, sheet, UNDONE, {"cup": number, "event": named}, event_id)
        elif any(e.id == named for e in story.entries):
            raise Conflict("something was entered since; look again before you take it back")


def mean_unit(
    world: World, sheet: int, number: int, named: str, read_c: float, *, event_id: str
) -> None:
    """Say what the newest reading was meant to be.

    Raises: Conflict if it is not the newest, BadInput for a temperature no thermometer here shows.
    """
    with world.bench() as bench:
        story = _story(bench, sheet, number)
        newest = story.entries[-1] if story.entries else None
        read = newest and any(s.did is Did.READ for s in newest.steps)
        if newest is None or not read or newest.id != named:
            raise Conflict("that reading is no longer the newest; look again")
        body = {"cup": number, "event": named, "read_c": read_c}
        told = happenings(bench, bench.sheets.get(sheet).code)
        cup_stories([*told, Happening(event_id, MEANT, newest.at, body)])
        _append(world, bench, sheet, MEANT, body, event_id)


def pour_cup(world: World, sheet: int, number: int, *, event_id: str) -> None:
    """Write down that the cup was poured. Raises: BadInput for one that was never heated."""
    with world.bench() as bench:
        story = _story(bench, sheet, number)
        if not any(s.did is Did.HEATED for s in story.steps):
            raise BadInput("heated_s", 0, "this cup was never heated: enter its rounds first")
        if not story.poured:
            _append(world, bench, sheet, POURED, {"cup": number}, event_id)


def _story(bench: Bench, sheet: int, number: int) -> CupStory:
    found = bench.sheets.get(sheet)
    planned_cup(found, number)
    return stories(bench, found.code).get(number, CupStory(number))


def _append(
    world: World, bench: Bench, sheet: int, kind: str, body: Mapping[str, Any], event_id: str
) -> None:
    subject = f"lot/{bench.sheets.get(sheet).code}"
    if all(e.event.id != event_id for e in bench.ledger.of(subject)):
        bench.ledger.append(Event(event_id, subject, kind, world.clock.now(), body))
        bench.commit()


def _refuse_other(told: tuple[Happening, ...], event_id: str, done: RoundEntry) -> None:
    known = next(h for h in told if h.id == event_id)
    first = entry(done, id=event_id, now=known.at, started_ago_s=None, story=CupStory(0))
    kept = cup_stories([known]).get(int(known.body["cup"]), CupStory(0))
    if [_said(e) for e in kept.entries] != [_said(first)]:
        raise Conflict("this page was sent before with another round; enter it once more")


def _said(one: Entry) -> list[tuple[object, ...]]:
    return [(s.did, s.for_s, s.read_c, s.mass_g) for s in one.steps]


def _refuse_empty(story: CupStory, new: Entry, done: RoundEntry, fill: CookedCup) -> None:
    left = left_g((*story.steps, *new.steps), fill.plastic_g)
    if left < LEAST_LEFT_G:
        why = f"would leave {max(left, 0):.0f} g: an empty cup is not heated"
        raise BadInput("drawn_g", done.drawn_g, why)
