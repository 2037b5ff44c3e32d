"""Invented pours and random events for them, legal and not, for laws of the bench."""

from __future__ import annotations

import dataclasses
import itertools
import sys
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from hypothesis import strategies as st

from pour_player import START, Deed, deed_of
from pourwright.base.record import to_json
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after as later
from pourwright.bench.clock import seconds_between
from pourwright.bench.cup_story import MEANT, POURED, WORKED, Happening, worked_body
from pourwright.bench.fold_pour import grown, pour_of
from pourwright.bench.hand import SOFT_MORE_S, Due, Hand, Judged, next_hand
from pourwright.bench.pour import Pour
from pourwright.bench.pour_setup import CupTask, Part, PourSetup, WetThing
from pourwright.bench.reading import reading_entry
from pourwright.bench.tap_body import COUNT_CLOSED, READ, CameOut, CupRead, Finish, Trouble
from pourwright.heat.history import Did
from pourwright.heat.next_step import Next
from pourwright.shop.lot import COUNTED, LotEntry, body_of

FIRM_S, POURABLE_S, ROUNDS = 200, 600.0, 2
ENTRY = LotEntry(shots=2, good=3)
MAIN = "what is asked for"

Move = str | Deed


def setup_of(
    layers: Mapping[str, tuple[int, ...]], *, molds: int, injector: bool = False, wet: int = 0
) -> PourSetup:
    """Cups with so many shots each, layer by layer; every weight is invented."""
    cups = [
        CupTask(
            number=0, layer=layer, shots=shots, shot_g=20.0, total_g=20.0 * shots + 12,
            fill_ml=100.0,
            weigh=(Part("plastic", "Plastic", 90.0, 90.0), Part("salt", "Salt", 4.0, 4.0)),
            tint=(Part("line-0", "Green", 0.12, 0.1, drops=3, drop_g=0.04),
                  Part("line-1", "Flake", 0.8, 0.8, spoons="1/4 tsp")),
        )
        for layer, each in layers.items() for shots in each
    ]  # fmt: skip
    numbered = tuple(dataclasses.replace(c, number=n) for n, c in enumerate(cups, 1))
    tools = tuple(WetThing("mold", f"wet-{n}", f"Wet mold {n}") for n in range(wet))
    return PourSetup(numbered, ("Worm mold",) * molds, 4, injector, tools)


SETUPS = (
    setup_of({"body": (2,)}, molds=1),
    setup_of({"body": (3, 1)}, molds=2, injector=True),
    setup_of({"back": (2, 1), "belly": (3,)}, molds=2, wet=1),
    setup_of({"back": (1,), "belly": (2,), "vein": (1, 1)}, molds=3, injector=True, wet=2),
)

_CUP, _MOLD, _PART = (
    st.integers(1, 5),
    st.integers(1, 4),
    st.sampled_from(["plastic", "salt", "line-0", "line-1", "card", "gold"]),
)
_cup, _mold = st.fixed_dictionaries({"cup": _CUP}), st.fixed_dictionaries({"mold": _MOLD})
_part = st.fixed_dictionaries({"cup": _CUP, "part": _PART})
_cups = st.fixed_dictionaries({"cups": st.lists(_CUP, min_size=1, max_size=2)})
_bare: st.SearchStrategy[dict[str, Any]] = st.just({})
# The event a take-back or a unit names is chosen by place among those before it.
_PLACE = st.integers(0, 30)
BODIES: dict[str, st.SearchStrategy[dict[str, Any]]] = {
    kind.READY: st.fixed_dictionaries({"item": st.sampled_from(["room", "jug", "oven", "moon"])}),
    kind.READ_START: st.just({"plastic_c": 20.0, "air_c": None}),
    kind.DRIED: _mold | st.just({"sort": "mold", "id": "wet-0"}),
    kind.PART_IN: st.builds(lambda b: b | {"grams": 4.0, "wanted_g": 4.5}, _part),
    kind.PARTS_IN: _cup,
    kind.BEGUN: st.builds(lambda b: b | {"for_s": 40.0}, _cup),
    kind.ENDED: _cup,
    READ: st.builds(lambda b, r: b | {"read_c": r}, _cup, st.sampled_from([60.0, 150.0, 171.5])),
    MEANT: st.builds(lambda b, n: b | {"place": n, "read_c": 71.0}, _cup, _PLACE),
    kind.HOT: _cup,
    kind.DRIPPED: st.builds(
        lambda b, more: b | more, _part,
        st.sampled_from([{"drops": 1, "lost_g": None}, {"drops": None, "lost_g": 0.04}]),
    ),
    kind.TINTED: _part,
    kind.PRIMED: _cup,
    kind.FILLED: st.builds(lambda m, c: m | c, _mold, _cups),
    kind.SOFT: _mold,
    kind.OPENED: _mold,
    kind.DIPPED: _mold,
    kind.MORE: _cups,
    POURED: _cup,
    kind.DISCARDED: _cup,
    kind.TALLIED: st.fixed_dictionaries({"came_out": st.sampled_from([*CameOut]).map(str),
                                         "n": st.integers(0, 9)}),
    kind.WEIGHED_FIVE: st.just({"five_g": 40.5}),
    kind.KEPT_BACK: st.just({"remelt_g": 12.0, "sprue_g": None}),
    COUNT_CLOSED: _bare,
    kind.FINISHED: st.fixed_dictionaries({"what": st.sampled_from([*Finish]).map(str)}),
    kind.HUNG: st.just({"place": "rack", "for_h": 24.0}),
    kind.TAKEN_OFF: _bare,
    kind.PUT_AWAY: _bare,
    kind.TAKEN_UP: _bare,
    kind.WENT_ON: _bare,
    kind.WRONG: st.fixed_dictionaries({"what": st.sampled_from([*Trouble]).map(str),
                                       "note": st.just("")}),
    kind.TAKEN_BACK: st.builds(lambda n: {"place": n}, _PLACE),
}  # fmt: skip
_any_event = st.sampled_from(sorted(BODIES)).flatmap(
    lambda k: st.tuples(st.just(k), BODIES[k])
)  # fmt: skip


@st.composite
def pours(draw: st.DrawFn, *, longest: int = 70) -> tuple[PourSetup, list[Happening]]:
    """A pour and what happened: in part what was asked for, in part anything at all."""
    setup = draw(st.sampled_from(SETUPS))
    begun = draw(st.integers(0, longest))
    moves: list[Move] = [MAIN] * begun
    rest = st.lists(st.just(MAIN) | _any_event, max_size=max(5, longest - begun))
    return setup, told(setup, (*moves, *draw(rest)))


def told(setup: PourSetup, moves: Iterable[Move]) -> list[Happening]:
    """The events that the moves leave behind, seven seconds apart."""
    events: list[Happening] = []
    pour, now = pour_of(setup, ()), START
    for move in moves:
        now, number = later(now, 7), len(events)
        if isinstance(move, tuple):
            made: Happening | None = happening(setup, pour, move, at=now, number=number)
        else:
            _, now, made = asked_for(setup, pour, now=now, number=number)
        if made is not None:
            events.append(made)
            pour = grown(setup, pour, events)
    return events


def asked_for(
    setup: PourSetup, pour: Pour, *, now: str, number: int
) -> tuple[Hand, str, Happening | None]:
    """What is asked for, when it is done at the earliest, and the event that tells of it."""
    hand = next_hand(setup, pour, now=now, judged=judged_by(pour, now), due=due_by(pour))
    at = max(now, hand.until, _burst_over(pour))
    deed = deed_of(hand, setup, pour)
    return hand, at, happening(setup, pour, deed, at=at, number=number) if deed else None


def happening(setup: PourSetup, pour: Pour, deed: Deed, *, at: str, number: int) -> Happening:
    """The event of a deed, as the bench keeps it; its id is its number in the row."""
    name, body = deed
    key = f"{number:032x}"
    if "place" in body and name in {MEANT, kind.TAKEN_BACK}:
        rest = {k: v for k, v in body.items() if k != "place"}
        named = f"{body['place'] % number:032x}" if number else "f" * 32
        return Happening(key, name, at, rest | {"event": named})
    if name == READ:
        read = CupRead(cup=body["cup"], read_c=body.get("read_c", 171.5))
        entry = reading_entry(pour, read, id=key, at=at)
        if entry is not None:
            return Happening(key, WORKED, entry.at, worked_body(read.cup, entry))
        return Happening(key, READ, at, to_json(read))
    if name == kind.FILLED:
        shots = {c.number: c.shot_g for c in setup.cups}
        drawn = {str(n): shots.get(n, 0.0) for n in body["cups"]}
        return Happening(key, name, at, {"mold": body["mold"], "drawn_g": drawn})
    if name == COUNT_CLOSED:
        return Happening(key, COUNTED, at, body_of(ENTRY))
    return Happening(key, name, at, _UNSAID.get(name, {}) | body)


# What a bare tap leaves unsaid.
_UNSAID: dict[str, dict[str, Any]] = {
    kind.HUNG: {"place": "rack", "for_h": 24.0},
    kind.READ_START: {"plastic_c": None, "air_c": None},
    kind.WEIGHED_FIVE: {"five_g": None},
    kind.KEPT_BACK: {"remelt_g": None, "sprue_g": None},
}


def judged_by(pour: Pour, now: str) -> dict[int, Judged]:
    """Cups that are hot after so many readings, and pourable for a while after the last one."""
    found = {}
    for number, cup in pour.cups.items():
        story = pour.stories.get(number)
        entries = (
            [e for e in story.entries if any(s.did is Did.READ for s in e.steps)] if story else []
        )
        if not entries or not cup.by_hand:
            found[number] = Judged(Next.HEAT, on_s=40.0)
            continue
        stood = seconds_between(entries[-1].at, now)
        pourable = POURABLE_S - stood if len(entries) >= ROUNDS else 0.0
        do = Next.POUR if pourable > 0 else Next.HEAT
        found[number] = Judged(do, 0.0 if do is Next.POUR else 40.0, max(0.0, pourable))
    return found


def due_by(pour: Pour) -> tuple[Due, ...]:
    """Every mold is firm so long after its filling, or a minute after it was found soft."""
    return tuple(
        Due(u.mold, later(u.soft_at[-1], SOFT_MORE_S) if u.soft_at else later(u.filled, FIRM_S))
        for u in pour.full
    )


def _burst_over(pour: Pour) -> str:
    burst = pour.in_oven.burst if pour.in_oven else None
    return later(burst.began, round(burst.for_s) + 15) if burst else ""


def calls_of(work: Callable[[], object]) -> int:
    """Calls and steps of generators, which a busy machine does not change."""
    count = itertools.count()
    sys.setprofile(lambda _frame, what, _arg: next(count) if what == "call" else None)
    try:
        work()
    finally:
        sys.setprofile(None)
    return next(count)
