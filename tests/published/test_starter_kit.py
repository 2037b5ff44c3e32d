"""The best kit against knapsack problems whose best answer is printed."""

from __future__ import annotations

import pytest

from pourwright.plan.kit.kit_input import KitItem, StarterKitInput
from pourwright.plan.kit.starter_kit import starter_kit

# J. Burkardt, data sets for the 01 knapsack problem, Florida State University, P01, P02 and P07
# (from memory): weights as prices, profits as worth, capacity as the budget; P07 after Kreher and
# Stinson, Combinatorial Algorithms (1999).
P01 = (
    165, "23 31 29 44 53 38 63 85 89 82", "92 57 49 68 60 43 67 84 87 72", "1111010000", 309,
)  # fmt: skip
P02 = (26, "12 7 11 8 9", "24 13 23 15 16", "01110", 51)
P07 = (
    750, "70 73 77 80 82 87 90 94 98 106 110 113 115 118 120",
    "135 139 149 150 156 163 173 184 192 201 210 214 221 229 240", "101010111000011", 1458,
)  # fmt: skip


@pytest.mark.parametrize(("budget", "prices", "worths", "picked", "worth"), [P01, P02, P07])
def test_the_best_kit_is_the_printed_one(budget, prices, worths, picked, worth):
    pairs = zip(prices.split(), worths.split(), strict=True)
    items = tuple(
        KitItem(name=f"item {i}", cost_money=float(p), worth=int(w))
        for i, (p, w) in enumerate(pairs)
    )
    answer = starter_kit(StarterKitInput(budget_money=budget, items=items))
    assert answer.worth == worth
    names = {p.name for p in answer.picks}
    assert "".join("1" if i.name in names else "0" for i in items) == picked
