"""Stories of remelt in a plan: what it brings of its heat budget, and what the plan says to it."""

from __future__ import annotations

import re
from typing import Any

import numpy as np
import pytest

from pourwright.actions.plan_batch import plan_batch as plan_draft
from pourwright.base.draws import Draws
from pourwright.base.record import from_json
from pourwright.forecast.request import RemeltPart
from pourwright.plan.batch import plan_batch
from pourwright.plan.remelt import brought, remelt_dose
from pourwright.shop.draft import Draft
from pourwright.shop.material import RemeltPot
from pourwright.wire import world


def planned(**remelt: Any) -> dict[str, Any]:
    return plan_batch.answer(dict(plan_batch.example) | {"remelt": remelt})


def share(plan: dict[str, Any]) -> float:
    return float(plan["heat"][0]["scorch_share"]["typical"])


def said(plan: dict[str, Any], level: str) -> list[str]:
    return [w["text"] for w in plan["warnings"] if w["level"] == level and "budget" in w["text"]]


def test_remelt_brings_its_share_by_mass():
    fresh = share(planned())
    plan = planned(available_g=5000, largest_share=0.3, dose_share=0.5)
    cup = plan["cups"][0]
    assert cup["remelt_g"] / cup["total_g"] == pytest.approx(0.3, abs=1e-3)
    assert share(plan) == pytest.approx(fresh + 0.3 * 0.5, abs=1e-3)
    assert said(plan, "risk") == said(plan, "stop") == []


def test_unknown_remelt_is_guessed_by_its_heats_and_named():
    # The usual heat takes 0.15 of the budget (estimate): twice that at 0.3 of the cup.
    plan = planned(available_g=5000, heats=2)
    assert share(plan) == pytest.approx(share(planned()) + 0.3 * 0.3, abs=1e-3)
    band = plan["heat"][0]["scorch_share"]
    assert band["high"] > 0.3 * 1.0 - 0.02
    assert any("0.15 (0.03 to 0.5) for each of its 2 heats" in a for a in plan["assumptions"])
    for known in (planned(), planned(available_g=50, dose_share=0.1)):
        assert not any(a.startswith("remelt") for a in known["assumptions"])


def test_of_cups_cooked_alike_the_one_with_most_remelt_speaks():
    plan = plan_batch.answer(
        dict(plan_batch.example) | {"count": 80, "remelt": {"available_g": 60, "dose_share": 0.9}}
    )
    first, *others = plan["cups"]
    assert plan["heat"][0]["cups"] == [1, 2, 3]
    assert [c["remelt_g"] for c in others] == [0, 0]
    brings = 0.9 * 60 / first["total_g"]
    assert brings < share(plan) < brings + share(planned()) + 0.1


def test_a_cup_past_half_of_its_budget_is_warned_of():
    plan = planned(available_g=5000, largest_share=0.8, dose_share=0.8)
    assert 0.6 < share(plan) < 1
    (words,) = said(plan, "risk")
    assert "more fresh plastic brings it down" in words
    assert said(plan, "stop") == []


def test_a_cup_past_its_whole_budget_is_stopped():
    plan = planned(available_g=5000, largest_share=1.0, dose_share=0.999)
    assert share(plan) > 1
    (words,) = said(plan, "stop")
    assert re.match(r"Cup 1: 1[0-9]{2}% of the heat budget", words)
    assert "Use less remelt, or none" in words


def test_spent_remelt_is_stopped_however_little_goes_in():
    plan = planned(available_g=5, dose_share=1.2)
    assert share(plan) < 0.5
    (words,) = said(plan, "stop")
    assert "discard it" in words
    assert said(planned(available_g=5, heats=7), "stop")
    assert not said(planned(available_g=5, heats=6), "stop")


def test_a_pot_nobody_takes_from_says_nothing():
    assert planned(dose_share=3) == planned()


def test_the_pot_on_the_shelf_tells_what_it_used(tmp_path):
    bench_world = world(tmp_path / "a.db")
    pot = RemeltPot(name="Twice heated", on_hand_g=400, heats=2, dose_share=0.9)
    with bench_world.bench() as bench:
        bench.records.save("remelt_pot", "pot", pot, expected_version=0)
        bench.commit()
    draft = Draft(
        count=24, bait_g=9, cavities=2, cup_ml=473, remelt="pot", remelt_g=60, by_hand=True
    )
    with bench_world.bench() as bench:
        found = plan_draft(bench, draft)
    assert found.request.remelt.dose_share == 0.9
    assert found.plan.heat[0].scorch_share.typical > 0.9 * 60 / found.plan.heat[0].mass_g


def test_drawn_doses_and_what_they_bring():
    draws = Draws(count=20)
    known = remelt_dose(draws, RemeltPart(available_g=10, dose_share=0.4, heats=9))
    assert np.all(known == 0.4)
    plan = plan_batch(from_json(plan_batch.takes, dict(plan_batch.example)))
    assert np.all(brought(plan.cups[0], known) == 0)
