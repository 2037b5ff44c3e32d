"""What the bench may never let happen to hot plastic, one story each."""

from __future__ import annotations

import dataclasses
import json

import pytest

from pour_player import PourPlayer, SetClock
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import World
from pourwright.actions.tap_event import Tap
from pourwright.base.band import Band
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.hand import What
from pourwright.bench.tap_body import READ
from pourwright.plan.opening import ring_s
from pourwright.shop.mold import Mold
from pourwright.web.bench.screen import Pad
from pourwright.web.bench.sent_taps import sent_taps
from pourwright.web.bench.state import State, state_of
from pourwright.web.show import Settings

EIGHT = dataclasses.replace(DEMO_DRAFT, count=8)


@pytest.fixture
def it(world: World, clock: SetClock) -> PourPlayer:
    return PourPlayer(world, freeze_sheet(world, EIGHT).number, clock)


def state(it: PourPlayer) -> State:
    return state_of(it.guide(), Settings())


def pads(it: PourPlayer) -> list[Pad]:
    return [pad for phase in state(it).screen.phases for pad in phase.pads]


def wet_mold(it: PourPlayer) -> bool:
    with it.world.bench() as bench:
        noun = bench.records.get("mold", "demo-mold-worm").noun
    assert isinstance(noun, Mold)
    return noun.wet


def test_trouble_halts_everything_and_the_oven_counts_as_off(it: PourPlayer) -> None:
    it.to(What.OVEN)
    it.clock.goes(20)
    assert it.tap(kind.WRONG, what="hot", note="").kept
    guide = it.guide()
    assert guide.hand.what is What.HALTED
    oven = guide.told.pour.in_oven
    assert oven is not None
    assert oven.burst is not None
    assert oven.burst.ended == it.clock.at
    ran_s = seconds_between(oven.burst.began, it.clock.at)
    assert 20 <= ran_s < oven.burst.for_s
    (screen,) = {p.name for p in state(it).screen.phases}
    assert screen == "Too hot or smoking"
    assert not any(pad.kind == kind.BEGUN for pad in pads(it))
    it.tap(kind.WENT_ON)
    assert it.guide().hand.what is What.OVEN
    assert it.tap(READ, cup=1, read_c=40.0).words == ""
    heated = it.guide().told.pour.stories[1].steps[0]
    assert heated.for_s == ran_s


def test_a_phone_alone_is_led_from_trouble_to_the_halt(it: PourPlayer) -> None:
    it.to(What.OVEN)
    found = state(it)
    for one in found.wrong:
        assert one.pad.next is not None
        assert found.ahead[one.pad.next].step == "Stopped"


def test_the_heat_of_a_burst_that_ran_is_not_undone_by_a_press(it: PourPlayer) -> None:
    it.to(What.OVEN)
    it.clock.goes(5)
    undo = state(it).undo
    assert undo is not None
    assert undo.words.startswith("Oven started")
    it.clock.goes(30)
    assert state(it).undo is None
    never = next(pad for pad in pads(it) if pad.label == "The oven never ran")
    assert never.hold
    it.tap(never.kind, **never.body)
    assert it.guide().hand.what is What.COOK


def test_a_pour_is_not_put_away_from_a_heating_cup(it: PourPlayer) -> None:
    it.to(What.OVEN)
    assert not any(pad.kind == kind.PUT_AWAY for pad in state(it).held)
    assert "is in the oven" in it.tap(kind.PUT_AWAY).words
    assert it.guide().hand.what is What.OVEN


def test_a_weight_with_the_cup_on_the_scale_is_asked_about(it: PourPlayer) -> None:
    it.to(What.WEIGH)
    (part, *_) = it.guide().told.setup.cups[0].weigh
    kept = it.tap(kind.PART_IN, cup=1, part="plastic", grams=part.grams + 540, wanted_g=part.grams)
    assert not kept.kept
    assert "was the cup tared?" in kept.words
    assert it.guide().hand.what is What.WEIGH
    near = it.tap(kind.PART_IN, cup=1, part="plastic", grams=part.grams * 1.2, wanted_g=1.0)
    assert near.kept
    (event,) = it.events(kind.PART_IN)
    assert event.body["wanted_g"] == pytest.approx(part.grams)


def test_a_cup_that_cannot_be_followed_is_never_told_how_long_to_heat(it: PourPlayer) -> None:
    it.to(What.COOK)
    first = next(pad for pad in pads(it) if pad.kind == kind.BEGUN)
    guide = it.guide()
    assert first.body["for_s"] == guide.cups[1].answer.on_s
    unfollowed = dataclasses.replace(guide, cups={}, told=_heated(it))
    words = state_of(unfollowed, Settings()).screen.phases[0]
    assert words.name == "By the paper"
    assert not any(pad.kind == kind.BEGUN for pad in words.pads)


def _heated(it: PourPlayer):
    it.tap(kind.BEGUN, cup=1, for_s=60.0)
    it.clock.goes(80)
    it.tap(READ, cup=1, read_c=40.0)
    return it.guide().told


def test_no_main_pad_answers_for_the_unit_and_the_colder_answer_is_held(it: PourPlayer) -> None:
    it.to(What.OVEN)
    oven = it.guide().told.pour.in_oven
    assert oven is not None
    assert oven.burst is not None
    it.clock.goes(oven.burst.for_s + 15)
    expected = it.guide().cups[1].answer.reads_c.typical
    # The thermometer showed whole degrees Celsius, and they were typed as Fahrenheit.
    sent = {
        "sent_at": it.clock.at,
        "taps": [{"id": "a" * 32, "kind": READ, "at": it.clock.at,
                  "body": {"cup": 1, "read": round(expected), "read_unit": "f"}}],
    }  # fmt: skip
    it.send(*sent_taps(json.dumps(sent).encode()).taps)
    phase = state(it).screen.phases[0]
    assert phase.name == "Which unit?"
    assert not any(pad.main for pad in phase.pads)
    # Whether the cup is hot then is for the laptop to say: a phone that waits for it foresees none.
    assert [pad.next for pad in phase.pads] == [None, None]
    colder = min(phase.pads, key=lambda pad: pad.body["read_c"])
    assert colder.hold
    assert max(pad.body["read_c"] for pad in phase.pads) == pytest.approx(expected, abs=1)


def test_a_mold_cooled_in_water_is_wet_for_the_next_pour_too(it: PourPlayer) -> None:
    it.to(What.OPEN)
    assert any(pad.kind == kind.DIPPED for pad in pads(it))
    first = it.tap(kind.DIPPED, mold=1)
    assert wet_mold(it)
    it.tap(kind.TAKEN_BACK, event=first.id)
    assert not wet_mold(it)
    it.tap(kind.DIPPED, mold=1)
    it.tap(kind.OPENED, mold=1)
    it.tap(kind.OPENED, mold=2)
    assert it.guide().hand.what in {What.FILL, What.COOK, What.EMPTY}
    it.tap(kind.DRIED, mold=1)
    assert not wet_mold(it)


def test_a_tap_is_dated_by_the_laptop_s_time_and_not_by_when_it_got_through(it: PourPlayer) -> None:
    made = it.clock.at
    it.clock.goes(196)
    # Sent at once, but the laptop was stalled for 196 s before it took it in.
    stuck = Tap("b" * 32, kind.READY, made, {"item": "room"}, laptop_at=made)
    (kept,) = it.send(stuck, sent_at=made)
    assert kept.kept
    (event,) = it.events(kind.READY)
    assert event.at == made
    assert event.body["sent_late_s"] == 196
    assert "clock_off_s" not in event.body
    assert not any("clock" in words for words in state(it).said)


def test_the_clock_of_a_mold_rings_when_four_in_five_are_firm() -> None:
    # Standard normal quantiles 0.8416 and 1.6449: NIST/SEMATECH e-Handbook, 1.3.6.7.1.
    assert ring_s(Band(128, 201, 319)) == pytest.approx(
        201 * (319 / 201) ** (0.8416 / 1.6449), 1e-3
    )
    assert ring_s(Band(100, 100, 100)) == 100


def test_the_same_step_with_another_mold_full_is_another_screen(it: PourPlayer) -> None:
    it.to(What.FILL)
    before = state(it).screen.key
    it.tap(kind.DIPPED, mold=2)
    assert state(it).screen.key != before


def test_a_cup_that_stood_unstirred_is_read_before_it_is_warmed_again(it: PourPlayer) -> None:
    it.to(What.FILL)
    it.clock.goes(400)
    assert it.guide().hand.what is What.COOK
    (phase,) = state(it).screen.phases
    assert phase.name == "Stir and read"
    assert not any(pad.kind == kind.BEGUN for pad in phase.pads)
    mean_c = it.guide().cups[1].answer.estimates.mean_c.typical
    it.tap(READ, cup=1, read_c=round(mean_c, 1))
    assert any(pad.kind == kind.BEGUN for pad in pads(it))
