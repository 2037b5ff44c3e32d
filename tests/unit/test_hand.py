"""What the hands do next: one rule each, with times reckoned by hand."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

import pytest

from pour_moves import FIRM_S, setup_of
from pourwright.bench.clock import after
from pourwright.bench.hand import Due, Hand, Judged, Stage, What, next_hand, open_cups, shots_left
from pourwright.bench.pour import Burst, CupNow, Dripped, Hung, MoldUse, Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.tap_body import CameOut, Finish, KeptBack
from pourwright.heat.next_step import Next

NOW = "2026-03-07T10:00:00Z"
ONE = setup_of({"body": (3, 3)}, molds=2, injector=True)
TWO = setup_of({"back": (2,), "belly": (2,)}, molds=1)
POUR = Judged(Next.POUR, pourable_s=300.0)
COLD = Judged(Next.HEAT, on_s=40.0)


def cup(setup: PourSetup, number: int, **more: Any) -> CupNow:
    """A cup that is tinted, hot and primed unless said otherwise."""
    task = setup.cup(number)
    assert task is not None
    weighed = {p.key: p.grams for p in task.weigh}
    tint = {key: Dripped(done=True) for key in (*(p.key for p in task.tint), "card")}
    made = CupNow(number, weighed=weighed, by_hand=True, hot=True, tint=tint, primed=True)
    return dataclasses.replace(made, **more)


def pour(setup: PourSetup = ONE, *cups: CupNow, **more: Any) -> Pour:
    """Everything made ready; cups are fresh unless given."""
    given = {c.number: c for c in cups}
    all_cups = {c.number: given.get(c.number, CupNow(c.number)) for c in setup.cups}
    return Pour(cups=all_cups, ready=frozenset(setup.ready), **more)


def full(*molds: int, filled: str = NOW) -> tuple[MoldUse, ...]:
    return tuple(MoldUse(f"u{m}", m, filled) for m in molds)


def hand(
    it: Pour,
    setup: PourSetup = ONE,
    *,
    due: Mapping[int, int] | None = None,
    **judged: Judged,
) -> Hand:
    """`due` are seconds from now by mold; `cup1` and so on judge a cup."""
    clocks = tuple(Due(m, after(NOW, s)) for m, s in (due or {}).items())
    seen = {int(name.removeprefix("cup")): j for name, j in judged.items()}
    return next_hand(setup, it, now=NOW, judged=seen, due=clocks)


# --- before the heat


def test_things_are_made_ready_in_order_and_then_weighed():
    it = dataclasses.replace(pour(), ready=frozenset())
    asked = []
    for _ in ONE.ready:
        found = hand(it)
        assert found.what is What.READY
        asked.append(found.item)
        it = dataclasses.replace(it, ready=it.ready | {found.item})
    assert asked == ["room", "jug", "start", "dry", "oven", "injector"]
    assert hand(it) == Hand(Stage.WEIGH, What.WEIGH, cup=1, item="plastic")


def test_a_wet_tool_comes_before_all_else():
    setup = setup_of({"body": (1,)}, molds=1, wet=2)
    it = dataclasses.replace(pour(setup), ready=frozenset())
    assert hand(it, setup) == Hand(Stage.READY, What.DRY_TOOL, item="wet-0")
    it = dataclasses.replace(it, dried=frozenset({"wet-0"}))
    assert hand(it, setup).item == "wet-1"
    it = dataclasses.replace(it, dried=frozenset({"wet-0", "wet-1"}))
    assert hand(it, setup).what is What.READY


def test_every_cup_of_the_shot_is_weighed_before_the_first_is_heated():
    weighed = cup(TWO, 1, by_hand=False, hot=False, tint={}, primed=False)
    assert hand(pour(TWO, weighed), TWO) == Hand(Stage.WEIGH, What.WEIGH, cup=2, item="plastic")
    both = dataclasses.replace(weighed, number=2)
    assert hand(pour(TWO, weighed, both), TWO, cup1=COLD) == Hand(Stage.HEAT, What.COOK, cup=1)


def test_a_later_cup_of_the_same_layer_waits_its_turn():
    assert open_cups(ONE, pour(ONE)) == (1,)
    assert open_cups(ONE, pour(ONE, cup(ONE, 1, over=True))) == (2,)


# --- heat and tint


def test_a_cup_that_reads_hot_is_said_to_be_hot_then_tinted_then_dripped_on_the_card():
    it = cup(ONE, 1, hot=False, tint={})
    assert hand(pour(ONE, it), cup1=COLD).what is What.COOK
    assert hand(pour(ONE, it), cup1=Judged(Next.READ_ONCE_MORE)).what is What.COOK
    assert hand(pour(ONE, it), cup1=POUR) == Hand(Stage.HEAT, What.HOT, cup=1)
    it = dataclasses.replace(it, hot=True)
    asked = []
    for _ in range(3):
        found = hand(pour(ONE, it), cup1=POUR)
        assert found.stage is Stage.TINT
        asked.append((found.what, found.item))
        done = {found.item or "card": Dripped(done=True)}
        it = dataclasses.replace(it, tint={**it.tint, **done})
    assert asked == [(What.TINT, "line-0"), (What.TINT, "line-1"), (What.CARD, "")]


def test_nobody_leaves_a_heating_cup_for_a_mold_that_is_due():
    heating = cup(ONE, 1, burst=Burst("b", NOW, 60.0))
    it = pour(ONE, heating, uses=full(1))
    assert hand(it, due={1: -30}, cup1=COLD) == Hand(Stage.REWARM, What.OVEN, cup=1)
    first = dataclasses.replace(heating, hot=False)
    assert hand(pour(ONE, first), cup1=COLD).stage is Stage.HEAT


# --- molds


def test_the_mold_that_has_been_due_longest_is_opened_first():
    it = pour(ONE, cup(ONE, 1), uses=full(1, 2))
    assert hand(it, due={1: -5, 2: -30}, cup1=POUR) == Hand(Stage.COOL, What.OPEN, mold=2)


def test_a_cold_cup_is_warmed_before_a_free_mold_is_filled():
    cold = dataclasses.replace(COLD, pourable_s=0.0)
    assert hand(pour(ONE, cup(ONE, 1)), cup1=cold) == Hand(Stage.REWARM, What.COOK, cup=1)
    barely = dataclasses.replace(COLD, pourable_s=1.0)
    assert hand(pour(ONE, cup(ONE, 1)), cup1=barely).what is What.FILL


@pytest.mark.parametrize("do", [Next.STOP, Next.READ_AGAIN])
def test_a_cup_at_the_hot_limit_or_in_doubt_is_not_poured(do):
    doubtful = Judged(do, pourable_s=300.0)
    assert hand(pour(ONE, cup(ONE, 1)), cup1=doubtful) == Hand(Stage.REWARM, What.COOK, cup=1)


def test_the_injector_is_warmed_once_and_only_where_there_is_one():
    fresh = cup(ONE, 1, primed=False)
    assert hand(pour(ONE, fresh), cup1=POUR).what is What.PRIME
    bare = dataclasses.replace(ONE, injector=False)
    assert hand(pour(bare, fresh), bare, cup1=POUR).what is What.FILL


def test_the_mold_that_rested_longest_is_filled_next():
    used = (
        MoldUse("a", 1, NOW, opened=after(NOW, -10)),
        MoldUse("b", 2, NOW, opened=after(NOW, -90)),
    )
    assert hand(pour(ONE, cup(ONE, 1), uses=used), cup1=POUR).mold == 2
    assert hand(pour(ONE, cup(ONE, 1), uses=used[:1]), cup1=POUR).mold == 2
    assert hand(pour(ONE, cup(ONE, 1)), cup1=POUR).mold == 1


def test_a_wet_mold_is_passed_over_and_dried_when_no_other_is_free():
    it = pour(ONE, cup(ONE, 1), wet=frozenset({1}))
    assert hand(it, cup1=POUR) == Hand(Stage.POUR, What.FILL, mold=2, cups=(1,))
    it = dataclasses.replace(it, uses=full(2))
    assert hand(it, due={2: 60}, cup1=POUR) == Hand(Stage.POUR, What.DRY, mold=1)


def test_a_shot_of_two_layers_is_drawn_from_both():
    it = pour(TWO, cup(TWO, 1), cup(TWO, 2))
    assert hand(it, TWO, cup1=POUR, cup2=POUR) == Hand(Stage.POUR, What.FILL, mold=1, cups=(1, 2))
    assert hand(it, TWO, cup1=POUR, cup2=COLD) == Hand(Stage.REWARM, What.COOK, cup=2)


# --- waiting


def waiting(due_s: int, pourable_s: float, on_s: float = 40.0) -> Hand:
    seen = Judged(Next.HEAT, on_s=on_s, pourable_s=pourable_s)
    it = pour(ONE, cup(ONE, 1), uses=full(1, 2))
    return hand(it, due={1: due_s, 2: due_s + 30}, cup1=seen)


def test_with_all_molds_full_one_waits_for_the_first_of_them():
    found = waiting(FIRM_S, pourable_s=1000.0)
    assert found == Hand(Stage.COOL, What.WAIT, mold=1, until=after(NOW, FIRM_S), cups=(1,))


def test_a_cup_that_would_be_cold_by_then_is_warmed_just_in_time():
    # 40 s on and 60 s of handling end as the mold is due: begin 100 s before it.
    assert waiting(200, pourable_s=60.0).until == after(NOW, 100)
    assert waiting(116, pourable_s=60.0).until == after(NOW, 16)
    assert waiting(115, pourable_s=60.0) == Hand(Stage.REWARM, What.COOK, cup=1)
    assert waiting(21, pourable_s=10.0) == Hand(Stage.REWARM, What.COOK, cup=1)


def test_just_before_a_mold_is_due_no_cup_goes_into_the_oven():
    assert waiting(20, pourable_s=10.0).what is What.WAIT


def test_two_molds_to_unload_count_against_the_cup():
    # Due in 200 s, and 75 s for each of two molds: pourable for 350 s is enough.
    assert waiting(200, pourable_s=350.0).until == after(NOW, 200)
    assert waiting(200, pourable_s=349.0).until == after(NOW, 100)


# --- the end of a cup


def test_a_cup_that_gave_its_shots_is_emptied_and_one_more_shot_puts_that_off():
    given = cup(ONE, 1, shots=3)
    assert hand(pour(ONE, given), cup1=POUR) == Hand(Stage.POUR, What.EMPTY, cup=1, cups=(1,))
    more = dataclasses.replace(given, more=1)
    assert hand(pour(ONE, more), cup1=POUR).what is What.FILL
    task = ONE.cup(1)
    assert task is not None
    assert (shots_left(task, given), shots_left(task, more)) == (0, 1)


def test_a_cup_without_shots_left_is_not_heated_again_only_to_be_emptied():
    cold = cup(ONE, 1, shots=3, hot=False)
    assert hand(pour(ONE, cold), cup1=COLD).what is What.EMPTY


def test_a_cup_whose_partner_was_given_up_is_emptied_since_a_bait_wants_all_layers():
    it = pour(TWO, cup(TWO, 1, over=True, discarded=True), cup(TWO, 2), uses=full(1))
    assert open_cups(TWO, it) == ()
    assert hand(it, TWO, due={1: 60}, cup2=POUR) == Hand(Stage.POUR, What.EMPTY, cup=2)


def test_a_cup_nobody_heated_needs_no_emptying():
    it = pour(TWO, cup(TWO, 1, over=True))
    assert hand(it, TWO).stage is Stage.COUNT


def test_molds_are_opened_after_the_last_cup():
    over = [cup(ONE, n, over=True) for n in (1, 2)]
    it = pour(ONE, *over, uses=full(1))
    assert hand(it, due={1: 90}) == Hand(Stage.COOL, What.WAIT, mold=1, until=after(NOW, 90))


def test_everything_cold_is_counted_finished_and_hung_in_order():
    over = [cup(ONE, n, over=True) for n in (1, 2)]
    it = pour(ONE, *over)
    assert hand(it) == Hand(Stage.COUNT, What.TALLY, item="good")
    it = dataclasses.replace(it, tally=dict.fromkeys(CameOut, 0))
    assert hand(it).what is What.FIVE
    it = dataclasses.replace(it, five_asked=True)
    assert hand(it).what is What.BACK
    it = dataclasses.replace(it, back=KeptBack(remelt_g=None, sprue_g=None))
    assert hand(it).what is What.COUNTED
    it = dataclasses.replace(it, counted=True)
    assert [hand(it).what, hand(it).item] == [What.FINISH, "trim"]
    it = dataclasses.replace(it, finished=frozenset(Finish))
    assert hand(it).what is What.HANG
    it = dataclasses.replace(it, hung=Hung("rack", NOW, 24.0))
    assert hand(it) == Hand(Stage.HANG, What.RACK, until="2026-03-08T10:00:00Z")
    it = dataclasses.replace(it, off_at=NOW)
    assert hand(it).what is What.DONE


def test_what_was_put_away_is_taken_up_before_anything():
    heating = cup(ONE, 1, burst=Burst("b", NOW, 60.0))
    it = pour(ONE, heating, away_since=NOW, uses=full(1))
    assert hand(it, due={1: -1}).what is What.TAKE_UP
