"""What happened to each cup of a lot, folded from its append-only events."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.base.record import from_json, to_json
from pourwright.bench.clock import seconds_between
from pourwright.bench.tap_kind import FILLED, OPENED, TAKEN_BACK
from pourwright.heat.history import LEAST_LEFT_G, LONGEST_REST_S, Did, Step, left_g

WORKED, MEANT, UNDONE, POURED = "cup_worked", "cup_meant", "cup_undone", "cup_poured"
# The least a step may draw.
_LEAST_DRAWN_G = 0.1
TOLD_OF_CUPS = frozenset({WORKED, MEANT, POURED, FILLED})


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


def never_emptied(steps: tuple[Step, ...], plastic_g: float) -> tuple[Step, ...]:
    """The steps with draws cut to what the cup still held: a mold may be filled with its last."""
    found: list[Step] = []
    for step in steps:
        spare = left_g(tuple(found), plastic_g) - LEAST_LEFT_G
        if step.did is not Did.DRAWN or (step.mass_g or 0) <= spare:
            found.append(step)
        elif spare >= _LEAST_DRAWN_G:
            found.append(dataclasses.replace(step, mass_g=spare))
    return tuple(found)


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

    Events of other kinds are left alone; the same id a second time changes nothing, and neither
    does an event that was taken back, nor a second filling of a mold that is full.
    """
    told = list({h.id: h for h in happenings}.values())
    gone = taken_back(told)
    found: dict[int, CupStory] = {}
    for it in _once_a_mold(h for h in told if h.id not in gone):
        if it.kind in TOLD_OF_CUPS:
            for number in _cups_of(it):
                story = found.get(number, CupStory(number))
                found[number] = _told(story, it, number)
    return found


def _once_a_mold(happenings: Iterable[Happening]) -> Iterator[Happening]:
    """The events without fillings of a full mold, as two phones tell of one filling."""
    full: set[int] = set()
    for it in happenings:
        if it.kind == OPENED:
            full.discard(it.body["mold"])
        if it.kind != FILLED or it.body["mold"] not in full:
            yield it
        if it.kind == FILLED:
            full.add(it.body["mold"])


def taken_back(happenings: Iterable[Happening]) -> frozenset[str]:
    """The ids of events that were taken back; what took back is taken back in its turn."""
    gone: set[str] = set()
    for it in reversed(list(happenings)):
        if it.kind in {UNDONE, TAKEN_BACK} and it.id not in gone:
            gone.add(it.body["event"])
    return frozenset(gone)


def _cups_of(it: Happening) -> tuple[int, ...]:
    if it.kind == FILLED:
        return tuple(int(n) for n, grams in it.body["drawn_g"].items() if grams >= _LEAST_DRAWN_G)
    return (int(it.body["cup"]),)


def _told(story: CupStory, it: Happening, number: int) -> CupStory:
    if it.kind == POURED:
        return dataclasses.replace(story, poured=it.id)
    if it.kind in {WORKED, FILLED}:
        new = entry_of(it) if it.kind == WORKED else _drawn(it, number)
        return dataclasses.replace(story, entries=(*story.entries, new))
    named = it.body["event"]
    meant = (_meant(e, it.body["read_c"]) if e.id == named else e for e in story.entries)
    return dataclasses.replace(story, entries=tuple(meant))


def _drawn(it: Happening, number: int) -> Entry:
    """What a filled mold took out of the cup."""
    drawn = Step(did=Did.DRAWN, at_s=0, mass_g=float(it.body["drawn_g"][str(number)]))
    return Entry(it.id, it.at, (drawn,))


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
        # Two phones may tell of overlapping times; the clock of a cup never runs backwards.
        start = max(end, seconds_between(zero, entry.at) + shift)
        if start > end + LONGEST_REST_S:
            shift -= start - end - LONGEST_REST_S
            start = end + LONGEST_REST_S
        for step in entry.steps:
            at = start + (step.at_s or 0.0)
            found.append(dataclasses.replace(step, at_s=at))
            end = at + step.lasted_s
    return tuple(found)
