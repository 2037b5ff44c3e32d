"""Laws of a guided pour: whatever is tapped, in whatever order, nothing is lost."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fake_bench import FakeStore
from pour_moves import (
    BODIES,
    MAIN,
    ROUNDS,
    SETUPS,
    asked_for,
    calls_of,
    due_by,
    happening,
    judged_by,
    pours,
    setup_of,
    told,
)
from pour_player import deed_of
from pourwright import wire
from pourwright.actions.oven_history import happenings
from pourwright.actions.port import Bench, Event
from pourwright.bench.clock import after as later
from pourwright.bench.cup_story import MEANT, UNDONE, WORKED, Happening, taken_back
from pourwright.bench.fold_pour import after, grown, known, pour_of
from pourwright.bench.hand import Due, Hand, Judged, What, next_hand, shots_left
from pourwright.bench.pour import Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.tap_body import BODIES as TAPS
from pourwright.bench.tap_body import COUNT_CLOSED, READ, CameOut, Finish
from pourwright.bench.tap_kind import BEGUN, DRIPPED, FILLED, OPENED, TAKEN_BACK
from pourwright.heat.next_step import Next
from pourwright.shop.lot import COUNTED

AT = "2026-11-26T18:00:00Z"
Told = tuple[PourSetup, list[Happening]]
Opened = Callable[[], Bench]


def test_the_moves_are_of_every_kind_a_phone_may_tap() -> None:
    assert set(BODIES) == set(TAPS)
    kept = {WORKED if k == READ else COUNTED if k == COUNT_CLOSED else k for k in BODIES}
    assert [k for k in kept if not known(k)] == [TAKEN_BACK]


# --- nothing is lost


def in_effect(setup: PourSetup, told_before: list[Happening], it: Happening) -> bool:
    """Whether the pour stands otherwise right after an event than right before it.

    A unit and a count may be told twice: they hold where what they say holds.
    """
    before, found = pour_of(setup, told_before), pour_of(setup, [*told_before, it])
    if it.kind == COUNTED:
        return found.counted
    if it.kind == MEANT:
        entries = found.stories[it.body["cup"]].entries
        return any(e.id == it.body["event"] and e.settled for e in entries)
    return found != dataclasses.replace(before, newest=found.newest, began_at=found.began_at)


@settings(max_examples=40)
@given(pours())
def test_every_event_holds_or_is_a_stray_with_a_reason_or_was_taken_back(it: Told) -> None:
    setup, events = it
    whole, gone = pour_of(setup, events), taken_back(events)
    why = {s.id: s.why for s in whole.strays}
    assert len(why) == len(whole.strays)
    assert all(len(words) > 10 for words in why.values())
    assert not gone & set(why)
    kept = [e for e in events if e.id not in gone]
    for n, event in enumerate(kept):
        if event.id in why:
            continue
        if event.kind == TAKEN_BACK:
            assert event.body["event"] in gone
        else:
            assert in_effect(setup, kept[:n], event), event


@given(pours())
def test_the_story_told_again_or_twice_is_the_same_story(it: Told) -> None:
    setup, events = it
    once = pour_of(setup, events)
    assert pour_of(setup, iter(events)) == once
    assert pour_of(setup, [*events, *events]) == once
    assert pour_of(setup, [e for event in events for e in (event, event)]) == once


@given(pours())
def test_one_event_more_is_the_fold_of_one_event_more(it: Told) -> None:
    setup, events = it
    step = pour_of(setup, [])
    for n in range(1, len(events) + 1):
        step = grown(setup, step, events[:n])
        assert step == pour_of(setup, events[:n])


@settings(max_examples=25)
@given(pours())
def test_what_is_foreseen_of_an_event_is_what_it_does_but_for_the_cups(it: Told) -> None:
    setup, events = it
    for n, event in enumerate(events):
        assume(event.kind != TAKEN_BACK)
        whole = pour_of(setup, events[: n + 1])
        seen = after(setup, pour_of(setup, events[:n]), event)
        assert dataclasses.replace(seen, stories=whole.stories) == whole


@given(pours(), st.integers(0, 60))
def test_a_take_back_leaves_no_trace_and_can_itself_be_taken_back(it: Told, place: int) -> None:
    setup, events = it
    gone = taken_back(events)
    kept = [e for e in events if e.id not in gone]
    assume(kept)
    named = kept[place % len(kept)]
    undo = Happening("a" * 32, TAKEN_BACK, AT, {"event": named.id})
    redo = Happening("b" * 32, TAKEN_BACK, AT, {"event": undo.id})
    without = [e for e in events if e.id != named.id]
    assert pour_of(setup, [*events, undo]) == pour_of(setup, without)
    assert pour_of(setup, [*events, undo, redo]) == pour_of(setup, events)
    old = dataclasses.replace(undo, kind=UNDONE, body={"cup": 1, "event": named.id})
    assert pour_of(setup, [*events, old]) == pour_of(setup, without)


# --- what the hands do next

anything_judged = st.builds(
    Judged,
    st.sampled_from([*Next]),
    st.sampled_from([0.0, 8.0, 90.0]),
    st.sampled_from([0.0, 30.0, 400.0]),
)


@given(pours(), st.lists(anything_judged, min_size=5, max_size=5), st.integers(0, 900))
def test_the_hand_never_does_what_hurts(it: Told, seen: list[Judged], waited: int) -> None:
    setup, events = it
    pour = pour_of(setup, events)
    now = later(events[-1].at if events else AT, waited)
    judged = dict(enumerate(seen, 1))
    hand = next_hand(setup, pour, now=now, judged=judged, due=due_by(pour))
    if pour.in_oven is not None:
        assert hand.what in {What.OVEN, What.TAKE_UP, What.HALTED}
    assert (hand.what is What.HALTED) == pour.halted
    if hand.what is What.COOK:
        assert not pour.cups[hand.cup].over
    if hand.what in {What.COOK, What.FILL, What.TINT, What.PRIME}:
        assert not ripe(pour, now)
        assert set(setup.ready) == pour.ready
        assert all(w.id in pour.dried or (w.sort == "mold" and pour.dipped) for w in setup.wet)
    if hand.what is What.FILL:
        fits_to_fill(setup, pour, hand, judged)
    if hand.what is What.WAIT:
        assert now < hand.until


def fits_to_fill(
    setup: PourSetup, pour: Pour, hand: Hand, judged: dict[int, Judged]
) -> None:  # fmt: skip
    assert pour.in_mold(hand.mold) is None
    assert hand.mold not in pour.wet
    assert [setup.cup(n).layer for n in hand.cups] == list(setup.layers)  # type: ignore[union-attr]
    for number in hand.cups:
        task, cup = setup.cup(number), pour.cups[number]
        assert task is not None
        assert cup.hot
        assert not cup.over
        assert shots_left(task, cup)
        assert judged[number].pourable_s > 0
        assert judged[number].do not in {Next.STOP, Next.READ_AGAIN}
        assert {p.key for p in task.tint} <= {k for k, t in cup.tint.items() if t.done}


def ripe(pour: Pour, now: str) -> tuple[Due, ...]:
    return tuple(d for d in due_by(pour) if d.at <= now)


@given(pours())
def test_what_is_asked_for_always_fits(it: Told) -> None:
    setup, events = it
    pour = pour_of(setup, events)
    now = later(events[-1].at if events else AT, 30)
    hand = next_hand(setup, pour, now=now, judged=judged_by(pour, now), due=due_by(pour))
    deed = deed_of(hand, setup, pour)
    if deed is not None:
        made = happening(setup, pour, deed, at=now, number=len(events))
        assert pour_of(setup, [*events, made]).strays == pour.strays


def left_to_do(setup: PourSetup, pour: Pour) -> int:
    """Deeds to the end, bursts and readings left out: each of them makes it less.

    Taking a pour up again makes everything ready anew, so it counts for more than all of that.
    """
    cups = [(c, pour.cups[c.number]) for c in setup.cups if not pour.cups[c.number].over]
    deeds = pour.halted + 1000 * bool(pour.away_since) + len(set(setup.ready) - pour.ready)
    deeds += len({w.id for w in setup.wet} - pour.dried) + len(pour.wet) + len(pour.full)
    for task, cup in cups:
        tinted = sum(t.done for t in cup.tint.values())
        deeds += 1 + (not cup.hot) + (not cup.primed) + 2 * shots_left(task, cup)
        deeds += max(0, len(task.weigh) - len(cup.weighed)) + len(task.tint) + 1 - tinted
    if not pour.counted:
        deeds += len(CameOut) - len(pour.tally) + (not pour.five_asked) + (pour.back is None) + 1
    deeds += len(set(Finish) - pour.finished)
    return deeds + (pour.hung is None) + (not pour.off_at)


@settings(max_examples=40)
@given(pours())
def test_doing_what_is_asked_for_ends_and_every_deed_leaves_less_to_do(it: Told) -> None:
    setup, events = it
    pour, now, heats = pour_of(setup, events), events[-1].at if events else AT, 0
    while True:
        hand, now, made = asked_for(setup, pour, now=later(now, 5), number=len(events))
        if hand.what is What.DONE:
            break
        if made is None:
            assert hand.what is What.WAIT
            continue
        events = [*events, made]
        before, pour = pour, grown(setup, pour, events)
        heated = hand.what in {What.COOK, What.OVEN}
        heats = heats + 1 if heated else 0
        # A burst and a reading for every round of every cup, and one that was under way.
        assert heats <= 2 * (ROUNDS + 1) * len(setup.cups)
        if not heated:
            assert left_to_do(setup, pour) < left_to_do(setup, before), hand
    assert all(cup.over or not cup.by_hand for cup in pour.cups.values())
    assert not pour.full


# --- kept and read back


@pytest.fixture(scope="module")
def stores(tmp_path_factory: pytest.TempPathFactory) -> tuple[Opened, Opened]:
    return FakeStore().bench, wire.world(tmp_path_factory.mktemp("store") / "bench.db").bench


def kept(bench: Bench, events: list[Happening], subject: str = "lot/x") -> None:
    for it in events:
        bench.ledger.append(Event(it.id, subject, it.kind, it.at, {**it.body, "by": "laptop"}))


@settings(max_examples=20)
@given(pours())
def test_every_event_comes_back_from_a_store_as_it_went(
    stores: tuple[Opened, Opened], it: Told
) -> None:
    setup, events = it
    for opened in stores:
        with opened() as bench:
            kept(bench, events)
            back = happenings(bench, "x")
        plain = [
            dataclasses.replace(h, body={k: v for k, v in h.body.items() if k != "by"})
            for h in back
        ]
        assert plain == events
        assert as_it_stands(pour_of(setup, back)) == as_it_stands(pour_of(setup, events))


def as_it_stands(pour: Pour) -> Pour:
    """Without the body of the newest event, which names its sender once it is kept."""
    newest = dataclasses.replace(pour.newest, body={}) if pour.newest else None
    return dataclasses.replace(pour, newest=newest)


def test_a_pour_stands_where_it_stood_once_the_program_was_started_anew(tmp_path: Path) -> None:
    every = [(setup, told(setup, [MAIN] * n)) for n, setup in enumerate(SETUPS * 4, 12)]
    for n, (_, events) in enumerate(every):
        own = [dataclasses.replace(e, id=f"{n:02x}{e.id[2:]}") for e in events]
        with wire.world(tmp_path / "bench.db").bench() as bench:
            kept(bench, own, f"lot/{n}")
            bench.commit()
    with wire.world(tmp_path / "bench.db").bench() as bench:
        assert bench.ledger.check() == sum(len(events) for _, events in every)
        for n, (setup, events) in enumerate(every):
            back = pour_of(setup, happenings(bench, str(n)))
            own = [dataclasses.replace(e, id=f"{n:02x}{e.id[2:]}") for e in events]
            assert as_it_stands(back) == as_it_stands(pour_of(setup, own))


# --- how it grows


def a_long_day(shots: int) -> list[Happening]:
    """One cup, two molds in turn, and a drop now and then."""
    found = [Happening("f" * 32, BEGUN, AT, {"cup": 1, "for_s": 60.0})]
    for n in range(shots):
        at, mold = later(AT, 200 * n), 1 + n % 2
        drop = {"cup": 1, "part": "line-0", "drops": 1, "lost_g": None}
        told_of: tuple[tuple[str, dict[str, Any]], ...] = (
            (FILLED, {"mold": mold, "drawn_g": {"1": 20.0}}),
            (DRIPPED, drop),
            (OPENED, {"mold": mold}),
        )
        found += [Happening(f"{3 * n + i:032x}", k, at, b) for i, (k, b) in enumerate(told_of)]
    return found


def test_twice_the_events_are_about_twice_the_work() -> None:
    setup = setup_of({"body": (400,)}, molds=2)
    few, many = (a_long_day(shots) for shots in (100, 200))
    assert not pour_of(setup, many).strays
    once, twice = (calls_of(functools.partial(pour_of, setup, day)) for day in (few, many))
    # Four times, were each event to look at all others.
    assert 1.8 < twice / once < 2.2
