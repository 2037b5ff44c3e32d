"""What was done to a cup, folded from its events, entered, taken back, and learned from."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

import pytest

from pourwright import wire
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.heat_cup import mean_unit, pour_cup, step_cup, undo_cup
from pourwright.actions.oven_history import MOST_CUPS, cooked_cups
from pourwright.actions.oven_learned import lot_lesson, oven_learned
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import World
from pourwright.actions.see_cup import see_cup
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.base.record import from_json
from pourwright.bench.cup_story import (
    UNDONE,
    WORKED,
    CupStory,
    Entry,
    Happening,
    cup_stories,
    worked_body,
)
from pourwright.bench.round_entry import RoundEntry, entry
from pourwright.forecast.heat import oven_belief
from pourwright.forecast.request import BatchRequest, OvenPart
from pourwright.heat.history import LONGEST_REST_S, Did, Instrument, Step, timed
from pourwright.heat.next_step import REST_S, Next
from pourwright.shop.tool import Microwave, Thermometer, ThermometerKind

OVEN = "demo-oven-small"
DAY = "2026-03-07T"


class SetClock:
    """A clock that stands where it was set."""

    def __init__(self, at: str) -> None:
        self.at = at

    def now(self) -> str:
        return f"{DAY}{self.at}Z"

    def moment(self) -> str:
        return f"{DAY}{self.at}.000Z"


@pytest.fixture
def clock() -> SetClock:
    return SetClock("10:00:00")


@pytest.fixture
def world(tmp_path: Path, clock: SetClock) -> World:
    made = dataclasses.replace(wire.world(tmp_path / "bench.db"), clock=clock)
    wire.fill_demo_if_empty(made)
    return made


@pytest.fixture
def sheet(world: World) -> int:
    return freeze_sheet(world, DEMO_DRAFT).number


def worked(id: str, at: str, *steps: Step, cup: int = 1, late: bool = False) -> Happening:
    done = Entry(id, f"{DAY}{at}Z", steps, late=late)
    return Happening(id, WORKED, done.at, worked_body(cup, done))


def heated(for_s: float, at_s: float | None = 0.0) -> Step:
    return Step(did=Did.HEATED, at_s=at_s, for_s=for_s)


def read(read_c: float, at_s: float | None = 0.0) -> Step:
    return Step(did=Did.READ, at_s=at_s, read_c=read_c)


def lengths(story: CupStory) -> list[tuple[Did, float]]:
    return [(s.did, s.lasted_s) for s in timed(story.steps, 400.0)]


def sent(world: World, sheet: int, *, cup: int = 1, **done: object):
    made = RoundEntry(**done)  # type: ignore[arg-type]
    return step_cup(world, sheet, cup, made, event_id=world.ids.fresh())


# --- the fold


def test_rests_follow_from_the_clock():
    told = [
        worked("a", "10:00:00", heated(70), read(58, 85)),
        worked("b", "10:02:05", heated(60), read(100, 80)),
    ]
    story = cup_stories(told)[1]
    assert story.started_at == f"{DAY}10:00:00Z"
    assert lengths(story) == [
        (Did.HEATED, 70), (Did.RESTED, 15), (Did.READ, 0),
        (Did.RESTED, 40), (Did.HEATED, 60), (Did.RESTED, 20), (Did.READ, 0),
    ]  # fmt: skip


def test_the_same_event_twice_is_one_and_cups_are_kept_apart():
    one, two = worked("a", "10:00:00", heated(70)), worked("b", "10:00:10", heated(30), cup=2)
    told = cup_stories([one, two, one])
    assert [len(told[n].entries) for n in (1, 2)] == [1, 1]
    assert lengths(told[2]) == [(Did.HEATED, 30)]


def test_an_entry_taken_back_is_gone_and_the_rest_stays():
    first, second = worked("a", "10:00:00", heated(70)), worked("b", "10:03:00", heated(500))
    undo = Happening("c", UNDONE, f"{DAY}10:12:00Z", {"cup": 1, "event": "b"})
    assert lengths(cup_stories([first, second, undo])[1]) == [(Did.HEATED, 70)]
    assert cup_stories([first, second, undo, second])[1].newest == "a"


def test_other_events_of_a_lot_are_left_alone():
    assert cup_stories([Happening("x", "counted", f"{DAY}10:00:00Z", {"shots": 3})]) == {}


def test_notes_have_no_clock_and_what_follows_starts_it_anew():
    told = [
        worked("a", "10:00:00", heated(70, None), read(58, None), late=True),
        worked("b", "10:00:20", heated(200, None), read(140, None), late=True),
        worked("c", "10:00:30", heated(40), read(160, 55)),
        worked("d", "10:02:00", heated(20)),
    ]
    assert [x for x in lengths(cup_stories(told)[1]) if x[0] is not Did.READ] == [
        (Did.HEATED, 70), (Did.HEATED, 200), (Did.HEATED, 40), (Did.RESTED, 15),
        (Did.RESTED, 35), (Did.HEATED, 20),
    ]  # fmt: skip


def test_notes_between_two_clocks_keep_the_rests_of_both():
    told = [
        worked("a", "10:00:00", heated(70)),
        worked("b", "10:30:00", heated(200, None), late=True),
        worked("c", "10:40:00", heated(40)),
        worked("d", "10:41:00", heated(20)),
    ]
    assert lengths(cup_stories(told)[1]) == [
        (Did.HEATED, 70), (Did.HEATED, 200), (Did.HEATED, 40), (Did.RESTED, 20), (Did.HEATED, 20),
    ]  # fmt: skip


def test_a_night_counts_as_a_long_rest_and_the_clock_goes_on():
    told = [worked("a", "01:00:00", heated(70))]
    told += [worked("b", "20:00:00", heated(30)), worked("c", "20:01:00", heated(10))]
    assert lengths(cup_stories(told)[1])[1:] == [
        (Did.RESTED, LONGEST_REST_S), (Did.HEATED, 30), (Did.RESTED, 30), (Did.HEATED, 10),
    ]  # fmt: skip


# --- what a person enters


def test_a_round_just_over_ended_a_usual_rest_ago():
    done = RoundEntry(heated_s=70, read_c=58)
    made = entry(done, id="a", now=f"{DAY}10:01:25Z", started_ago_s=None, story=CupStory(1))
    assert made.at == f"{DAY}10:00:00Z"
    assert [(s.did, s.at_s) for s in made.steps] == [
        (Did.HEATED, 0), (Did.STIRRED, 70 + REST_S), (Did.READ, 70 + REST_S),
    ]  # fmt: skip


def test_a_running_clock_says_when_the_burst_began():
    done = RoundEntry(heated_s=70, read_c=58)
    made = entry(done, id="a", now=f"{DAY}10:05:00Z", started_ago_s=110.4, story=CupStory(1))
    assert made.at == f"{DAY}10:03:10Z"
    assert made.steps[-1].at_s == 110


def test_what_was_drawn_and_added_comes_before_the_burst():
    done = RoundEntry(heated_s=40, drawn_g=120, added_g=30, added_c=20)
    made = entry(done, id="a", now=f"{DAY}10:05:00Z", started_ago_s=None, story=CupStory(1))
    assert [s.did for s in made.steps] == [Did.DRAWN, Did.ADDED, Did.HEATED, Did.STIRRED]


def test_a_burst_that_is_not_over_is_refused():
    done = RoundEntry(heated_s=70)
    with pytest.raises(BadInput, match="more than the 30 s since the burst began"):
        entry(done, id="a", now=f"{DAY}10:05:00Z", started_ago_s=30, story=CupStory(1))


def test_an_entry_that_says_nothing_is_refused():
    with pytest.raises(BadInput, match="enter the seconds heated, a reading"):
        RoundEntry()


# --- the actions


def test_a_clock_that_runs_backwards_is_refused_in_words(world, clock, sheet):
    sent(world, sheet, heated_s=100, read_c=70)
    clock.at = "10:00:30"
    with pytest.raises(BadInput, match=r"run backwards by 70 s.*From notes") as refused:
        sent(world, sheet, heated_s=85, read_c=90)
    assert refused.value.field == "heated_s"
    assert len(see_cup(world, sheet, 1).story.entries) == 1
    sent(world, sheet, heated_s=85, read_c=90, late=True)
    assert len(see_cup(world, sheet, 1).story.entries) == 2


def test_a_round_sent_twice_is_kept_once_and_another_under_its_id_is_refused(world, clock, sheet):
    done, key = RoundEntry(heated_s=100, read_c=70), world.ids.fresh()
    once = step_cup(world, sheet, 1, done, event_id=key)
    clock.at = "10:00:09"
    assert step_cup(world, sheet, 1, done, event_id=key).story == once.story
    with pytest.raises(Conflict, match="another round"):
        step_cup(world, sheet, 1, RoundEntry(heated_s=100, read_c=71), event_id=key)


def test_an_empty_cup_is_not_heated(world, sheet):
    with pytest.raises(BadInput, match="an empty cup is not heated") as refused:
        sent(world, sheet, drawn_g=540)
    assert refused.value.field == "drawn_g"
    assert see_cup(world, sheet, 1).story.entries == ()


def test_a_sheet_has_only_its_own_cups(world, sheet):
    with pytest.raises(NotFound, match="has no cup 9"):
        see_cup(world, sheet, 9)


def test_only_the_newest_entry_is_taken_back(world, clock, sheet):
    first = sent(world, sheet, heated_s=100, read_c=70).story.newest
    clock.at = "10:05:00"
    second = sent(world, sheet, heated_s=60, read_c=100).story.newest
    with pytest.raises(Conflict, match="entered since"):
        undo_cup(world, sheet, 1, first, event_id=world.ids.fresh())
    for _ in range(2):
        undo_cup(world, sheet, 1, second, event_id=world.ids.fresh())
    assert [e.id for e in see_cup(world, sheet, 1).story.entries] == [first]


def test_a_poured_cup_takes_no_more_until_that_is_taken_back(world, sheet):
    with pytest.raises(BadInput, match="never heated"):
        pour_cup(world, sheet, 1, event_id=world.ids.fresh())
    sent(world, sheet, heated_s=100, read_c=70)
    pour_cup(world, sheet, 1, event_id=world.ids.fresh())
    with pytest.raises(Conflict, match="was poured"):
        sent(world, sheet, heated_s=20, late=True)
    newest = see_cup(world, sheet, 1).story.newest
    undo_cup(world, sheet, 1, newest, event_id=world.ids.fresh())
    assert not see_cup(world, sheet, 1).story.poured


def test_a_reading_in_the_wrong_unit_is_asked_about_and_put_right_without_loss(world, sheet):
    first = see_cup(world, sheet, 1).answer
    warm = sent(world, sheet, heated_s=first.on_s, read_c=first.reads_c.typical, late=True).answer
    wrong_c = (warm.reads_c.typical - 32) / 1.8  # °F typed where °C was asked
    asked = sent(world, sheet, heated_s=warm.on_s, read_c=wrong_c, late=True)
    assert asked.answer.do is Next.READ_AGAIN
    meant = asked.answer.readings[-1].meant_c
    assert meant == pytest.approx(warm.reads_c.typical)
    mean_unit(world, sheet, 1, asked.story.newest, meant, event_id=world.ids.fresh())
    seen = see_cup(world, sheet, 1)
    assert seen.settled
    assert seen.answer.question is None
    assert [r.read_c for r in seen.answer.readings][-1] == pytest.approx(meant)
    with pytest.raises(BadInput, match="must be -10 to 260"):
        mean_unit(world, sheet, 1, seen.story.newest, 300.0, event_id=world.ids.fresh())
    assert see_cup(world, sheet, 1).story == seen.story
    with pytest.raises(Conflict, match="no longer the newest"):
        mean_unit(world, sheet, 1, "0" * 32, meant, event_id=world.ids.fresh())


def test_a_cup_left_standing_a_minute_needs_more_heat(world, clock, sheet):
    sent(world, sheet, heated_s=100, read_c=68, late=False)
    at_once = see_cup(world, sheet, 1).answer
    clock.at = "10:01:30"
    later = see_cup(world, sheet, 1).answer
    assert at_once.do is later.do is Next.HEAT
    assert later.on_s > at_once.on_s
    assert later.estimates.mean_c.typical < at_once.estimates.mean_c.typical - 1
    assert later.readings == at_once.readings


def test_a_hot_cup_left_standing_unread_is_to_be_read_before_it_is_heated(world, clock, sheet):
    sent(world, sheet, heated_s=100, read_c=68, late=False)
    clock.at = "10:06:00"
    stood = see_cup(world, sheet, 1).answer
    assert stood.do is Next.STIR_AND_READ
    assert stood.on_s == 0


# --- what the oven's history does


def test_the_next_cup_rests_on_the_cups_before_it(world, sheet):
    assert see_cup(world, 1, 1).learned_from == 0
    assert see_cup(world, 1, 2).learned_from == 1
    fresh = see_cup(world, sheet, 1)
    assert fresh.learned_from == 2
    alone = dataclasses.replace(from_json(BatchRequest, fresh.sheet.request).oven, cups=())
    assert (
        oven_belief(alone).covariance[0][0]
        > 1.5 * (oven_belief(from_json(BatchRequest, fresh.sheet.request).oven).covariance[0][0])
    )


def test_only_the_last_cups_count_in_their_order(world, clock):
    for n in range(MOST_CUPS):
        clock.at = f"{10 + n // 4}:{n % 4 * 15:02}:00"
        number = freeze_sheet(world, DEMO_DRAFT).number
        sent(world, number, heated_s=90 + n, read_c=66)
    with world.bench() as bench:
        cups = cooked_cups(bench, OVEN)
    assert [c.history[0].for_s for c in cups] == [90 + n for n in range(MOST_CUPS)]


def test_a_cup_that_was_never_read_teaches_nothing(world, sheet):
    with world.bench() as bench:
        before = cooked_cups(bench, OVEN)
    sent(world, sheet, heated_s=100)
    with world.bench() as bench:
        assert cooked_cups(bench, OVEN) == before


def test_a_plan_uses_the_cups_of_its_oven_and_the_sheet_freezes_them(world):
    with world.bench() as bench:
        learned = plan_batch(bench, DEMO_DRAFT)
        other = plan_batch(bench, dataclasses.replace(DEMO_DRAFT, microwave="demo-oven-usual"))
    assert len(learned.request.oven.cups) == 2
    assert other.request.oven.cups == ()
    assert "2 cups followed by the thermometer" in learned.plan.heat[0].power.inputs


def test_an_old_sheet_without_cups_still_reads(world, sheet):
    with world.bench() as bench:
        frozen = bench.sheets.get(sheet)
    old = {**frozen.request, "oven": dict(frozen.request["oven"])}
    for name in ("cups", "instrument", "thermometer_spread_k"):
        del old["oven"][name]
    assert from_json(BatchRequest, old).oven.cups == ()


def test_a_lot_says_what_it_taught(world):
    with world.bench() as bench:
        lesson = lot_lesson(bench, bench.sheets.get(1))
    assert lesson is not None
    assert lesson.cups == 2
    assert -0.12 < lesson.share < 0
    assert lesson.after_s > lesson.before_s  # less power, longer burst


def test_a_lot_nobody_followed_taught_nothing(world, sheet):
    with world.bench() as bench:
        assert lot_lesson(bench, bench.sheets.get(sheet)) is None


def test_an_oven_that_lost_power_is_noticed(world, clock):
    clock.at = "11:00:00"
    number = freeze_sheet(world, DEMO_DRAFT).number
    cup = see_cup(world, number, 1).answer
    cold_c, rise_k = (
        cup.estimates.mean_c.typical,
        cup.reads_c.typical - cup.estimates.mean_c.typical,
    )
    for again in (cup.on_s, 0):
        sent(world, number, heated_s=again, read_c=cold_c + 0.6 * rise_k, late=True)
    with world.bench() as bench:
        noun = bench.records.get("microwave", OVEN).noun
        assert isinstance(noun, Microwave)
        learned = oven_learned(bench, OVEN, noun)
    assert [lesson.drifted for lesson in learned.lessons] == [False, False, True]
    assert [it.number for it in learned.cups] == [1, 2, 1]
    assert learned.lessons[2].power_w.high < learned.lessons[1].power_w.typical


# --- the thermometer


def test_a_probe_s_bias_is_the_probe_s(world):
    with world.bench() as bench:
        probe = Thermometer(
            name="Probe", reads=ThermometerKind.PROBE, bias_k=1.5, bias_spread_k=0.4
        )
        bench.records.save("thermometer", "p1", probe, expected_version=0)
        planned = plan_batch(bench, dataclasses.replace(DEMO_DRAFT, thermometer="p1"))
    oven = dataclasses.replace(planned.request.oven, cups=())
    assert oven.instrument is Instrument.PROBE
    belief = oven_belief(oven)
    at = belief.names.index("probe_bias_k")
    assert belief.mean[at] == 1.5
    assert belief.covariance[at][at] == pytest.approx(0.16)
    gun = belief.names.index("reading_bias_k")
    unchecked = oven_belief(dataclasses.replace(oven, thermometer_bias_k=None))
    assert belief.mean[gun] == unchecked.mean[gun]


def checked_within(spread_k: float) -> float:
    """Spread of what a gun reads above hot stirred plastic."""
    oven = OvenPart(label_w=700, thermometer_bias_k=2.0, thermometer_spread_k=spread_k)
    belief = oven_belief(oven)
    gun, film = (belief.names.index(n) for n in ("reading_bias_k", "film_k"))
    cov = belief.covariance
    return math.sqrt(cov[gun][gun] + cov[film][film] - 2 * cov[gun][film])


def test_how_well_a_gun_was_checked_reaches_the_belief():
    assert checked_within(0.3) < 0.3 < checked_within(1.2) < 1.2
