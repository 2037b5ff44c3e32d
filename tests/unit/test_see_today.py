"""Where sheets stand, what needs a hand, and the story of a pour."""

from __future__ import annotations

import dataclasses
import functools
from typing import Any

import pytest

from fake_bench import FakeJobs, FakeStore
from pour_told import BURST_S, ENTRY, Teller
from pourwright.actions.demo import DEMO_DRAFT, demo_nouns
from pourwright.actions.freeze_sheet import sheet_of
from pourwright.actions.pair_phone import pair_phone
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import World
from pourwright.actions.pour_setup import pour_setup
from pourwright.actions.pour_standing import Standing, pour_standing
from pourwright.actions.pour_story import pour_story
from pourwright.actions.see_today import ClockOf, Today, see_today
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after, before, seconds_between
from pourwright.bench.cup_story import POURED, UNDONE
from pourwright.bench.fold_pour import pour_of
from pourwright.bench.hand import Stage, What
from pourwright.bench.pour_setup import PourSetup
from pourwright.shop.code import lot_code
from pourwright.shop.lot import COUNTED, body_of
from pourwright.shop.sheet import Sheet

DAY_S = 86_400


@pytest.fixture
def world() -> World:
    store, stub = FakeStore(), None
    made = World(
        bench=store.bench, reading=store.bench, clock=store.clock, ids=store.ids, jobs=FakeJobs(),
        printer=stub, picture=stub, readers=stub, spectra=stub, exchange=stub,  # type: ignore[arg-type]
    )  # fmt: skip
    with made.bench() as bench:
        for key, noun in demo_nouns().items():
            bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()
    return made


@functools.cache
def planned() -> Sheet:
    store = FakeStore()
    with store.bench() as bench:
        for key, noun in demo_nouns().items():
            bench.records.save(noun.key, key, noun, expected_version=0)
        found = plan_batch(bench, DEMO_DRAFT)
    return sheet_of(found, number=1, at="2026-01-01T00:00:00Z")


def frozen(world: World, number: int = 1, **changes: Any) -> Sheet:
    code = lot_code(date="2026-01-01", number=number)
    sheet = dataclasses.replace(planned(), number=number, code=code, **changes)
    with world.bench() as bench:
        bench.sheets.add(sheet)
        bench.commit()
    return sheet


def setup_of(world: World, sheet: Sheet) -> PourSetup:
    with world.bench() as bench:
        return pour_setup(bench, sheet)


def seen(world: World, now: str) -> Today:
    with world.bench() as bench:
        return see_today(bench, now, now[:10])


def begun(world: World, number: int = 1) -> tuple[Teller, PourSetup]:
    """A pour with its first cup ready to be poured from, 900 s ago."""
    sheet = frozen(world, number)
    setup = setup_of(world, sheet)
    teller = Teller(world, sheet)
    teller.hot(900, setup)
    return teller, setup


def by_hand(teller: Teller) -> None:
    teller.by = None
    teller.read(500, 1, 120.0)


def counted_on_a_page(teller: Teller) -> None:
    teller.by = None
    teller.tell(10, COUNTED, **body_of(ENTRY))


STORIES = {
    "nothing": ((), Standing.FROZEN),
    "a cup by its own page": ((by_hand,), Standing.BY_HAND),
    "counted without the bench": ((counted_on_a_page,), Standing.OVER),
    "made ready": ((lambda t: t.tell(50, kind.READY, item="jug"),), Standing.RUNNING),
    "put away": (
        (
            lambda t: t.tell(50, kind.READY, item="jug"),
            lambda t: t.tell(40, kind.PUT_AWAY),
        ),
        Standing.AWAY,
    ),
    "put away twice": (
        (
            lambda t: t.tell(50, kind.PUT_AWAY),
            lambda t: t.tell(40, kind.PUT_AWAY),
        ),
        Standing.AWAY,
    ),
    "taken up": (
        (
            lambda t: t.tell(50, kind.PUT_AWAY),
            lambda t: t.tell(40, kind.TAKEN_UP),
        ),
        Standing.RUNNING,
    ),
    "counted on a page after the taps": (
        (lambda t: t.tell(50, kind.READY, item="jug"), counted_on_a_page),
        Standing.OVER,
    ),
    "counted at the bench, not hung yet": (
        (lambda t: t.tell(50, COUNTED, **body_of(ENTRY)),),
        Standing.RUNNING,
    ),
    "hung": ((lambda t: t.hang(50),), Standing.HUNG),
    "hung, then corrected on the lot's page": (
        (lambda t: t.hang(50), counted_on_a_page),
        Standing.HUNG,
    ),
    "taken off": (
        (lambda t: t.hang(50), lambda t: t.tell(40, kind.TAKEN_OFF)),
        Standing.OVER,
    ),
    "taken off before it hung": (
        (lambda t: t.tell(60, kind.TAKEN_OFF), lambda t: t.hang(50)),
        Standing.HUNG,
    ),
    "taken off by mistake": (
        (
            lambda t: t.hang(50),
            lambda t: t.tell(20, kind.TAKEN_BACK, event=t.tell(40, kind.TAKEN_OFF)),
        ),
        Standing.HUNG,
    ),
    "all taken back": (
        (lambda t: t.tell(20, kind.TAKEN_BACK, event=t.tell(40, kind.READY, item="jug")),),
        Standing.FROZEN,
    ),
}


@pytest.mark.parametrize("name", STORIES)
def test_a_sheet_stands_where_its_events_put_it(world: World, name: str) -> None:
    deeds, expected = STORIES[name]
    sheet = frozen(world)
    teller = Teller(world, sheet)
    for deed in deeds:
        deed(teller)
    with world.bench() as bench:
        it = pour_standing(bench, sheet)
        pour = pour_of(pour_setup(bench, sheet), it.happenings)
    assert it.standing is expected
    # What the kinds tell is what the whole fold tells.
    assert (it.standing is Standing.HUNG) == (pour.hung is not None and not pour.off_at)
    if it.standing in {Standing.RUNNING, Standing.AWAY}:
        assert (it.standing is Standing.AWAY) == bool(pour.away_since)


def test_a_full_mold_counts_to_when_it_is_firm_and_then_wants_a_hand(world: World) -> None:
    teller, _ = begun(world)
    teller.fill(30, 1)
    (running,) = seen(world, teller.now).running
    (firm,) = running.told.firm
    (clock,) = running.clocks
    assert (clock.what, clock.number, clock.until) == (ClockOf.MOLD, 1, firm.at)
    assert running.since == before(teller.now, 30)
    assert not running.needs_hand(before(firm.at, 1))
    assert running.needs_hand(firm.at)
    (later,) = seen(world, after(firm.at, 60)).running
    assert (later.hand.stage, later.hand.what, later.hand.mold) == (Stage.COOL, What.OPEN, 1)


@pytest.mark.parametrize(("ended_ago", "until_ago"), [(None, 100 - BURST_S), (70, 70)])
def test_an_oven_wants_a_hand_once_it_has_stopped(
    world: World, ended_ago: int | None, until_ago: int
) -> None:
    sheet = frozen(world)
    teller = Teller(world, sheet)
    teller.ready(400, setup_of(world, sheet))
    teller.tell(100, kind.BEGUN, cup=1, for_s=BURST_S)
    if ended_ago:
        teller.tell(ended_ago, kind.ENDED, cup=1)
    (running,) = seen(world, teller.now).running
    (clock,) = running.clocks
    ends = before(teller.now, until_ago)
    assert (clock.what, clock.number, clock.until) == (ClockOf.OVEN, 1, ends)
    assert (running.needs_hand(before(ends, 1)), running.needs_hand(ends)) == (False, True)


def test_trouble_wants_a_hand_until_something_follows(world: World) -> None:
    teller, _ = begun(world)
    teller.tell(30, kind.WRONG, what="spilled", note="")
    (running,) = seen(world, teller.now).running
    assert (running.trouble, running.needs_hand(teller.now)) == ("spilled", True)
    teller.tell(20, kind.DISCARDED, cup=1)
    (running,) = seen(world, teller.now).running
    assert (running.trouble, running.needs_hand(teller.now)) == ("", False)


def test_what_needs_a_hand_comes_first(world: World) -> None:
    begun(world, 1)[0].tell(30, kind.WRONG, what="hot", note="")
    teller, _ = begun(world, 2)
    assert [r.told.sheet.number for r in seen(world, teller.now).running] == [1, 2]


def test_a_pour_put_away_wants_nothing(world: World) -> None:
    teller, _ = begun(world)
    teller.fill(800, 1)
    teller.tell(700, kind.PUT_AWAY)
    today = seen(world, after(teller.now, DAY_S))
    assert not today.running
    assert [(a.sheet.number, a.since) for a in today.away] == [(1, before(teller.now, 700))]


def test_the_rack_is_due_by_its_hours_overdue_first(world: World) -> None:
    now = world.clock.now()
    for number, hung_ago, hours in ((1, 3600, 12), (2, 30 * 3600, 24), (3, 2 * 3600, 24)):
        sheet = frozen(world, number)
        teller = Teller(world, sheet)
        teller.finish(hung_ago + 60, setup_of(world, sheet))
        teller.hang(hung_ago, for_h=hours, place="north rack")
    hanging = seen(world, now).hanging
    assert [(h.sheet.number, h.overdue) for h in hanging] == [(2, True), (1, False), (3, False)]
    # 24 h from 30 h ago is 6 h ago; 12 h from an hour ago is in 11 h.
    assert abs(_hours(hanging[0].due_at, now) - 6) < 0.01
    assert abs(_hours(hanging[1].due_at, now) + 11) < 0.01
    assert {(h.place, h.good) for h in hanging} == {("north rack", ENTRY.good)}
    assert not seen(world, now).recent


def _hours(first: str, second: str) -> float:
    return seconds_between(first, second) / 3600


def test_what_waits_and_what_was_poured(world: World) -> None:
    frozen(world, 1)
    by_hand(Teller(world, frozen(world, 2)))
    counted_on_a_page(Teller(world, frozen(world, 3)))
    today = seen(world, world.clock.now())
    assert [(f.sheet.number, f.why) for f in today.frozen] == [(1, "")]
    assert [s.number for s in today.uncounted] == [2]
    assert [lot.sheet.number for lot in today.recent] == [3]
    assert today.recent[0].lot.entry == ENTRY
    assert not today.running


def test_a_sheet_that_cannot_be_guided_is_listed_with_the_reason(world: World) -> None:
    broken = {"plan": {"looks": []}, "version": "0.0.9"}
    frozen(world, 1, **broken)
    Teller(world, frozen(world, 2, **broken)).tell(50, kind.READY, item="jug")
    Teller(world, frozen(world, 3, **broken)).hang(50)
    frozen(world, 4)
    today = seen(world, world.clock.now())
    assert [f.sheet.number for f in today.frozen] == [4, 1]
    assert [not f.why for f in today.frozen] == [True, False]
    assert "frozen by version 0.0.9" in today.frozen[1].why
    assert [u.sheet.number for u in today.lost] == [2]
    assert [h.sheet.number for h in today.hanging] == [3]


def test_what_runs_low_is_under_fifteen_parts_in_a_hundred(world: World) -> None:
    with world.bench() as bench:
        for key, left in (("demo-salt", 340.0), ("demo-softener", 140.0)):
            noun = demo_nouns()[key]
            changed = dataclasses.replace(noun, on_hand_g=left)  # type: ignore[call-arg]
            bench.records.save(noun.key, key, changed, expected_version=1)
        bench.commit()
    # 340 of 2270 g are 14.98 %, 140 of 930 g are 15.05 %.
    assert [(low.id, low.left_g) for low in seen(world, world.clock.now()).low] == [
        ("demo-salt", 340.0)
    ]


def test_the_story_says_who_told_what_and_what_became_of_it(world: World) -> None:
    sheet = frozen(world)
    teller = Teller(world, sheet)
    phone = pair_phone(world, "Glove pocket", "s" * 43)
    teller.tell(90, kind.READY, item="jug", by=phone.id)
    twice = teller.tell(80, kind.READY, item="jug", by="0" * 32, sent_late_s=200)
    slip = teller.tell(70, kind.READY, item="room", clock_off_s=-30)
    back = teller.tell(60, kind.TAKEN_BACK, event=slip)
    teller.by = None
    teller.read(20, 1, 120.0)
    with world.bench() as bench:
        story = pour_story(bench, pour_standing(bench, sheet))
    assert story is not None
    told = {line.event.id: line for line in story.told}
    assert [line.name for line in story.told] == ["Glove pocket", "", "", "", ""]
    assert [bool(line.by) for line in story.told] == [True, True, True, True, False]
    assert "already" in told[twice].stray
    assert (told[twice].late_s, told[slip].off_s) == (200, -30)
    assert told[slip].gone_at == told[back].event.at
    assert told[back].takes is told[slip].event
    assert [line.stray for line in story.told if line.event.id != twice] == [""] * 4


def test_what_took_back_may_be_taken_back(world: World) -> None:
    sheet = frozen(world)
    teller = Teller(world, sheet)
    slip = teller.tell(70, kind.READY, item="room")
    back = teller.tell(60, kind.TAKEN_BACK, event=slip)
    teller.tell(50, UNDONE, cup=1, event=back)
    with world.bench() as bench:
        story = pour_story(bench, pour_standing(bench, sheet))
    assert story is not None
    assert [bool(line.gone_at) for line in story.told] == [False, True, False]


def test_a_pour_without_the_bench_has_no_story(world: World) -> None:
    sheet = frozen(world)
    teller = Teller(world, sheet, by=None)
    teller.read(20, 1, 120.0)
    teller.tell(10, POURED, cup=1)
    with world.bench() as bench:
        assert pour_story(bench, pour_standing(bench, sheet)) is None


def test_what_a_frozen_sheet_takes_beyond_the_shelf_is_short(world: World) -> None:
    sheet = frozen(world)
    need_g = {line["material"]: line["need_g"] for line in sheet.plan["shelf"]}["demo-color-moss"]
    with world.bench() as bench:
        stored = bench.records.get("colorant", "demo-color-moss")
        left = dataclasses.replace(stored.noun, on_hand_g=1.0)  # type: ignore[call-arg]
        bench.records.save("colorant", stored.id, left, expected_version=stored.version)
        bench.commit()
    (low,) = seen(world, world.clock.now()).low
    assert (low.id, low.left_g) == ("demo-color-moss", 1.0)
    assert low.short_g == pytest.approx(need_g - 1.0, abs=0.001)
