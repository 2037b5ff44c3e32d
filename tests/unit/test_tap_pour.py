"""Taps kept: from two phones, late, with wrong clocks, twice, broken, and overnight."""

from __future__ import annotations

import dataclasses
import functools
from typing import Any

import pytest

from pour_moves import calls_of
from pour_player import START, PourPlayer, SetClock
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.demo_cups import DEMO_LOT_DRAFT
from pourwright.actions.enter_lot import enter_lot, lot_view
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import World
from pourwright.actions.post_pour import sheet_cause
from pourwright.actions.pour_books import pour_books
from pourwright.base.errors import Conflict, NotFound
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after, before, seconds_between
from pourwright.bench.cup_story import MEANT, POURED, WORKED
from pourwright.bench.hand import Stage, What
from pourwright.bench.tap_body import COUNT_CLOSED, READ
from pourwright.heat.next_step import Next
from pourwright.shop.draft import Draft
from pourwright.shop.lot import COUNTED, entry_of
from pourwright.shop.mold import Mold
from pourwright.shop.move import MoveKind
from pourwright.shop.tool import Cup
from pourwright.store.stock import SqlStock
from pourwright.web.bench.state import UNBOOKED, state_of
from pourwright.web.show import Settings

EIGHT = dataclasses.replace(DEMO_DRAFT, count=8)
PHONE = "phone-1"


def played(world: World, draft: Draft = EIGHT) -> PourPlayer:
    clock = world.clock
    assert isinstance(clock, SetClock)
    return PourPlayer(world, freeze_sheet(world, draft).number, clock)


@pytest.fixture
def it(world: World) -> PourPlayer:
    return played(world)


def weighed(it: PourPlayer, *, cup: int = 1) -> None:
    it.tap(kind.PARTS_IN, cup=cup)


def hot(it: PourPlayer) -> None:
    """The first cup tinted and ready to pour, by taps alone."""
    for item in ("room", "jug", "dry", "oven", "injector"):
        it.tap(kind.READY, item=item)
    it.tap(kind.READ_START)
    weighed(it)
    it.to(What.TINT)
    with it.world.bench() as bench:
        cup = bench.sheets.get(it.sheet).plan["cups"][0]
    for part in [f"line-{n}" for n in range(len(cup["lines"]))]:
        it.tap(kind.TINTED, cup=1, part=part)
    it.tap(kind.TINTED, cup=1, part="card")
    it.tap(kind.PRIMED, cup=1)


# --- two phones, and the same tap twice


def test_two_phones_tap_the_same_step_and_both_are_kept(it):
    first = it.tap(kind.READY, item="room", by=PHONE)
    second = it.tap(kind.READY, item="room", by="phone-2")
    assert (first.kept, first.words) == (True, "")
    assert (second.kept, second.words) == (True, "that was made sure of already")
    assert [e.body["by"] for e in it.events(kind.READY)] == [PHONE, "phone-2"]
    assert it.guide().told.pour.ready == {"room"}


@pytest.mark.parametrize("again", ["in one envelope", "in another"])
def test_the_same_id_twice_is_one_event(it, again):
    weighed(it)
    it.tap(kind.BEGUN, cup=1, for_s=60.0)
    it.clock.goes(80)
    tap = it.made(READ, cup=1, read_c=66.0)
    if again == "in one envelope":
        first, second = it.send(tap, tap)
    else:
        (first,), (second,) = it.send(tap), it.send(tap)
    assert first == second
    assert second.kept
    assert not second.words
    assert len(it.events(WORKED)) == 1
    assert it.guide().told.pour.strays == ()


def test_a_reading_of_a_screen_of_the_past_is_kept_and_closes_no_round(it):
    weighed(it)
    it.tap(kind.BEGUN, cup=1, for_s=60.0)
    burst = it.events(kind.BEGUN)[0].id
    it.clock.goes(80)
    assert not it.tap(READ, cup=1, read_c=66.0, after=burst, by=PHONE).words
    late = it.tap(READ, cup=1, read_c=65.0, after=burst, by="phone-2")
    assert late.kept
    assert late.words == "cup 1 was read already: tapped twice, or on two phones"
    assert len(it.guide().told.pour.stories[1].entries) == 1


# --- clocks


@pytest.mark.parametrize("ahead_s", [7200, -7200])
def test_a_phone_whose_clock_is_two_hours_off_is_put_right(it, ahead_s):
    phone = after(it.clock.at, ahead_s)
    tap = it.made(kind.READY, before(phone, 5), item="room")
    it.send(tap, sent_at=phone, by=PHONE)
    (kept,) = it.events(kind.READY)
    assert kept.at == before(it.clock.at, 5)
    assert kept.body == {"item": "room", "by": PHONE, "clock_off_s": ahead_s}


def test_taps_sent_a_minute_late_keep_their_times_and_their_order(it):
    first = it.made(kind.READY, item="room")
    it.clock.goes(20)
    second = it.made(kind.READY, item="jug")
    it.clock.goes(60)
    third = it.made(kind.READY, item="dry")
    it.send(first, second, third, by=PHONE)
    kept = it.events(kind.READY)
    assert [e.body["item"] for e in kept] == ["room", "jug", "dry"]
    assert [e.at for e in kept] == [START, after(START, 20), after(START, 80)]
    assert [e.body.get("sent_late_s") for e in kept] == [80, 60, None]
    assert all("clock_off_s" not in e.body for e in kept)


def test_a_burst_and_its_reading_sent_late_are_a_round_of_their_own_times(it):
    weighed(it)
    begun = it.made(kind.BEGUN, cup=1, for_s=60.0)
    it.clock.goes(80)
    read = it.made(READ, cup=1, read_c=66.0)
    it.clock.goes(300)
    it.send(begun, read, by=PHONE)
    (entry,) = it.guide().told.pour.stories[1].entries
    assert entry.at == START
    assert [(s.at_s, s.for_s) for s in entry.steps] == [(0.0, 60.0), (80.0, None), (80.0, None)]


def test_a_tap_of_the_future_happens_now_and_one_of_another_age_a_year_ago(it):
    it.tap(kind.READY, ago_s=-500, item="room")
    assert it.events(kind.READY)[0].at == START
    tap = it.made(kind.READY, "0001-01-01T00:00:00Z", item="jug")
    it.send(tap, sent_at="9999-12-31T23:59:59Z")
    assert seconds_between(it.events(kind.READY)[1].at, START) == 366 * 86_400


def test_twice_the_taps_of_an_hour_out_of_reach_are_about_twice_the_work(it):
    def dripped(taps: int) -> int:
        drop = {"cup": 1, "part": "line-0", "drops": 1}
        sent = [it.made(kind.DRIPPED, **drop) for _ in range(taps)]
        return calls_of(functools.partial(it.send, *sent))

    # Where every tap reads and folds all that came before it, it would be three times and more.
    few = dripped(100)
    assert dripped(200) < 2.4 * few
    assert it.guide().told.pour.cups[1].tint["line-0"].drops == 300


# --- taps that cannot be read

BROKEN: list[tuple[str, dict[str, Any], str]] = [
    ("sung_to", {"cup": 1}, "kind: must be one of ready_done, start_read"),
    (kind.HOT, {"cup": 1, "mood": "fine"}, "mood: is not known here; fields: cup"),
    (kind.HOT, {}, "cup: is required"),
    (kind.HOT, {"cup": 501}, "cup: must lie between 1 and 500"),
    (kind.HOT, {"cup": "one"}, "cup: must be a whole number"),
    (kind.BEGUN, {"cup": 1, "for_s": 1201}, "for_s: must lie between 1 and 1200 s (got 1201"),
    (READ, {"cup": 1, "read_c": 400.0}, "read_c: must lie between -10 and 260 °C (got 400"),
    (kind.FILLED, {"mold": 1, "cups": []}, "cups: must have 1 to 4 entries"),
    (kind.FILLED, {"mold": 1, "cups": [True]}, "cups[0]: must be a whole number (got True"),
    (kind.MORE, {"cups": [0]}, "cups: must lie between 1 and 500 (got 0"),
    (kind.TALLIED, {"came_out": "lovely", "n": 1}, "came_out: must be one of good, trimmed"),
    (kind.FILLED, {"mold": 1, "cups": [1, 9]}, "cup: must be one of 1 (got 9"),
    (kind.OPENED, {"mold": 3}, "mold: must be 1 to 2 (got 3"),
    (kind.TINTED, {"cup": 1, "part": "gold"}, "part: must be one of line-0, line-1, line-2, card"),
    (kind.DRIED, {}, "mold: name a mold or a tool, one of the two"),
    (kind.DRIPPED, {"cup": 1, "part": "line-0"}, "drops: give drops or what the bottle lost"),
]


@pytest.mark.parametrize(("kind_of", "body", "words"), BROKEN)
def test_a_tap_that_cannot_be_read_is_answered_in_words_and_the_others_are_kept(
    it, kind_of, body, words
):
    room, jug = (it.made(kind.READY, item=item) for item in ("room", "jug"))
    answer = it.send(room, it.made(kind_of, **body), jug)
    assert [k.kept for k in answer] == [True, False, True]
    assert answer[1].words.startswith(words)
    assert it.guide().told.pour.ready == {"room", "jug"}


def test_a_sheet_that_is_not_there_is_said_so(it):
    with pytest.raises(NotFound, match="no sheet 99"):
        PourPlayer(it.world, 99, it.clock).tap(kind.READY, item="room")


# --- overnight


def test_a_pour_put_away_with_a_hot_cup_begins_the_morning_with_a_cold_one(it):
    hot(it)
    for mold in (1, 2):
        it.tap(kind.FILLED, mold=mold, cups=[1])
    it.tap(kind.PUT_AWAY)
    it.clock.goes(14 * 3600)
    assert it.guide().hand.what is What.TAKE_UP
    it.step()
    # The clocks of the molds are long over; they are opened before anything is made ready.
    told = it.guide().told
    assert all(seconds_between(f.at, it.clock.at) > 13 * 3600 for f in told.firm)
    asked = [it.step().hand.what for _ in range(2 + len(told.setup.ready))]
    assert asked == [What.OPEN] * 2 + [What.READY] * len(told.setup.ready)
    morning = it.guide()
    assert (morning.hand.stage, morning.hand.what, morning.hand.cup) == (Stage.HEAT, What.COOK, 1)
    answer = morning.cups[1].answer
    assert answer.do is Next.HEAT
    assert answer.estimates.mean_c.typical < 60
    assert answer.pourable_s.high == 0
    # Once hot it needs no tint again, only the injector is cold.
    it.tap(kind.HOT, cup=1)
    assert it.to(What.PRIME).told.pour.cups[1].shots == 2


def test_a_cup_forgotten_in_the_oven_for_days_is_read_and_heated(it):
    weighed(it)
    it.tap(kind.READ_START)
    for item in ("room", "jug", "dry", "oven", "injector"):
        it.tap(kind.READY, item=item)
    it.tap(kind.BEGUN, cup=1, for_s=100.0)
    it.clock.goes(3 * 86_400)
    assert not it.tap(READ, cup=1, read_c=22.0).words
    guide = it.guide()
    assert guide.hand.what is What.COOK
    assert guide.cups[1].answer.do is Next.HEAT


# --- water


@pytest.mark.parametrize(("sort", "id"), [("mold", "demo-mold-worm"), ("cup", "demo-cup-pint")])
def test_a_wet_tool_stops_the_pour_until_somebody_says_it_is_dry(it, sort, id):
    with it.world.bench() as bench:
        stored = bench.records.get(sort, id)
        assert isinstance(stored.noun, Mold | Cup)
        wet = dataclasses.replace(stored.noun, wet=True)
        bench.records.save(sort, id, wet, expected_version=stored.version)
        bench.commit()
    assert it.guide().hand.what is What.DRY_TOOL
    assert not it.tap(kind.DRIED, sort=sort, id=id).words
    assert it.guide().hand.what is What.READY
    with it.world.bench() as bench:
        dry = bench.records.get(sort, id)
    assert isinstance(dry.noun, Mold | Cup)
    assert not dry.noun.wet
    # Taken back, it is as wet as before.
    it.tap(kind.TAKEN_BACK, event=it.events(kind.DRIED)[0].id)
    assert it.guide().hand.what is What.DRY_TOOL


def test_a_tool_that_is_no_longer_on_the_bench_does_not_lose_the_other_taps(it):
    room = it.made(kind.READY, item="room")
    answer = it.send(it.made(kind.DRIED, sort="mold", id="gone"), room)
    assert [k.kept for k in answer] == [True, True]


def test_a_mold_cooled_in_water_is_dried_before_it_is_filled_again(it):
    hot(it)
    for mold in (1, 2):
        it.tap(kind.FILLED, mold=mold, cups=[1])
        it.tap(kind.DIPPED, mold=mold)
    for mold in (1, 2):
        it.tap(kind.OPENED, mold=mold)
    assert it.guide().hand.what is What.DRY
    refused = it.tap(kind.FILLED, mold=1, cups=[1])
    assert "water flashes to steam" in refused.words
    assert not it.tap(kind.DRIED, mold=1).words
    found = it.guide().hand
    assert (found.what, found.mold) == (What.FILL, 1)


# --- molds


def test_a_soft_bait_prolongs_the_clocks_that_follow(it):
    hot(it)
    it.tap(kind.FILLED, mold=1, cups=[1])
    (reckoned,) = it.guide().told.firm
    it.clock.goes(reckoned.wait_s)
    it.tap(kind.SOFT, mold=1)
    (longer,) = it.guide().told.firm
    assert seconds_between(it.clock.at, longer.at) == 60
    it.tap(kind.FILLED, mold=2, cups=[1])
    second = next(f for f in it.guide().told.firm if f.mold == 2)
    assert second.longer == pytest.approx((reckoned.wait_s + 60) / reckoned.wait_s, rel=0.01)
    assert second.wait_s == pytest.approx(reckoned.wait_s + 60, rel=0.01)


def test_a_shot_of_two_layers_takes_its_share_out_of_each_cup(world):
    it = played(world, DEMO_LOT_DRAFT)
    for cup in (1, 2):
        weighed(it, cup=cup)
        it.tap(kind.BEGUN, cup=cup, for_s=60.0)
        it.clock.goes(80)
        it.tap(READ, cup=cup, read_c=66.0)
    before_g = {n: v.answer.left_g for n, v in it.guide().cups.items()}
    it.tap(kind.FILLED, mold=1, cups=[1, 2])
    (filled,) = it.events(kind.FILLED)
    guide = it.guide()
    assert sorted(filled.body["drawn_g"]) == ["1", "2"]
    for task in guide.told.setup.cups:
        drawn = filled.body["drawn_g"][str(task.number)]
        assert drawn == task.shot_g > 5
        left = guide.cups[task.number].answer.left_g
        assert left == pytest.approx(before_g[task.number] - drawn, abs=0.2)
        assert guide.told.pour.cups[task.number].shots == 1


# --- cups


def test_a_cup_given_up_leads_to_the_next_or_to_the_end(it):
    hot(it)
    it.tap(kind.DISCARDED, cup=1)
    assert it.guide().hand.stage is Stage.COUNT
    it.tap(kind.TAKEN_BACK, event=it.events(kind.DISCARDED)[0].id)
    assert it.guide().hand.what is What.FILL


def test_one_more_shot_is_asked_for_and_then_the_cup_is_empty(it):
    hot(it)
    shots = it.guide().told.setup.cups[0].shots
    for _ in range(shots):
        it.tap(kind.FILLED, mold=1, cups=[1])
        it.tap(kind.OPENED, mold=1)
    assert it.guide().hand.what is What.EMPTY
    it.tap(kind.MORE, cups=[1])
    assert it.guide().hand.what in {What.FILL, What.COOK}
    it.tap(kind.FILLED, mold=1, cups=[1])
    assert it.guide().hand.what is What.EMPTY
    it.tap(POURED, cup=1)
    assert it.guide().hand.stage is Stage.COOL


def test_a_reading_in_the_other_unit_is_asked_about_and_settled(it):
    weighed(it)
    it.to(What.OVEN)
    it.step()
    it.to(What.OVEN)
    guide = it.guide()
    it.clock.goes(guide.cups[1].answer.on_s + 15)
    meant = guide.cups[1].answer.reads_c.typical
    it.tap(READ, cup=1, read_c=round((meant - 32) / 1.8, 1))
    asked = it.guide()
    assert asked.hand.what is What.COOK
    assert asked.cups[1].answer.do is Next.READ_AGAIN
    assert asked.cups[1].answer.question is not None
    read = asked.cups[1].story.newest
    it.tap(MEANT, cup=1, event=read, read_c=meant)
    settled = it.guide()
    assert settled.cups[1].settled
    assert settled.cups[1].answer.do is Next.HEAT
    lost = it.tap(MEANT, cup=1, event="0" * 32, read_c=meant)
    assert lost.words == "cup 1 has no such reading"


def test_a_cup_too_small_to_be_followed_is_hot_when_its_reader_says_so(world):
    it = played(world, dataclasses.replace(DEMO_LOT_DRAFT, count=1))
    sheet = it.guide().told.setup.cups
    assert max(c.total_g for c in sheet) < 50
    for task in sheet:
        # What the scale showed leaves less than a cup can be followed with.
        wanted = task.weigh[0].grams
        half = 0.5 * wanted - 1.9
        it.tap(kind.PART_IN, cup=task.number, part="plastic", grams=half, wanted_g=wanted)
        it.tap(kind.PARTS_IN, cup=task.number)
    for item in ("room", "jug", "dry", "oven", "injector"):
        it.tap(kind.READY, item=item)
    it.tap(kind.READ_START)
    assert 1 not in it.guide().cups
    it.tap(kind.BEGUN, cup=1, for_s=20.0)
    it.clock.goes(30)
    assert it.tap(READ, cup=1, read_c=90.0).kept
    assert it.guide().hand.what is What.COOK
    it.tap(kind.HOT, cup=1)
    assert it.guide().hand.what is What.TINT


# --- the whole of it


def test_a_small_order_is_poured_from_the_first_glove_to_the_rack(it):
    end = it.to(What.DONE)
    assert end.told.pour.strays == ()
    assert all(cup.over for cup in end.told.pour.cups.values())
    (counted,) = it.events(COUNTED)
    entry = entry_of(counted.body)
    assert (entry.shots, entry.good) == (4, 16)
    assert entry.minutes is not None
    assert 10 < entry.minutes < 60
    reads = [s["read_c"] for e in it.events(WORKED) for s in e.body["steps"] if s["did"] == "read"]
    assert max(reads) < 200
    with it.world.bench() as bench:
        assert bench.ledger.check() > 40


def test_a_finish_that_the_stock_refused_is_kept_and_booked_by_counting_again(it, monkeypatch):
    it.to(What.COUNTED)
    before = stock_of(it.world)
    with monkeypatch.context() as patch:
        patch.setattr(SqlStock, "post", without_made(SqlStock.post))
        kept = it.tap(COUNT_CLOSED)
    assert (kept.kept, kept.words) == (True, "no room in the books")
    assert stock_of(it.world) == before
    with it.world.bench() as bench:
        view = lot_view(bench, it.sheet)
        entry = view.lot.entry
        assert entry is not None
        assert pour_books(bench, view.sheet, entry).behind
    assert UNBOOKED in said_at_the_bench(it)
    enter_lot(it.world, it.sheet, entry)
    with it.world.bench() as bench:
        assert bench.stock.lot(view.sheet.code).pieces == entry.good == 16
        moves = bench.stock.moves(cause=sheet_cause(it.sheet))
        assert [m.kind for m in moves].count(MoveKind.MADE) == 1
        assert not pour_books(bench, view.sheet, entry).behind
    assert said_at_the_bench(it) == ()


def test_a_finish_says_what_the_books_had_less_of_than_was_used(it):
    it.to(What.COUNTED)
    with it.world.bench() as bench:
        (stored, *_) = [s for s in bench.records.all("plastic") if s.id == "demo-plastic-medium"]
        noun = dataclasses.replace(stored.noun, on_hand_g=1.0)
        bench.records.save("plastic", stored.id, noun, expected_version=stored.version)
        need = bench.sheets.get(it.sheet).plan["shelf"][0]["need_g"]
        bench.commit()
    kept = it.tap(COUNT_CLOSED)
    short = round(need * 1000) - 1000
    assert kept.words == (
        f"the books had {short / 1000:g} g less than was used of {stored.noun.name}: count it"
    )
    assert said_at_the_bench(it) == (f"T{kept.words[1:]}.",)


def said_at_the_bench(it: PourPlayer) -> tuple[str, ...]:
    return state_of(it.guide(), Settings()).said


def stock_of(world: World) -> tuple[object, ...]:
    with world.bench() as bench:
        return bench.stock.lots(), bench.stock.moves()


def without_made(post):
    def refusing(self, *moves):
        if any(m.kind is MoveKind.MADE for m in moves):
            raise Conflict("no room in the books")
        post(self, *moves)

    return refusing
