"""What remelt is worth in a plan, by the workplace's rule."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.demo import DEMO_DRAFT, demo_nouns
from pourwright.actions.demo_cups import DEMO_LOT_DRAFT
from pourwright.plan.batch import plan_batch
from pourwright.plan.resolve import Picked, request_of
from pourwright.shop.draft import Draft
from pourwright.shop.workplace import Workplace

NOUNS = demo_nouns()


def costs(draft: Draft, share: float) -> dict[str, float]:
    place = Workplace(name="Test bench", remelt_credit_share=share)
    plan = plan_batch(request_of(draft, Picked(place, NOUNS)))
    return {c.kind: c.amount_money.typical for c in plan.costs}


def test_the_credit_follows_the_workplace():
    half, whole, none = (costs(DEMO_DRAFT, share) for share in (0.5, 1, 0))
    assert whole["remelt credit"] == pytest.approx(2 * half["remelt credit"], abs=2e-4)
    assert whole["remelt credit"] < 0
    assert "remelt credit" not in none


def test_what_a_look_of_two_colors_leaves_is_worth_nothing():
    assert "remelt credit" not in costs(DEMO_LOT_DRAFT, 1)


def test_remelt_of_one_color_keeps_its_worth_in_a_look_of_two():
    plain = costs(DEMO_LOT_DRAFT, 1)["materials"]
    using = dataclasses.replace(DEMO_LOT_DRAFT, remelt="demo-remelt", remelt_g=100)
    free, paid = costs(using, 0)["materials"], costs(using, 1)["materials"]
    # 100 g at the price of the jug: 46 for 3975 g.
    assert paid - free == pytest.approx(100 * 46 / 3975, abs=0.01)
    assert free < plain
