"""What prices, quantity prices and paybacks refuse, and what they say."""

from __future__ import annotations

import pytest

from fake_bench import FakeStore
from pourwright.actions.offered import price_of_pack
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json
from pourwright.shop.money import Money
from pourwright.shop.offer import Offer, PriceStep
from pourwright.shop.payback import payback
from pourwright.shop.price_breaks import price_breaks
from pourwright.shop.price_tax import NO_TAX, NOT_ADVICE

LIST = {
    "price_money": 8.0, "cost_money": 4.0, "floor_margin": 0.25, "order_fee_money": 1.0,
    "breaks": [{"from_packs": 2, "price_money": 7.0}, {"from_packs": 10, "price_money": 5.0}],
}  # fmt: skip


def test_a_list_done_on_paper():
    answer = price_breaks.answer(LIST)
    # 8 - 4 - 1; 7 - 4 - 1/2; 5 - 4 - 1/10.
    left = [row["left_each_money"]["typical"] for row in answer["rows"]]
    assert left == pytest.approx([3.0, 2.5, 0.9])
    # (4 + 1) / 0.75 = 6.67 of 8; (4 + 0.5) / 0.75 = 6.00; (4 + 0.1) / 0.75 = 5.47.
    most = [row["most_discount"] for row in answer["rows"]]
    assert most == pytest.approx([1 - 6.67 / 8, 0.25, 1 - 5.47 / 8])
    assert [row["below"] for row in answer["rows"]] == [False, False, True]
    assert answer["rows"][2]["verdict"] == "under the floor: ¤0.47 more would keep it"
    assert answer["first_below"] == (
        "The first under your floor of 25% is the price from 10 packs: it leaves 18%."
    )
    assert answer["notes"] == []


def test_a_range_of_cost_that_reaches_under_the_floor_is_said():
    wide = price_breaks.answer(LIST | {"cost_money": {"low": 3.5, "typical": 4, "high": 6}})
    assert "but not if a pack costs" in wide["rows"][0]["verdict"]
    assert wide["notes"] == ["cost_money is a range: margins carry it."]


def test_a_price_under_cost_is_a_loss_in_words():
    answer = price_breaks.answer(LIST | {"cost_money": 9.0})
    assert answer["first_below"].startswith("Even a single pack falls under your floor of 25%")
    assert "sells below cost" in answer["rows"][0]["verdict"]
    assert answer["rows"][0]["most_discount"] is None


def test_any_tax_field_brings_the_caution():
    assert price_breaks.answer(LIST | {"tax_rate": 0.1})["notes"] == [NOT_ADVICE]
    assert price_breaks.answer(LIST | {"tax_added": True})["notes"] == [NO_TAX, NOT_ADVICE]
    tool = {"fixed_money": 60, "price_money": 7.5, "cost_money": 4.4}
    for typed in ({"tax_added": True}, {"tax_base_share": 0.5}):
        assert payback.answer(tool | typed)["notes"] == [NO_TAX, NOT_ADVICE]
    assert payback.answer(tool | {"tax_rate": 0.1})["notes"] == [NOT_ADVICE]


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"breaks": [{"from_packs": 9, "price_money": 7}, {"from_packs": 5, "price_money": 6}]},
         r"breaks\[1\]\.from_packs: must be more than 9"),
        ({"breaks": [{"from_packs": 5, "price_money": 9}]},
         r"breaks\[0\]\.price_money: must be at most 8, the price of fewer packs"),
        ({"breaks": [{"from_packs": 5, "price_money": 0}]}, "what is given away has no margin"),
    ],
)  # fmt: skip
def test_steps_out_of_order_are_refused(wrong, words):
    with pytest.raises(BadInput, match=words):
        price_breaks.answer(LIST | wrong)


def test_a_floor_that_no_price_keeps_is_refused():
    # 1 - 20 % of fees - 1/11 of tax inside leaves 70.9 %.
    high = LIST | {"fee_share": 0.2, "tax_rate": 0.1}
    assert price_breaks.answer(high | {"floor_margin": 0.7})["rows"][0]["below"]
    with pytest.raises(NoAnswer, match=r"floor of 71\.0%: fees take 20\.0% .* tax inside it 9\.1%"):
        price_breaks.answer(high | {"floor_margin": 0.71})


def test_a_pack_that_leaves_nothing_never_pays_back():
    with pytest.raises(NoAnswer, match="no quantity breaks even"):
        payback.answer({"fixed_money": 60, "price_money": 5, "cost_money": 5})


def test_a_cost_that_may_eat_the_price_leaves_the_end_open():
    answer = payback.answer(
        {"fixed_money": 60, "price_money": 5, "packs_per_month": 10,
         "cost_money": {"low": 3, "typical": 4, "high": 6}}
    )  # fmt: skip
    assert answer["packs"]["typical"] == 60
    assert answer["packs"]["high"] is None
    assert answer["months"]["high"] is None
    assert "what is known, never)" in answer["verdict"]


def test_a_mold_that_wears_out_first_is_said():
    case = {"fixed_money": 60, "price_money": 5, "cost_money": 4}
    assert payback.answer(case | {"life_packs": 60})["notes"] == []
    worn = payback.answer(case | {"life_packs": 59})["notes"]
    assert worn == ["It is worn out after 59 packs, before it has paid for itself."]


def test_payback_without_sales_gives_packs_alone():
    case = {"fixed_money": 61, "price_money": 5, "cost_money": 4}
    assert payback.answer(case)["verdict"] == "Pays back after 61 packs."
    none = payback.answer(case | {"packs_per_month": 0})
    assert none["months"] is None
    assert "nothing is sold at present" in none["verdict"]
    assert payback.answer(case | {"packs_per_month": 10})["verdict"] == (
        "Pays back after 61 packs: 6.1 months at the present sales."
    )


def test_a_fixed_fee_is_shared_by_the_packs_of_an_order():
    case = {"fixed_money": 60, "price_money": 5, "cost_money": 3, "order_fee_money": 1}
    assert payback.answer(case)["packs"]["typical"] == 60
    assert payback.answer(case | {"packs_per_order": 2})["packs"]["typical"] == 40


def test_what_fetches_more_than_it_cost_is_refused():
    with pytest.raises(BadInput, match="salvage_money: must be at most 60"):
        payback.answer(
            {"fixed_money": 60, "price_money": 5, "cost_money": 3, "salvage_money": 61, "years": 2}
        )


OFFER = {"name": "Worms", "bait": "worm", "price_money": 7.5}


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"steps": [{"from_packs": 5, "price_money": 8}]}, r"steps\[0\]\.price_money: must be at"),
        ({"article_number": "4006381333932"}, "article_number: is mistyped"),
        ({"article_number": "12345"}, "article_number: has 5 digits"),
    ],
)
def test_an_offer_that_cannot_be_is_refused(wrong, words):
    with pytest.raises(BadInput, match=words):
        from_json(Offer, OFFER | wrong)


def test_the_price_list_answers_by_look_pack_and_quantity():
    store = FakeStore()
    steps = (PriceStep(from_packs=5, price_money=7), PriceStep(from_packs=10, price_money=6.5))
    with store.bench() as bench:
        for key, offer in {
            "any": Offer(name="Worms", bait="worm", price_money=7.5, steps=steps),
            "red": Offer(name="Red worms", bait="worm", look="red", price_money=9),
            "jar": Offer(name="Jar", bait="worm", price_money=60, baits_each=100),
        }.items():
            bench.records.save(Offer.key, key, offer, expected_version=0)

        def asked(look: str, packs: int, each: int = 8) -> Money | None:
            return price_of_pack(bench, "worm", look, packs, each)

        assert [asked("green", n) for n in (1, 4, 5, 9, 10, 99)] == [
            Money.of(p) for p in (7.5, 7.5, 7, 7, 6.5, 6.5)
        ]
        assert asked("red", 10) == Money.of(9)
        assert asked("red", 1, 100) == Money.of(60)
        assert asked("green", 1, 12) is None
        assert price_of_pack(bench, "shad", "red", 1, 8) is None
