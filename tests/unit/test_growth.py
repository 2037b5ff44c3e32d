"""What the next purchase brings, done on paper, and what is not ranked."""

from __future__ import annotations

import pytest

from pourwright.base.errors import BadInput
from pourwright.plan.kit.growth import NO_WANTED, growth

# A pack of 8 leaves 9 before its 8 x 3 = 24 minutes at 15 an hour, that is 6 of work.
SHOP = {
    "packs_per_month": 10, "wanted_packs_per_month": 12, "baits_each": 8, "minutes_each": 3,
    "labor_per_h_money": 15, "left_each_money": 9,
}  # fmt: skip
MOLD = {"name": "Second mold", "cost_money": 60, "minutes_share": 0.75}


def asked(*purchases, **changes):
    return growth.answer(SHOP | {"purchases": list(purchases)} | changes)


def test_a_second_mold_done_on_paper():
    # The hours of 10 packs make 13.3; 12 are wanted. Each then leaves 9 - 4.50, not 9 - 6:
    # 12 x 4.50 - 10 x 3 = 24 a month; 240 minutes become 12 x 18 = 216; 60 / 24 = 2.5 months.
    (it,) = asked(MOLD)["ranked"]
    assert it["gain_money"]["typical"] == pytest.approx(24)
    assert it["more_packs"]["typical"] == pytest.approx(2)
    assert it["saved_min"]["typical"] == pytest.approx(24)
    assert it["months"]["typical"] == pytest.approx(2.5)
    assert it["why"] == (
        "paid back in 2.5 months: ¤24.00 a month, 2 packs more, 24 minutes less work"
    )


def test_without_a_market_time_is_worth_the_hour_alone():
    # 10 packs x 24 minutes x a quarter = 60 minutes: 15 a month.
    answer = asked(MOLD, wanted_packs_per_month=None)
    assert answer["ranked"][0]["gain_money"]["typical"] == pytest.approx(15)
    assert answer["ranked"][0]["more_packs"]["typical"] == 0
    assert NO_WANTED in answer["notes"]


def test_a_pack_that_leaves_nothing_is_not_made_more_often():
    # 9 - 6 becomes 4 - 6; even at 4.50 of work a pack loses, so 10 stay 10 and 15 is saved.
    (it,) = asked(MOLD, left_each_money=4)["ranked"]
    assert it["more_packs"]["typical"] == 0
    assert it["gain_money"]["typical"] == pytest.approx(15)


def test_cost_saved_counts_for_every_bait():
    # 0.05 of 8 baits of 10 packs: 4 a month, 8 months for 32.
    (it,) = asked({"name": "Bigger injector", "cost_money": 32, "saved_each_money": 0.05})["ranked"]
    assert it["months"]["typical"] == pytest.approx(8)


def test_the_soonest_paid_comes_first_and_the_unknown_apart():
    answer = asked(
        {"name": "Oven", "cost_money": 90, "measure": "plan a pour day with two ovens"},
        MOLD,
        {"name": "Cup", "cost_money": 6, "minutes_share": 0.9},
        {"name": "Slow thing", "cost_money": 5, "minutes_share": 1.1},
        {"name": "Same thing", "cost_money": 5, "minutes_share": 1},
        {"name": "Riddle", "cost_money": 5},
    )
    assert [r["name"] for r in answer["ranked"]] == ["Cup", "Second mold"]
    assert answer["never"] == [
        {"name": "Slow thing", "why": "costs ¤6.00 a month more than it brings"},
        {"name": "Same thing", "why": "changes nothing"},
    ]
    assert answer["unknown"] == [
        {"name": "Oven", "why": "nobody knows what it saves: plan a pour day with two ovens"},
        {"name": "Riddle", "why": "nobody knows what it saves"},
    ]


def test_a_gain_that_may_be_none_leaves_the_end_open():
    wide = MOLD | {"minutes_share": {"low": 0.6, "typical": 0.9, "high": 1.2}}
    (it,) = asked(wide)["ranked"]
    assert it["months"]["high"] is None
    assert "never)" in it["why"]
    assert it["gain_money"]["low"] < 0 < it["gain_money"]["typical"]


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"purchases": [MOLD, MOLD]}, r"purchases\[1\]\.name: stands on the list twice"),
        ({"purchases": [MOLD], "wanted_packs_per_month": 9}, "must be at least the 10 that are"),
        ({"purchases": []}, "purchases"),
    ],
)
def test_a_shop_that_cannot_be_is_refused(changes, words):
    with pytest.raises(BadInput, match=words):
        growth.answer(SHOP | changes)
