"""Stories of a lot's leftovers: what they have been through, and a pot that takes them."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.fill_pot import fill_pot, leftover
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.heat_budget import BudgetEntry, Hold, budget_of, entry_of, keep_budget
from pourwright.actions.heat_cup import step_cup
from pourwright.actions.lot_past import LotPast, lot_past
from pourwright.actions.port import World
from pourwright.actions.see_cup import see_cup
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.bench.round_entry import RoundEntry
from pourwright.shop.draft import Draft
from pourwright.shop.lot import LotEntry
from pourwright.shop.material import RemeltPot
from pourwright.shop.sheet import Sheet
from ready_store import demo_bench

POT = "demo-remelt"
ONCE = "a" * 32


@pytest.fixture
def demo(tmp_path: Path) -> World:
    return demo_bench(tmp_path)


def pot(world: World) -> RemeltPot:
    with world.bench() as bench:
        noun = bench.records.get(RemeltPot.key, POT).noun
    assert isinstance(noun, RemeltPot)
    return noun


def change(world: World, **values: Any) -> None:
    with world.bench() as bench:
        stored = bench.records.get(RemeltPot.key, POT)
        assert isinstance(stored.noun, RemeltPot)
        new = dataclasses.replace(stored.noun, **values)
        bench.records.save(RemeltPot.key, POT, new, expected_version=stored.version)
        bench.commit()


def dose(world: World) -> float:
    with world.bench() as bench:
        return lot_past(bench, bench.sheets.get(1)).dose_share


def planned_lot(world: World, **changes: Any) -> Sheet:
    draft = Draft(
        mold="demo-mold-worm", count=24, cup="demo-cup-pint", look="demo-look-marsh",
        plastic="demo-plastic-medium", microwave="demo-oven-small",
        injector="demo-injector-six",
    )  # fmt: skip
    return freeze_sheet(world, dataclasses.replace(draft, **changes))


def past_of(world: World, sheet: Sheet) -> LotPast:
    with world.bench() as bench:
        return lot_past(bench, sheet)


def test_a_lot_nobody_followed_has_used_what_its_plan_says_by_mass(demo: World):
    with demo.bench() as bench:
        sheet = dataclasses.replace(bench.sheets.get(1), code="P0000000000Z")
    past = past_of(demo, sheet)
    grams = {c["number"]: c["total_g"] for c in sheet.plan["cups"]}
    used = {n: h["scorch_share"]["typical"] for h in sheet.plan["heat"] for n in h["cups"]}
    assert used[1] != used[2]
    assert past.dose_share == pytest.approx(
        (grams[1] * used[1] + grams[2] * used[2]) / (grams[1] + grams[2])
    )
    assert (past.followed, past.cups, past.heats) == (0, 2, 1)


def test_a_lot_that_was_followed_has_used_what_its_readings_say(demo: World):
    with demo.bench() as bench:
        left, sheet = leftover(bench, 1), bench.sheets.get(1)
        past = lot_past(bench, sheet)
    grams = [c["total_g"] for c in sheet.plan["cups"]]
    used = [see_cup(demo, 1, n).answer.estimates.scorch_share.typical for n in (1, 2)]
    assert past.dose_share == pytest.approx(np.average(used, weights=grams))
    assert (past.followed, past.cups) == (2, 2)
    assert (left.kept_g, left.left_g) == (127, 127)
    # Careful rounds: far under the 0.15 that stands in where nobody knows.
    assert past.dose_share < 0.05


def test_a_longer_heat_than_planned_counts(demo: World):
    sheet = planned_lot(demo)
    step_cup(demo, sheet.number, 1, RoundEntry(heated_s=430, late=True, read_c=195), event_id=ONCE)
    assert past_of(demo, sheet).followed == 1
    plan = sheet.plan["heat"][0]["scorch_share"]["typical"]
    assert past_of(demo, sheet).dose_share > 2 * plan


def test_what_remelt_brought_is_in_it_once(demo: World):
    change(demo, dose_share=0.5, on_hand_g=5000.0)
    plain = planned_lot(demo)
    mixed = planned_lot(demo, remelt=POT, remelt_g=4000)
    cup = mixed.plan["cups"][0]
    brought = 0.5 * cup["remelt_g"] / cup["total_g"]
    assert brought > 0.1
    planned = past_of(demo, mixed).dose_share
    assert planned == pytest.approx(past_of(demo, plain).dose_share + brought, abs=0.01)
    assert past_of(demo, mixed).heats == 2
    step_cup(demo, mixed.number, 1, RoundEntry(heated_s=20, late=True), event_id=ONCE)
    # Barely warm: it has used what the remelt brought and no more.
    assert past_of(demo, mixed).dose_share == pytest.approx(brought, abs=1e-3)


def test_an_empty_pot_takes_the_past_of_what_goes_in(demo: World):
    change(demo, on_hand_g=0.0, dose_share=0.4, heats=5, holds_salt=True)
    fill_pot(demo, 1, POT, 100, event_id=ONCE)
    assert pot(demo).on_hand_g == 100
    assert pot(demo).dose_share == pytest.approx(dose(demo), abs=1e-4)
    assert (pot(demo).heats, pot(demo).holds_salt) == (1, False)


def test_pasts_are_mixed_by_mass(demo: World):
    change(demo, on_hand_g=300.0, dose_share=0.4, heats=2)
    fill_pot(demo, 1, POT, 100, event_id=ONCE)
    assert pot(demo).on_hand_g == 400
    assert pot(demo).dose_share == pytest.approx(0.3 + dose(demo) / 4, abs=1e-4)
    assert pot(demo).heats == 2


def test_an_unknown_past_stays_unknown(demo: World):
    fill_pot(demo, 1, POT, 27, event_id=ONCE)
    assert (pot(demo).on_hand_g, pot(demo).dose_share) == (447, None)


def test_salt_of_the_lot_is_salt_in_the_pot(demo: World):
    with demo.bench() as bench:
        sheet = bench.sheets.get(1)
    plan = dict(sheet.plan)
    first, second = plan["cups"]
    cups = [first | {"lines": [first["lines"][0] | {"sort": "salt"}]}, second]
    with demo.bench() as bench:
        salted = dataclasses.replace(
            sheet, number=2, code=sheet.code[:-1] + "X", plan=plan | {"cups": cups},
        )  # fmt: skip
        bench.sheets.add(salted)
        bench.commit()
    with demo.bench() as bench:
        assert lot_past(bench, bench.sheets.get(2)).holds_salt
        assert not lot_past(bench, bench.sheets.get(1)).holds_salt


def test_the_same_button_twice_is_once(demo: World):
    first = fill_pot(demo, 1, POT, 60, event_id=ONCE)
    again = fill_pot(demo, 1, POT, 60, event_id=ONCE)
    assert again.version == first.version
    assert pot(demo).on_hand_g == 480
    fill_pot(demo, 1, POT, 67, event_id="b" * 32)
    with demo.bench() as bench:
        left = leftover(bench, 1)
        assert bench.ledger.check() > 0
    assert [p.grams for p in left.put] == [60, 67]
    assert left.left_g == 0


@pytest.mark.parametrize("grams", [0.0, -5.0, 127.2, 5000.0])
def test_more_than_is_left_is_refused(demo: World, grams: float):
    with pytest.raises(BadInput, match=r"grams: must lie between 0\.1 and 127\.0 g"):
        fill_pot(demo, 1, POT, grams, event_id=ONCE)
    assert pot(demo).on_hand_g == 420


def test_a_corrected_count_leaves_no_less_than_nothing(demo: World):
    fill_pot(demo, 1, POT, 127, event_id=ONCE)
    enter_lot(demo, 1, LotEntry(shots=18, good=30, remelt_g=50))
    with demo.bench() as bench:
        assert leftover(bench, 1).left_g == 0


def test_a_pot_nobody_weighed_is_weighed_first(demo: World):
    change(demo, on_hand_g=None)
    with pytest.raises(BadInput, match="pot: nobody weighed it"):
        fill_pot(demo, 1, POT, 20, event_id=ONCE)


def test_spent_plastic_goes_into_no_pot(demo: World):
    with demo.bench() as bench:
        sheet = bench.sheets.get(1)
        heat = [h | {"scorch_share": {"low": 1, "typical": 1.2, "high": 2}}
                for h in sheet.plan["heat"]]  # fmt: skip
        plan = dict(sheet.plan) | {"heat": heat}
        bench.sheets.add(dataclasses.replace(sheet, number=2, code="P0000000000Z", plan=plan))
        bench.commit()
    enter_lot(demo, 2, LotEntry(shots=18, good=30, remelt_g=50))
    with pytest.raises(BadInput, match="discard it"):
        fill_pot(demo, 2, POT, 20, event_id=ONCE)


def test_what_is_no_pot_is_not_found(demo: World):
    with pytest.raises(NotFound):
        fill_pot(demo, 1, "demo-salt", 20, event_id=ONCE)


def test_a_budget_adds_heats_to_what_was_used():
    # By definition: 9 of the 30 minutes at 190 °C use 0.3 of the budget; by mass, 100 g in 400.
    hold = Hold(held_min=9, mean_c=190, hottest_c=190)
    sure = BudgetEntry(pot_g=100, used_share=0.2, stable_at_190c_min=30, holds=(hold,))
    assert budget_of(sure).dose_share.typical == pytest.approx(0.5)
    blended = dataclasses.replace(sure, fresh_g=300)
    assert budget_of(blended).dose_share.typical == pytest.approx(0.05 + 0.3)
    guessed = dataclasses.replace(sure, used_share=None, heats=2, holds=())
    assert budget_of(guessed).dose_share.typical == pytest.approx(0.3)


def test_a_share_is_kept_and_a_guess_is_not(demo: World):
    guess = entry_of(pot(demo))
    assert (guess.pot_g, guess.used_share, guess.heats) == (420, None, 1)
    with pytest.raises(BadInput, match="used_share: is unknown, and a guess is not kept"):
        keep_budget(demo, POT, guess, expected_version=1)
    hold = Hold(held_min=6, mean_c=175, hottest_c=180)
    known = dataclasses.replace(guess, used_share=0, holds=(hold,))
    keep_budget(demo, POT, known, expected_version=1)
    kept = pot(demo).dose_share
    assert kept == pytest.approx(budget_of(known).dose_share.typical, abs=1e-4)
    assert kept is not None
    assert 0 < kept < 0.2
    with pytest.raises(Conflict):
        keep_budget(demo, POT, known, expected_version=1)


def test_a_hottest_place_cooler_than_the_mean_is_refused():
    with pytest.raises(BadInput, match="hottest_c: is below the mean"):
        Hold(held_min=1, mean_c=170, hottest_c=169)
