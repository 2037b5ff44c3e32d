"""How many baits a bag takes where nobody said: by the prices, else by orders, else by packing."""

from __future__ import annotations

from fake_bench import FakeStore
from pourwright.actions.bait_kind import BaitKind
from pourwright.actions.baits_to_bag import baits_to_bag
from pourwright.shop.material import Packing
from pourwright.shop.offer import Offer
from pourwright.shop.order import Order, OrderLine, OrderState

SHAD = BaitKind("shad", "brown")


def ordered(each: int, state: OrderState = OrderState.TAKEN) -> Order:
    line = OrderLine(bait="shad", look="brown", packs=2, baits_each=each)
    return Order(customer="c", taken_on="2026-01-01", state=state, lines=(line,))


def test_nothing_says_it_until_packing_an_order_or_a_price_does():
    store = FakeStore()
    with store.bench() as bench:
        assert baits_to_bag(bench, SHAD) is None
        bag = Packing(name="Bag", pieces=100, package_price_money=9, baits_each=12)
        bench.records.save("packing", "p", bag, expected_version=0)
        assert baits_to_bag(bench, SHAD) == 12
        bench.records.save("order", "o", ordered(10), expected_version=0)
        assert baits_to_bag(bench, SHAD) == 10
        any_look = Offer(name="Any", bait="shad", price_money=4, baits_each=6)
        bench.records.save("offer", "any", any_look, expected_version=0)
        assert baits_to_bag(bench, SHAD) == 6
        brown = Offer(name="Brown", bait="shad", look="brown", price_money=4, baits_each=5)
        bench.records.save("offer", "brown", brown, expected_version=0)
        assert baits_to_bag(bench, SHAD) == 5


def test_an_order_that_is_over_or_of_another_look_says_nothing():
    store = FakeStore()
    with store.bench() as bench:
        gone = ordered(10, OrderState.CALLED_OFF)
        bench.records.save("order", "o", gone, expected_version=0)
        assert baits_to_bag(bench, SHAD) is None
        bench.records.save("order", "p", ordered(9), expected_version=0)
        assert baits_to_bag(bench, BaitKind("shad", "black")) is None
