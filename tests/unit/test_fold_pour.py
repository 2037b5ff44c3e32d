"""Events of a pour folded into where it stands: one story each."""

from __future__ import annotations

from typing import Any

import pytest

from pour_moves import setup_of
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after
from pourwright.bench.cup_story import MEANT, POURED, WORKED, Entry, Happening, worked_body
from pourwright.bench.fold_pour import pour_of
from pourwright.bench.pour import Pour
from pourwright.bench.pour_setup import Part, PourSetup
from pourwright.bench.tap_body import READ, KeptBack
from pourwright.heat.history import Did, Step
from pourwright.shop.lot import COUNTED

TEN = "2026-03-07T10:00:00Z"
ONE_LAYER = setup_of({"body": (3, 2)}, molds=2)
TWO_LAYERS = setup_of({"back": (2,), "belly": (2,)}, molds=1)


class Pourer:
    """Tells events one after the other, ten seconds apart; ids are `e1`, `e2` and so on."""

    def __init__(self, setup: PourSetup = ONE_LAYER) -> None:
        self.setup = setup
        self.events: list[Happening] = []

    def tells(self, kind_of: str, /, **body: Any) -> str:
        key = f"e{len(self.events) + 1}"
        at = after(TEN, 10 * (len(self.events) + 1))
        self.events.append(Happening(key, kind_of, at, body))
        return key

    def heats(self, cup: int = 1) -> None:
        self.tells(kind.BEGUN, cup=cup, for_s=60.0)
        self.reads(cup)

    def reads(self, cup: int = 1) -> str:
        done = Step(did=Did.READ, at_s=0.0, read_c=171.0)
        return self.tells(WORKED, **worked_body(cup, Entry("", TEN, (done,))))

    def fills(self, mold: int, *cups: int) -> str:
        return self.tells(kind.FILLED, mold=mold, drawn_g={str(n): 20.0 for n in cups})

    @property
    def pour(self) -> Pour:
        return pour_of(self.setup, self.events)

    def why(self, key: str) -> str:
        return next((s.why for s in self.pour.strays if s.id == key), "")


@pytest.fixture
def it() -> Pourer:
    return Pourer()


@pytest.fixture
def layered() -> Pourer:
    made = Pourer(TWO_LAYERS)
    made.heats(1)
    made.heats(2)
    return made


# --- two phones


def test_the_same_step_on_two_phones_is_kept_twice_and_counts_once(it):
    it.tells(kind.PART_IN, cup=1, part="salt", grams=4.0, wanted_g=4.0)
    second = it.tells(kind.PART_IN, cup=1, part="salt", grams=4.2, wanted_g=4.0)
    assert it.pour.cups[1].weighed == {"salt": 4.0}
    assert it.why(second) == "it was in already: tapped twice, or on two phones"


def test_a_mold_said_to_be_full_on_two_phones_draws_from_the_cup_once(it):
    it.heats()
    it.fills(1, 1)
    second = it.fills(1, 1)
    assert it.why(second).startswith("mold 1 was full already")
    assert it.pour.cups[1].shots == 1
    drawn = [s.mass_g for s in it.pour.stories[1].steps if s.did is Did.DRAWN]
    assert drawn == [20.0]
    it.tells(kind.OPENED, mold=1)
    it.fills(1, 1)
    assert [s.mass_g for s in it.pour.stories[1].steps if s.did is Did.DRAWN] == [20.0, 20.0]


def test_a_mold_opened_on_two_phones_is_opened_once(it):
    it.heats()
    it.fills(2, 1)
    first = it.tells(kind.OPENED, mold=2)
    second = it.tells(kind.OPENED, mold=2)
    assert it.pour.uses[0].opened == next(e.at for e in it.events if e.id == first)
    assert it.why(second).startswith("mold 2 was empty already")


def test_a_reading_that_found_no_round_is_kept_and_says_why(it):
    it.heats()
    late = it.tells(READ, cup=1, read_c=160.0, instrument="infrared", after="e0")
    assert it.why(late) == "cup 1 was read already: tapped twice, or on two phones"
    it.tells(POURED, cup=1)
    later = it.tells(READ, cup=1, read_c=160.0, instrument="infrared", after=None)
    assert it.why(later) == "cup 1 was done with already"


# --- what the sheet does not have


@pytest.mark.parametrize(
    ("kind_of", "body", "why"),
    [
        (kind.BEGUN, {"cup": 9, "for_s": 60.0}, "this sheet has no cup 9"),
        (kind.FILLED, {"mold": 9, "drawn_g": {"1": 20.0}}, "this sheet has no mold 9"),
        (kind.FILLED, {"mold": 1, "drawn_g": {"1": 20.0}}, "cup 1 was never heated"),
        (kind.READY, {"item": "moon"}, "there is nothing called 'moon' to make ready"),
        (
            kind.PART_IN,
            {"cup": 1, "part": "gold", "grams": 1.0},
            "nothing called 'gold' is weighed",
        ),
        (kind.TINTED, {"cup": 1, "part": "gold"}, "nothing called 'gold' tints cup 1"),
        (kind.ENDED, {"cup": 1}, "no oven was running on it"),
        (kind.HOT, {"cup": 1}, "cup 1 was never heated"),
        (kind.SOFT, {"mold": 1}, "mold 1 was empty already"),
        (kind.DRIED, {"mold": 1}, "mold 1 was not wet"),
        (kind.TAKEN_OFF, {}, "nothing hangs"),
        (kind.TAKEN_UP, {}, "the pour was not put away"),
        (MEANT, {"cup": 1, "event": "e7", "read_c": 70.0}, "cup 1 has no such reading"),
        (kind.TAKEN_BACK, {"event": "e7"}, "what it takes back was never kept"),
    ],
)
def test_what_cannot_be_is_kept_and_says_why(it, kind_of, body, why):
    stray = it.tells(kind_of, **body)
    assert it.why(stray).startswith(why)
    assert it.pour.newest is None


def test_a_shot_from_a_cup_the_sheet_does_not_have_leaves_the_pour_readable(it):
    it.heats()
    stray = it.tells(kind.FILLED, mold=1, drawn_g={"1": 20.0, "7": 0.0})
    assert it.why(stray) == "this sheet has no cup 7"
    assert it.pour.cups[1].shots == 0
    assert 7 not in it.pour.stories


def test_only_one_cup_at_a_time_is_in_the_oven(it):
    it.tells(kind.BEGUN, cup=1, for_s=60.0)
    second = it.tells(kind.BEGUN, cup=2, for_s=60.0)
    assert it.why(second) == "cup 1 is in the oven and was not read yet"
    it.reads(1)
    it.tells(kind.BEGUN, cup=2, for_s=60.0)
    assert it.pour.in_oven is not None
    assert it.pour.in_oven.number == 2


# --- water


def test_a_mold_cooled_in_water_takes_no_plastic_until_it_is_dry(it):
    it.heats()
    it.fills(1, 1)
    it.tells(kind.DIPPED, mold=1)
    it.tells(kind.OPENED, mold=1)
    refused = it.fills(1, 1)
    assert "water flashes to steam" in it.why(refused)
    it.tells(kind.DRIED, mold=1)
    assert not it.why(it.fills(1, 1))
    assert it.pour.cups[1].shots == 2


# --- layers


def test_a_shot_of_two_layers_draws_from_both_cups(layered):
    layered.fills(1, 1, 2)
    assert [c.shots for c in layered.pour.cups.values()] == [1, 1]
    assert len(layered.pour.uses) == 1
    for number in (1, 2):
        steps = layered.pour.stories[number].steps
        assert [s.mass_g for s in steps if s.did is Did.DRAWN] == [20.0]


def test_one_more_shot_is_one_more_of_each_cup(layered):
    layered.tells(kind.MORE, cups=[1, 2])
    assert [c.more for c in layered.pour.cups.values()] == [1, 1]


def test_a_cup_given_up_takes_no_more_and_is_out_of_the_oven(it):
    it.tells(kind.BEGUN, cup=1, for_s=60.0)
    it.tells(kind.DISCARDED, cup=1)
    assert it.pour.in_oven is None
    assert it.pour.cups[1].discarded
    assert it.why(it.reads(1)) == "cup 1 was done with already"


# --- tint


def test_drops_and_grams_of_a_tint_add_up_until_it_is_all_in(it):
    for more in ({"drops": 2, "lost_g": None}, {"drops": None, "lost_g": 0.08}):
        it.tells(kind.DRIPPED, cup=1, part="line-0", **more)
    found = it.pour.cups[1].tint["line-0"]
    green = Part("line-0", "Green", 0.2, 0.2, drops=5, drop_g=0.04)
    assert green.dripped(found.drops, found.grams) == 4
    it.tells(kind.TINTED, cup=1, part="line-0")
    late = it.tells(kind.DRIPPED, cup=1, part="line-0", drops=1, lost_g=None)
    assert it.why(late) == "that was all in already"


# --- taken back


def test_what_leaned_on_an_event_that_was_taken_back_becomes_a_stray(it):
    begun = it.tells(kind.BEGUN, cup=1, for_s=60.0)
    ended = it.tells(kind.ENDED, cup=1)
    back = it.tells(kind.TAKEN_BACK, event=begun)
    assert it.why(ended) == "no oven was running on it"
    it.tells(kind.TAKEN_BACK, event=back)
    assert not it.why(ended)
    assert it.pour.newest is not None
    assert it.pour.newest.id == ended


def test_the_newest_that_fits_is_what_would_be_taken_back(it):
    it.tells(kind.READY, item="room")
    it.tells(kind.READY, item="room")
    assert it.pour.newest is not None
    assert it.pour.newest.id == "e1"
    assert it.pour.began_at == it.events[0].at


def test_a_unit_that_was_meant_settles_the_reading_it_names(it):
    it.tells(kind.BEGUN, cup=1, for_s=60.0)
    read = it.reads(1)
    it.tells(MEANT, cup=1, event=read, read_c=77.0)
    entry = it.pour.stories[1].entries[-1]
    assert entry.settled
    assert entry.steps[-1].read_c == 77.0


# --- the end, and the night


def test_a_count_is_made_once_and_says_what_it_was(it):
    it.tells(kind.TALLIED, came_out="good", n=31)
    again = it.tells(kind.TALLIED, came_out="good", n=33)
    assert it.pour.tally == {"good": 31}
    assert it.why(again) == "good was counted already as 31; take that back first"
    it.tells(kind.KEPT_BACK, remelt_g=64.0, sprue_g=None)
    assert it.pour.back == KeptBack(remelt_g=64.0, sprue_g=None)
    it.tells(COUNTED, shots=3)
    assert it.pour.counted


def test_taken_up_again_everything_is_made_ready_and_warmed_anew(it):
    it.tells(kind.READY, item="room")
    it.heats()
    it.tells(kind.HOT, cup=1)
    it.tells(kind.PRIMED, cup=1)
    it.tells(kind.PART_IN, cup=2, part="salt", grams=4.0, wanted_g=4.0)
    it.tells(kind.PUT_AWAY)
    it.events.append(Happening("up", kind.TAKEN_UP, "2026-03-08T09:01:00Z", {}))
    pour = it.pour
    assert pour.ready == frozenset()
    assert (pour.cups[1].hot, pour.cups[1].primed) == (False, False)
    assert pour.cups[2].weighed == {"salt": 4.0}
    assert pour.away_s == 23 * 3600 - 10
    assert not pour.away_since


def test_trouble_is_stamped_and_changes_nothing_else(it):
    it.tells(kind.WRONG, what="spilled", note="")
    assert [(t.what, t.at) for t in it.pour.troubles] == [("spilled", it.events[0].at)]
    assert it.pour.cups == pour_of(ONE_LAYER, []).cups
