"""A reading at the bench as a round of its cup; times are reckoned by hand."""

from __future__ import annotations

import dataclasses

import pytest

from pour_moves import setup_of
from pourwright.bench.cup_story import CupStory, Entry
from pourwright.bench.fold_pour import pour_of
from pourwright.bench.pour import Burst, Pour
from pourwright.bench.reading import reading_entry
from pourwright.bench.tap_body import CupRead
from pourwright.heat.history import LONGEST_REST_S, Did, Instrument, Step, timed

DAY = "2026-03-07T"
BURST = Burst("burst", f"{DAY}10:00:00Z", 60.0)
LAST = Entry("last", f"{DAY}09:50:00Z", (Step(did=Did.STIRRED, at_s=0.0),))


def pour(burst: Burst | None = BURST, *, over: bool = False, entry: Entry | None = None) -> Pour:
    fresh = pour_of(setup_of({"body": (3,)}, molds=1), [])
    cup = dataclasses.replace(fresh.cups[1], burst=burst, over=over, by_hand=True)
    stories = {1: CupStory(1, (entry,))} if entry else {}
    return dataclasses.replace(fresh, cups={1: cup}, stories=stories)


def read(it: Pour, at: str, *, after: str | None = None, cup: int = 1) -> Entry | None:
    body = CupRead(cup=cup, read_c=158.0, after=after)
    return reading_entry(it, body, id="r", at=f"{DAY}{at}Z" if len(at) == 8 else at)


def told(entry: Entry | None) -> list[tuple[Did, float | None, float | None]]:
    assert entry is not None
    return [(s.did, s.at_s, s.for_s) for s in entry.steps]


def test_a_round_counts_from_the_start_of_the_oven():
    entry = read(pour(), "10:01:30")
    assert entry is not None
    assert entry.at == BURST.began
    assert told(entry) == [
        (Did.HEATED, 0.0, 60.0), (Did.STIRRED, 90.0, None), (Did.READ, 90.0, None),
    ]  # fmt: skip
    assert entry.steps[-1].read_c == 158.0
    assert entry.steps[-1].while_stirring
    assert not entry.late


@pytest.mark.parametrize(
    ("ended", "at", "heated", "stirred"),
    [
        ("10:00:40", "10:01:00", 40.0, 60.0),
        ("", "10:00:30", 30.0, 30.0),
        ("", "10:00:00", 1.0, 1.0),
    ],
)
def test_an_oven_stopped_or_read_early_heated_only_so_long(ended, at, heated, stirred):
    stopped = dataclasses.replace(BURST, ended=f"{DAY}{ended}Z" if ended else "")
    assert told(read(pour(stopped), at))[:2] == [
        (Did.HEATED, 0.0, heated), (Did.STIRRED, stirred, None),
    ]  # fmt: skip


def test_without_a_burst_the_cup_is_stirred_and_read_again():
    entry = read(pour(None, entry=LAST), "10:01:30", after="last")
    assert entry is not None
    assert entry.at == f"{DAY}10:01:30Z"
    assert told(entry) == [(Did.STIRRED, 0.0, None), (Did.READ, 0.0, None)]


def test_a_screen_of_a_moment_that_has_passed_closes_no_round():
    assert read(pour(), "10:01:30", after="burst") is not None
    assert read(pour(), "10:01:30", after="an older burst") is None
    assert read(pour(None, entry=LAST), "10:01:30", after="burst") is None
    assert read(pour(None), "10:01:30", after="last") is None
    assert read(pour(None), "10:01:30", after="") is not None


def test_a_cup_that_is_over_or_unknown_closes_no_round():
    assert read(pour(over=True), "10:01:30") is None
    assert read(pour(), "10:01:30", cup=2) is None


@pytest.mark.parametrize("at", [f"{DAY}18:00:00Z", "2026-03-10T10:00:00Z"])
def test_a_cup_left_in_the_oven_for_hours_or_days_can_still_be_read(at):
    entry = read(pour(), at)
    assert told(entry)[2] == (Did.READ, 60.0 + LONGEST_REST_S, None)
    assert entry is not None
    assert timed(entry.steps, 400.0)


def test_what_it_was_read_with_is_kept():
    body = CupRead(cup=1, read_c=158.0, instrument=Instrument.PROBE)
    entry = reading_entry(pour(), body, id="r", at=f"{DAY}10:01:30Z")
    assert entry is not None
    assert entry.steps[-1].instrument is Instrument.PROBE
