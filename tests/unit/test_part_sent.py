"""An order that leaves in several parcels."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from order_bench import ADA, BROWN, MARSH, SHAD, bagged, line, order, order_bench, poured
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.kept_order import order_at
from pourwright.actions.order_parcel import after_return, after_sending
from pourwright.actions.pack_order import call_off, pack_order, pick_line, take_up_again
from pourwright.actions.port import World
from pourwright.actions.pour_day_need import pour_needs
from pourwright.actions.sales_of import sales_of
from pourwright.actions.see_orders import see_orders
from pourwright.actions.sell import sell
from pourwright.actions.send_order import PricedLine, SendEntry, price_asked, send_order
from pourwright.actions.set_aside import give_back, set_aside
from pourwright.actions.take_back_sale import take_back_sale
from pourwright.actions.take_order import change_order, entry_of
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.record import from_json
from pourwright.shop.allot import beyond, trimmed
from pourwright.shop.money import Money
from pourwright.shop.offer import Offer, PriceStep
from pourwright.shop.order import Order, OrderLine, OrderState, SetAside
from pourwright.shop.sale import Sale, SaleLine

TODAY = "2026-02-15"
KEY, OTHER, THIRD = "a" * 32, "b" * 32, "c" * 32


@pytest.fixture
def world(tmp_path):
    return order_bench(tmp_path)


def kept(world: World, key: str = "one") -> Order:
    with world.reading() as bench:
        return order_at(bench, key)[1]


def send(world: World, *packs: int | None, key: str = KEY, price: float | None = None) -> Sale:
    lines = tuple(PricedLine(packs=n, price_money=price) for n in packs)
    return send_order(world, "one", SendEntry(lines=lines, sold_on=TODAY), key=key).sale


def aside(world: World) -> dict[str, int]:
    with world.reading() as bench:
        return dict(baits_set_aside(bench))


def change(world: World, **changes) -> Order:
    with world.reading() as bench:
        version = bench.records.get(Order.key, "one").version
    first = entry_of(kept(world))
    new = dataclasses.replace(first.lines[0], **changes)
    entry = dataclasses.replace(first, lines=(new, *first.lines[1:]))
    return change_order(world, "one", entry, expected_version=version)


def test_the_rest_stays_open_with_what_is_set_aside_for_it(world):
    bagged(world, "B1", 5)
    order(world, "one", line(4), line(2, look=MARSH))
    set_aside(world, "one")
    sale = send(world, 3, 0)
    assert [(it.lot, it.packs) for it in sale.lines] == [("B1", 3)]
    assert sale.received == Money.of("19.5")
    it = kept(world)
    assert (it.state, it.open, it.sent, it.left, it.missing) == (
        OrderState.PART_SENT, True, 3, 3, 2,
    )  # fmt: skip
    assert aside(world) == {"B1": 8}
    with world.reading() as bench:
        (view,) = see_orders(bench, TODAY).open
        assert (view.packs, view.short) == (3, 2)
        assert [(n.kind.look, n.baits) for n in pour_needs(bench)] == [(MARSH, 16)]


def test_a_second_parcel_closes_it_and_taking_that_back_opens_the_rest(world):
    bagged(world, "B1", 2)
    order(world, "one", line(3))
    set_aside(world, "one")
    send(world, None)
    loose = poured(world, 7, 20)
    set_aside(world, "one")
    pick_line(world, "one", 0, picked=True)
    pack_order(world, "one")
    before = kept(world)
    send(world, None, key=OTHER)
    assert kept(world).state is OrderState.SENT
    assert aside(world) == {}
    take_back_sale(world, OTHER, why="lost", key=THIRD)
    assert kept(world) == before
    assert aside(world) == {loose: 8}
    take_back_sale(world, KEY, why="lost too", key="d" * 32)
    it = kept(world)
    assert (it.state, it.sent, it.left) == (OrderState.PACKED, 0, 3)
    with world.reading() as bench:
        assert [s.stands for s in sales_of(bench)] == [False, False]


def test_the_first_parcel_taken_back_leaves_the_second_sent(world):
    bagged(world, "B1", 3)
    order(world, "one", line(3))
    set_aside(world, "one")
    send(world, 2)
    send(world, None, key=OTHER)
    take_back_sale(world, KEY, why="never came", key=THIRD)
    (it,) = kept(world).lines
    assert (it.sent, it.left, it.set_aside) == (1, 2, (SetAside(lot="B1", packs=2),))


def test_the_price_agreed_for_all_that_was_ordered_holds_for_every_parcel(world):
    """Ordered six at the price from five on: two packs that leave first cost no more each."""
    bagged(world, "B1", 6)
    steps = (PriceStep(from_packs=5, price_money=5),)
    offer = Offer(name="8", bait=SHAD, baits_each=8, price_money=6.5, steps=steps)
    with world.bench() as bench:
        bench.records.save(Offer.key, "offer", offer, expected_version=0)
        bench.commit()
    order(world, "one", dataclasses.replace(line(6), price_money=None))
    set_aside(world, "one")
    assert send(world, 2).goods == Money.of(10)
    with world.bench() as bench:
        dearer = dataclasses.replace(offer, price_money=9, steps=())
        bench.records.save(Offer.key, "offer", dearer, expected_version=1)
        bench.commit()
    with world.reading() as bench:
        assert price_asked(bench, kept(world).lines[0]) == Money.of(5)
    assert send(world, None, key=OTHER).goods == Money.of(20)


def test_more_than_is_set_aside_is_refused_and_nothing_moves(world):
    bagged(world, "B1", 2)
    order(world, "one", line(3))
    set_aside(world, "one")
    before = kept(world)
    with pytest.raises(BadInput, match="2 packs are set aside") as refused:
        send(world, 3)
    assert refused.value.field == "lines[0].packs"
    with pytest.raises(BadInput, match="nothing is sold by this"):
        send(world, 0)
    assert kept(world) == before


def test_no_more_is_sent_than_is_left(world):
    bagged(world, "B1", 5)
    order(world, "one", line(3))
    set_aside(world, "one")
    send(world, 2)
    more = Sale(sold_on=TODAY, order="one", lines=(sold("B1", 2),))
    with pytest.raises(Conflict, match="more than is left of the order: 1 of Four-inch"):
        sell(world, more, key=OTHER)
    assert kept(world).sent == 2


def test_the_same_parcel_twice_is_one(world):
    bagged(world, "B1", 4)
    order(world, "one", line(3))
    set_aside(world, "one")
    assert send(world, 1) == send(world, 1)
    assert kept(world).sent == 1


def test_a_price_nobody_said_is_asked_for(world):
    bagged(world, "B1", 4)
    order(world, "one", dataclasses.replace(line(3), price_money=None))
    set_aside(world, "one")
    with pytest.raises(BadInput, match="neither the order nor the price list"):
        send(world, 1)
    assert send(world, 1, price=4).goods == Money.of(4)


def test_what_was_sent_cannot_be_ordered_away(world):
    bagged(world, "B1", 4)
    order(world, "one", line(4))
    set_aside(world, "one")
    send(world, 2)
    with pytest.raises(BadInput, match="2 packs have left already"):
        change(world, packs=1)
    with pytest.raises(BadInput, match="2 packs of a line that is left out or changed have left"):
        change(world, look=MARSH)
    fewer = change(world, packs=3)
    assert (fewer.state, fewer.lines[0].aside) == (OrderState.PART_SENT, 1)
    assert change(world, packs=2).state is OrderState.SENT


def test_the_rest_can_be_given_back_called_off_and_taken_up_again(world):
    bagged(world, "B1", 3)
    order(world, "one", line(3))
    set_aside(world, "one")
    send(world, 1)
    pick_line(world, "one", 0, picked=True)
    pack_order(world, "one")
    assert give_back(world, "one").state is OrderState.PART_SENT
    call_off(world, "one")
    take_back_sale(world, KEY, why="refused at the door", key=OTHER)
    it = kept(world)
    assert (it.state, it.sent, it.lines[0].set_aside) == (OrderState.CALLED_OFF, 0, ())
    assert take_up_again(world, "one").state is OrderState.TAKEN


def test_an_order_sent_before_parcels_were_counted_comes_back_as_it_was():
    old = {
        "customer": ADA, "taken_on": TODAY, "state": "sent", "lines": [
            {"bait": SHAD, "look": BROWN, "packs": 2, "baits_each": 8, "picked": True,
             "set_aside": [{"lot": "B1", "packs": 2}]},
        ],
    }  # fmt: skip
    read = from_json(Order, old)
    back = after_return(read, Sale(sold_on=TODAY, lines=(sold("B1", 2),)))
    assert back == dataclasses.replace(read, state=OrderState.PACKED)


def test_a_line_holds_no_more_sent_and_set_aside_than_was_ordered():
    with pytest.raises(BadInput, match="sent: 2 packs are ordered"):
        OrderLine(bait=SHAD, look=BROWN, packs=2, sent=3)
    with pytest.raises(BadInput, match="1 of 2 packs are still to be sent"):
        OrderLine(bait=SHAD, look=BROWN, packs=2, sent=1, set_aside=(SetAside(lot="A", packs=2),))


def test_what_another_line_of_the_order_has_set_aside_is_not_sold_as_this_one(world):
    bagged(world, "B1", 1)
    loose = poured(world, 7, 12)
    order(world, "one", line(1), line(8, each=1))
    set_aside(world, "one")
    more = Sale(sold_on=TODAY, order="one", lines=(sold(loose, 1),))
    with pytest.raises(Conflict, match="8 of them set aside"):
        sell(world, more, key=KEY)


def sold(lot: str, packs: int) -> SaleLine:
    return SaleLine(bait=SHAD, look=BROWN, lot=lot, packs=packs, baits_each=8, price_money=6)


@st.composite
def parcels(draw: st.DrawFn) -> tuple[Order, list[Sale]]:
    """An order, all set aside, and parcels that hold no more than it."""
    lots = draw(st.lists(st.integers(1, 6), min_size=1, max_size=4))
    aside = tuple(SetAside(lot=f"B{i}", packs=n) for i, n in enumerate(lots))
    whole = OrderLine(
        bait=SHAD, look=BROWN, packs=sum(lots), baits_each=8, set_aside=aside, picked=True,
        price_money=6,
    )  # fmt: skip
    left, sales = list(aside), []
    while left:
        n = draw(st.integers(1, sum(it.packs for it in left)))
        lines = tuple(sold(it.lot, it.packs) for it in trimmed(left, n))
        sales.append(Sale(sold_on=TODAY, lines=lines))
        left = list(beyond(left, n))
    return Order(customer=ADA, taken_on=TODAY, lines=(whole,), state=OrderState.PACKED), sales


@given(parcels())
def test_every_parcel_taken_back_in_turn_leaves_the_order_as_it_was(made):
    order_, sales = made
    steps = [order_]
    for sale in sales:
        steps.append(after_sending(steps[-1], sale))
        (it,) = steps[-1].lines
        assert it.sent + it.aside == it.packs
    assert steps[-1].state is OrderState.SENT
    here = steps[-1]
    for sale, before in zip(reversed(sales), reversed(steps[:-1]), strict=True):
        here = after_return(here, sale)
        assert here.left == before.left
        assert sum(it.packs for it in here.lines[0].set_aside) == before.lines[0].aside
    assert here.lines[0].packs == here.lines[0].aside
    assert here.state is OrderState.PACKED
