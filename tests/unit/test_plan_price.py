"""A plan whose margin no price allows: all of it but the price."""

from __future__ import annotations

from typing import Any

from pourwright.plan.batch import plan_batch


def planned(**money: Any) -> dict[str, Any]:
    return plan_batch.answer(dict(plan_batch.example) | {"money": money})


def without_price(plan: dict[str, Any]) -> dict[str, Any]:
    figures = [f for f in plan["figures"] if f["key"] != "price_money"]
    return plan | {"figures": figures, "no_price": None}


def test_a_margin_that_no_price_allows_hides_the_price_alone():
    usual, greedy = planned(margin=0.4), planned(margin=0.6, fee_share=0.45)
    assert usual["no_price"] is None
    assert any(f["key"] == "price_money" for f in usual["figures"])
    assert "margin 60.0%, fees 45.0%" in greedy["no_price"]
    assert not any(f["key"] == "price_money" for f in greedy["figures"])
    assert without_price(usual) == without_price(greedy)


def test_what_widens_a_cost_does_not_repeat_which_cost_it_is():
    narrow = [n for f in planned()["figures"] if f["unit"] == "money" for n in f["narrow"]]
    assert narrow
    assert not [n for n in narrow if "_money: " in n]


def test_a_price_left_out_stands_in_its_own_currency_before_the_number():
    told = [it for it in planned()["assumptions"] if "power_price_per_kwh_money" in it]
    assert "typical ¤0.18 (¤0.12 to ¤0.32) stands in" in told[0]
