"""What a counted lot cost by kind: nothing twice, nothing lost."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from pourwright.shop.actual import compared
from pourwright.shop.lot import LotEntry
from pourwright.shop.lot_cost import Taken, lot_cost
from pourwright.shop.money import Money
from pourwright.shop.sheet import Sheet

PLANNED = {
    "materials": 6.0, "power": 0.2, "mold wear": 0.5, "labor": 12.0, "packing and eyes": 0.9,
    "overhead": 1.0, "remelt credit": -0.6,
}  # fmt: skip
FIGURES = {
    "good": 30, "bait_g": 9, "minutes": 48, "cost_each_money": 0.7, "cost_total_money": 20,
    "plastic_price_per_kg_money": 12,
}  # fmt: skip


def _line(value: float) -> dict[str, float]:
    return {"low": value, "typical": value, "high": value}


SHEET = Sheet(
    number=1, code="invented", frozen_at="2026-06-14T15:02:11Z", version="0.1.0", title="Invented",
    draft={},
    request={
        "count": 30, "money": {"labor_per_h_money": 15, "remelt_credit_share": 0.5},
        "plastic": {"material": "jug", "price_per_kg_money": 12},
        "layers": [{"doses": [{"material": "green", "price_per_kg_money": 150}]}],
    },
    plan={"shots": 10, "figures": [{"key": k, "value": _line(v)} for k, v in FIGURES.items()],
          "costs": [{"kind": k, "amount_money": _line(v)} for k, v in PLANNED.items()]},
)  # fmt: skip
ENTRY = LotEntry(shots=12, good=20, flash=4)


def kinds(entry: LotEntry, taken: Taken | None = None) -> dict[str, str]:
    found = lot_cost(SHEET, entry, taken) if taken else lot_cost(SHEET, entry)
    return {k.kind: str(k.amount.decimal()) for k in found.kinds}


def test_what_nobody_entered_stands_as_planned():
    # 0.5 for 10 shots is 0.6 for 12; 0.9 for 30 packed is 0.6 for the 20 good ones.
    assert kinds(ENTRY) == {
        "materials": "6.0000", "power": "0.2000", "mold wear": "0.6000", "labor": "12.0000",
        "packing and eyes": "0.6000", "overhead": "1.0000", "remelt credit": "-0.6000",
    }  # fmt: skip
    cost = lot_cost(SHEET, ENTRY)
    assert cost.total == Money.of(19.8)
    assert cost.each == Money.of(0.99)


def test_what_was_entered_goes_before_the_plan():
    entry = dataclasses.replace(ENTRY, minutes=60, remelt_g=80.0, sprue_g=20.0)
    found = kinds(entry)
    assert found["labor"] == "15.0000"
    # 100 g at 12 a kilogram, half of it.
    assert found["remelt credit"] == "-0.6000"
    assert kinds(dataclasses.replace(entry, sprue_g=None))["remelt credit"] == "-0.4800"


def test_the_books_of_the_stock_go_before_the_plan():
    entry = dataclasses.replace(ENTRY, remelt_g=500.0)
    found = kinds(entry, Taken(used=Money.of(7.1234), potted=Money.of(0.25)))
    assert found["materials"] == "7.1234"
    assert found["remelt credit"] == "-0.2500"
    assert "remelt credit" not in kinds(entry, Taken(potted=Money(0)))


def test_no_good_bait_has_no_cost_and_rejects_raise_that_of_the_rest():
    assert lot_cost(SHEET, LotEntry(shots=10, good=0, short=30)).each is None
    few, many = (lot_cost(SHEET, LotEntry(shots=10, good=n)).each for n in (10, 30))
    assert few is not None
    assert many is not None
    assert few > many


def test_kinds_add_up_and_the_lot_page_says_the_same():
    entry = dataclasses.replace(ENTRY, minutes=61.7, remelt_g=33.3)
    taken = Taken(used=Money.of(5.4321))
    cost = lot_cost(SHEET, entry, taken)
    assert sum((k.amount for k in cost.kinds), Money(0)) == cost.total
    assert cost.of("labor") == Money.of(61.7 / 60 * 15)
    assert cost.of("eyes") == Money(0)
    page: Any = compared(SHEET, entry, taken)
    assert page.cost_total_money == cost.total.amount
    assert page.cost_each_money == pytest.approx(cost.total.amount / 20, abs=1e-4)
    assert page.notes[0] == "Materials from the lots that were used."
    assert "Power, overhead as planned." in page.notes


def test_books_that_lack_a_price_or_a_material_do_not_make_it_free():
    taken = Taken(used=Money.of(0.12))
    plastic = {"material": "jug", "price_per_kg_money": 12}
    for unknown in ({"price_per_kg_money": None}, {"material": ""}):
        odd = dataclasses.replace(
            SHEET, request={**SHEET.request, "plastic": plastic | unknown, "layers": []}
        )
        assert lot_cost(odd, ENTRY, taken).of("materials") == Money.of(6)
    assert lot_cost(SHEET, ENTRY, taken).of("materials") == Money.of(0.12)
