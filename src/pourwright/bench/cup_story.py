"""What happened to each cup of a lot, folded from its append-only events."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.base.record import from_json, to_json
from pourwright.bench.clock import seconds_between
from pourwright.heat.history import LONGEST_REST_S, Did, Step

WORKED, MEANT, UNDONE, POURED = "cup_worked", "cup_meant", "cup_undone", "cup_poured"


@dataclass(frozen=True, slots=True)
class Happening:
    """An event of a lot, oldest first: its id, its kind, when it happened, what it holds."""

    id: str
    kind: str
    at: str
    body: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Entry:
    """What a person entered in one go; the clocks of its steps count from `at`.

    `late` where it was entered from notes, so that the clock says nothing of its rests;
    `settled` once the person said in which unit its reading was meant.
    """

    id: str
    at: str
    steps: tuple[Step, ...]
    late: bool = False
    settled: bool = False


@dataclass(frozen=True, slots=True)
class CupStory:
    """One cup: its entries, and whether it was poured; `poured` is the id of that event."""

    number: int
    entries: tuple[Entry, ...] = ()
    poured: str = ""

    @property
    def started_at(self) -> str:
        """When the first thing happened to it; empty before that."""
        return self.entries[0].at if self.entries else ""

    @property
    def steps(self) -> tuple[Step, ...]:
        """Everything done to it, on one clock that begins with the first entry."""
        return _on_one_clock(self.entries)

    def stood_s(self, now: str) -> float:
        """How long the cup has stood since its last entry; 0 where that came from notes."""
        if not self.entries or self.entries[-1].late:
            return 0.0
        last = self.entries[-1]
        ended = max((s.at_s or 0.0) + s.lasted_s for s in last.steps)
        return max(0.0, seconds_between(last.at, now) - ended)

    @property
    def newest(self) -> str:
        """The id of what would be taken back next; empty for a fresh cup."""
        return self.poured or (self.entries[-1].id if self.entries else "")


def worked_body(cup: int, entry: Entry) -> dict[str, Any]:
    """The body of a `cup_worked` event."""
    return {"cup": cup, "late": entry.late, "steps": [to_json(s) for s in entry.steps]}


def entry_of(happening: Happening) -> Entry:
    """The entry a `cup_worked` event holds."""
    body = happening.body
    steps = tuple(from_json(Step, step) for step in body["steps"])
    return Entry(happening.id, happening.at, steps, late=bool(body["late"]))


def cup_stories(happenings: Iterable[Happening]) -> dict[int, CupStory]:
    """The story of every cup that anything happened to, by number.

    Events of other kinds are left alone; the same id a second time changes nothing.
    """
    found: dict[int, CupStory] = {}
    seen: set[str] = set()
    for it in happenings:
        if it.kind in {WORKED, MEANT, UNDONE, POURED} and it.id not in seen:
            seen.add(it.id)
            number = int(it.body["cup"])
            found[number] = _told(found.get(number, CupStory(number)), it)
    return found


def _told(story: CupStory, it: Happening) -> CupStory:
    if it.kind == WORKED:
        return dataclasses.replace(story, entries=(*story.entries, entry_of(it)))
    if it.kind == POURED:
        return dataclasses.replace(story, poured=it.id)
    named = it.body["event"]
    if it.kind == UNDONE:
        kept = tuple(e for e in story.entries if e.id != named)
        poured = "" if story.poured == named else story.poured
        return dataclasses.replace(story, entries=kept, poured=poured)
    meant = (_meant(e, it.body["read_c"]) if e.id == named else e for e in story.entries)
    return dataclasses.replace(story, entries=tuple(meant))


def _meant(entry: Entry, read_c: float) -> Entry:
    steps = tuple(
        dataclasses.replace(s, read_c=read_c) if s.did is Did.READ else s for s in entry.steps
    )
    return dataclasses.replace(entry, steps=steps, settled=True)


def _on_one_clock(entries: tuple[Entry, ...]) -> tuple[Step, ...]:
    """The steps with clocks since the first entry.

    A late entry has no clock of its own, so what follows it starts the clock anew. A rest too long
    for a history counts as the longest one: by then the cup is cold either way.
    """
    found: list[Step] = []
    end, zero = 0.0, ""
    shift = 0.0
    for entry in entries:
        if entry.late:
            found += [dataclasses.replace(s, at_s=None) for s in entry.steps]
            end += sum(s.lasted_s for s in entry.steps)
            zero = ""
            continue
        if not zero:
            zero, shift = entry.at, end
        start = seconds_between(zero, entry.at) + shift
        if start > end + LONGEST_REST_S:
            shift -= start - end - LONGEST_REST_S
            start = end + LONGEST_REST_S
        for step in entry.steps:
            at = start + (step.at_s or 0.0)
            found.append(dataclasses.replace(step, at_s=at))
            end = at + step.lasted_s
    return tuple(found)
