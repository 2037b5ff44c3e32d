"""What cost, price, code and money refuse, and what they say."""

from __future__ import annotations

from decimal import Decimal

import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.shop.check_code import check_code
from pourwright.shop.check_scheme import ALPHABET
from pourwright.shop.code import lot_code, number_in
from pourwright.shop.cost import batch_cost, break_even_units, straight_line
from pourwright.shop.money import Money
from pourwright.shop.price import price
from pourwright.shop.price_tax import NO_TAX, NOT_ADVICE

BATCH = {
    "items": [
        {"name": "plastic", "used_g": 500, "price_per_kg_money": 12},
        {"name": "blue", "used_g": 5, "price_per_kg_money": 60},
    ],
    "power_kwh": 0.5, "price_per_kwh_money": 0.2, "shots": 20, "mold_price_money": 50,
    "mold_life_shots": 2000, "labor_min": 30, "labor_per_h_money": 16, "packing_pieces": 4,
    "packing_each_money": 0.05, "eyes": 80, "eyes_each_money": 0.01, "overhead_money": 2,
    "remelt_out_g": 100, "remelt_price_per_kg_money": 12, "good": 40,
}  # fmt: skip


def test_a_batch_done_on_paper():
    answer = batch_cost.answer(BATCH)
    assert {k["kind"]: k["amount_money"]["typical"] for k in answer["kinds"]} == {
        "materials": 6.3, "power": 0.1, "mold wear": 0.5, "labor": 8.0,
        "packing and eyes": 1.0, "overhead": 2.0, "remelt credit": -0.6,
    }  # fmt: skip
    assert answer["total_money"]["typical"] == 17.3
    assert answer["total_money"]["low"] == pytest.approx(answer["total_money"]["high"], abs=1e-9)
    assert answer["each_money"]["typical"] == pytest.approx(17.3 / 40)
    assert [i["amount_money"]["typical"] for i in answer["items"]] == pytest.approx([6.0, 0.3])
    assert answer["notes"] == []


def test_a_batch_without_a_good_bait_has_no_cost_of_one():
    with pytest.raises(NoAnswer, match="no good bait"):
        batch_cost.answer(BATCH | {"good": 0})


def test_a_range_that_reaches_none_is_said():
    answer = batch_cost.answer(BATCH | {"good": {"low": 0, "typical": 30, "high": 40}})
    assert any("perhaps no bait is good" in n for n in answer["notes"])


def test_fewer_good_baits_cost_more_each():
    answer = batch_cost.answer(BATCH | {"good": {"low": 20, "typical": 40, "high": 50}})
    each = answer["each_money"]
    assert each["low"] == pytest.approx(17.3 / 50, rel=0.02)
    assert each["high"] == pytest.approx(17.3 / 20, rel=0.03)
    assert answer["total_money"]["low"] == pytest.approx(answer["total_money"]["high"], abs=1e-9)


def test_an_unknown_mold_life_is_named_only_where_a_mold_wears():
    unknown = {k: v for k, v in BATCH.items() if k != "mold_life_shots"}
    worn = batch_cost.answer(unknown)
    assert any(n.startswith("mold_life_shots was left out") for n in worn["notes"])
    wear = next(k["amount_money"] for k in worn["kinds"] if k["kind"] == "mold wear")
    # 20 shots of a mold of 50 that lasts 500 to 8000.
    assert (wear["low"], wear["typical"], wear["high"]) == pytest.approx((0.125, 0.5, 2), rel=0.05)
    assert not batch_cost.answer(unknown | {"mold_price_money": 0})["notes"]


def test_two_lots_of_one_name_are_drawn_apart():
    lot = {
        "name": "plastic",
        "used_g": 500,
        "price_per_kg_money": {"low": 8, "typical": 12, "high": 16},
    }
    bare = {"items": [lot | {"used_g": 1000}], "good": 1}
    one = batch_cost.answer(bare)["total_money"]
    two = batch_cost.answer(bare | {"items": [lot, lot]})["total_money"]
    assert two["typical"] == one["typical"] == 12
    # Two independent halves spread by 1 / sqrt 2.
    assert (two["high"] - two["low"]) / (one["high"] - one["low"]) == pytest.approx(0.71, abs=0.08)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: straight_line(100, 10, 0), "years: must be more than 0"),
        (lambda: straight_line(100, 10, float("nan")), "years: must be more than 0"),
        (lambda: straight_line(100, 120, 5), "salvage: must lie between 0 and the cost 100"),
        (lambda: break_even_units(-1, 10, 5), "fixed: must be 0 or more"),
        (lambda: Money.of("ten"), "amount: must be a finite number"),
        (lambda: Money.of(float("nan")), "amount: must be a finite number"),
        (lambda: Money.of(float("inf")), "amount: must be a finite number"),
        (lambda: Money(1).shared(0), "pieces: must be 1 or more"),
        (lambda: lot_code(date="2026-02-30", number=1), "date: must be a day"),
        (lambda: lot_code(date="2026-11-25", number=0), "number: must be 1 or more"),
        (lambda: check_code.answer({"code": "p26"}), "code: must look like"),
        (lambda: price.answer({"cost_money": -1}), "cost_money: must lie between"),
    ],
)
def test_nonsense_is_refused_by_name(call, words):
    with pytest.raises(BadInput, match=words):
        call()


def test_what_sells_at_cost_never_breaks_even():
    with pytest.raises(NoAnswer, match="no quantity breaks even"):
        break_even_units(100, 5, 5)
    assert break_even_units(0, 10, 5) == 0
    # 0.3 / 0.1 is three, although binary fractions make it a hair more.
    assert break_even_units(0.3, 0.2, 0.1) == 3


def test_money_shows_cents_with_halves_up():
    assert [str(Money.of(t)) for t in ("0.005", "-0.005", "1.0049", "12")] == [
        "0.01", "-0.01", "1.00", "12.00",
    ]  # fmt: skip
    assert Money.of("0.00005").decimal() == Decimal("0.0001")
    assert Money.of(2.5) > Money.of("2.4999")


@pytest.mark.parametrize(
    "shares",
    [
        {"margin": 0.7, "fee_share": 0.3},
        {"margin": 0.9, "fee_share": 0.2},
        {"margin": 0.5, "fee_share": 0.4, "tax_rate": 0.25, "tax_base_share": 0.5},
    ],
)
def test_shares_that_eat_the_price_are_named(shares):
    words = f"margin {shares['margin']:.1%}, fees {shares['fee_share']:.1%} and tax"
    with pytest.raises(NoAnswer, match=words):
        price.answer({"cost_money": 1} | shares)


def test_tax_is_off_until_it_is_asked_for():
    plain = price.answer({"cost_money": 0.6, "margin": 0.4})
    assert plain == {
        "price_money": {"low": 1.0, "typical": 1.0, "high": 1.0}, "tax_money": 0.0,
        "fees_money": 0.0, "left_money": 0.4, "margin_left": 0.4, "notes": [],
    }  # fmt: skip


def test_any_tax_field_brings_the_caution():
    taxed = price.answer({"cost_money": 1, "tax_rate": 0.1})
    assert taxed["notes"] == [NOT_ADVICE]
    assert price.answer({"cost_money": 1, "tax_added": True})["notes"] == [NO_TAX, NOT_ADVICE]
    assert price.answer({"cost_money": 1, "tax_base_share": 0.75})["notes"] == [NO_TAX, NOT_ADVICE]


def test_every_slip_of_the_pen_is_caught():
    code = lot_code(date="2026-11-25", number=7)
    assert check_code.answer({"code": code})["valid"]
    wrong = {
        code[:i] + c + code[i + 1 :] for i in range(len(code)) for c in ALPHABET if c != code[i]
    }
    assert len(wrong) == 35 * len(code)
    swapped = {
        code[:i] + code[i + 1] + code[i] + code[i + 2 :]
        for i in range(len(code) - 1)
        if code[i] != code[i + 1]
    }
    assert len(swapped) >= 5
    assert not any(check_code.answer({"code": c})["valid"] for c in wrong | swapped)


def test_a_verdict_in_words():
    body = check_code.answer({"code": "123AB", "complete": False})
    assert (body["check"], body["valid"], body["verdict"]) == ("X", False, "123AB would end in X")
    assert check_code.answer({"code": "123ABX"})["verdict"] == "X at its end fits"
    mistyped = check_code.answer({"code": "123ABY"})
    assert mistyped["verdict"] == "mistyped: after 123AB comes X, not Y"
    assert "one pair in 630" in mistyped["misses"]


def test_a_lot_code_reads_day_and_sheet():
    assert lot_code(date="2026-11-25", number=7)[:-1] == "P2611250007"
    assert lot_code(date="2026-11-25", number=12345)[:-1] == "P26112512345"
    assert lot_code(date="2026-11-25", number=12345, letter="B")[:-1] == "B26112512345"
    assert number_in(lot_code(date="2026-11-25", number=12345)) == 12345
