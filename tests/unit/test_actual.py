"""A lot beside its sheet: nothing is counted twice."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.shop.actual import compared
from pourwright.shop.lot import LotEntry
from pourwright.shop.sheet import Sheet

KEYS = ("good", "bait_g", "minutes", "cost_each_money", "plastic_price_per_kg_money")
BAND = {"low": 1.0, "typical": 2.0, "high": 3.0}
SHEET = Sheet(
    number=1, code="invented", frozen_at="2026-06-14T15:02:11Z", version="0.1.0", title="Invented",
    draft={}, request={"money": {"labor_per_h_money": 15, "remelt_credit_share": 1}},
    plan={"shots": 14, "figures": [{"key": key, "value": BAND} for key in KEYS],
          "costs": [{"kind": "materials", "amount_money": BAND}]},
)  # fmt: skip
ENTRY = LotEntry(
    shots=12, good=34, trimmed=9, flash=2, short=1, dent=1, bubble=0, torn=2, other=0, warmup=8
)


def test_torn_ones_are_rejects_and_trimmed_ones_are_good() -> None:
    found = compared(SHEET, ENTRY)
    # 2 + 1 + 1 + 2 rejected beside 34 good: 6 of 40.
    assert found.reject_share == pytest.approx(6 / 40)
    assert next(c.actual for c in found.lines if c.label == "Good baits") == 34


def test_baits_of_warm_up_shots_are_neither_good_nor_bad() -> None:
    with_them, without = (
        compared(SHEET, ENTRY),
        compared(SHEET, dataclasses.replace(ENTRY, warmup=0)),
    )
    assert with_them.reject_share == without.reject_share
    assert with_them.cost_each_money == without.cost_each_money
    assert with_them.counted != without.counted


def test_the_count_reads_as_a_person_would_say_it() -> None:
    assert compared(SHEET, ENTRY).counted == (
        "34 good, 9 of them trimmed first; 6 rejected (2 flash, 1 short, 1 dent, 2 torn). "
        "8 from warm-up shots, counted apart."
    )
    warm = LotEntry(shots=5, good=18, warmup=2)
    assert compared(SHEET, warm).counted == (
        "18 good; 0 rejected. 2 from warm-up shots, counted apart."
    )
    plain = LotEntry(shots=5, good=20)
    assert compared(SHEET, plain).counted == "20 good; 0 rejected."
