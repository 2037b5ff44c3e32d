"""Orders from being taken to being sent, and a sale taken back."""

from __future__ import annotations

import dataclasses
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from order_bench import (
    ADA,
    BROWN,
    EACH_COST,
    EACH_MG,
    MARSH,
    SHAD,
    WORM,
    bagged,
    line,
    order,
    order_bench,
    poured,
    priced,
)
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.kept_order import order_at
from pourwright.actions.pack_order import (
    call_off,
    confirm_order,
    pack_order,
    pick_line,
    take_up_again,
)
from pourwright.actions.reply_message import confirming_text
from pourwright.actions.sales_of import sale_of, sales_of
from pourwright.actions.see_orders import Standing, see_order, see_orders
from pourwright.actions.sell import sell
from pourwright.actions.send_order import PricedLine, SendEntry, price_asked, send_order
from pourwright.actions.set_aside import give_back, set_aside
from pourwright.actions.take_back_sale import take_back_sale
from pourwright.actions.take_order import (
    OrderEntry,
    WantedLine,
    change_order,
    entry_of,
    take_order,
)
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.base.record import from_json
from pourwright.shop.allot import Shelf, allotted, joined, trimmed
from pourwright.shop.mold import Mold
from pourwright.shop.money import Money
from pourwright.shop.move import MoveKind
from pourwright.shop.order import Customer, Order, OrderLine, OrderState, SetAside
from pourwright.shop.sale import Exempt, Sale, SaleLine, TaxWay
from pourwright.shop.stock_lot import LotSort, StockLot

TODAY, AT = "2026-02-15", "2026-02-15T10:00:00Z"
KEY, OTHER = "a" * 32, "b" * 32


@pytest.fixture
def world(tmp_path):
    return order_bench(tmp_path)


def kept(world, key: str) -> Order:
    with world.reading() as bench:
        return order_at(bench, key)[1]


def held(world, code: str):
    with world.reading() as bench:
        return bench.stock.lot(code)


def entry(*prices: float, **more) -> SendEntry:
    return SendEntry(
        lines=tuple(PricedLine(price_money=p) for p in prices), sold_on=TODAY, **more
    )  # fmt: skip


def all_picked(world, key: str) -> None:
    set_aside(world, key)
    for i in range(len(kept(world, key).lines)):
        pick_line(world, key, i, picked=True)
    pack_order(world, key)


# -- which lots serve an order


@given(
    st.integers(0, 60),
    st.integers(1, 12),
    st.lists(
        st.builds(
            Shelf, st.text("ABC", min_size=3, max_size=3), st.sampled_from([0, 4, 6, 8, 12]),
            st.integers(0, 90),
        ),
        max_size=8, unique_by=lambda it: it.lot,
    ),
)  # fmt: skip
def test_never_more_is_allotted_than_there_is_and_never_less_than_could_be(packs, each, shelves):
    found = {it.lot: it.packs for it in allotted(packs, each, shelves)}
    room = {s.lot: s.free // each for s in shelves if s.bagged in {0, each}}
    assert all(found[lot] <= room[lot] for lot in found)
    assert sum(found.values()) == min(packs, sum(room.values()))


def test_bags_go_before_loose_baits_and_the_oldest_first():
    shelves = [Shelf("loose", 0, 80), Shelf("old", 8, 16), Shelf("new", 8, 80), Shelf("six", 6, 60)]
    assert allotted(5, 8, shelves) == (SetAside(lot="old", packs=2), SetAside(lot="new", packs=3))
    assert allotted(13, 8, shelves)[-1] == SetAside(lot="loose", packs=1)


def test_set_aside_packs_are_joined_and_trimmed_lot_by_lot():
    some = (SetAside(lot="A", packs=2), SetAside(lot="B", packs=3))
    assert joined(some, (SetAside(lot="B", packs=1),))[1] == SetAside(lot="B", packs=4)
    assert trimmed(some, 3) == (SetAside(lot="A", packs=2), SetAside(lot="B", packs=1))
    assert trimmed(some, 0) == ()


# -- set aside, pick, pack


def test_an_order_takes_bags_then_loose_baits(world):
    loose, bags = poured(world, 7, 20), bagged(world, "B1", 2)
    order(world, "one", line(4))
    found = set_aside(world, "one").lines[0].set_aside
    assert found == (SetAside(lot=bags, packs=2), SetAside(lot=loose, packs=2))
    with world.reading() as bench:
        assert baits_set_aside(bench) == {bags: 16, loose: 16}


def test_what_another_order_has_set_aside_stays_with_it(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2))
    order(world, "two", line(2))
    set_aside(world, "one")
    assert set_aside(world, "two").lines[0].aside == 1
    with pytest.raises(Conflict, match="must be poured"):
        set_aside(world, "two")
    give_back(world, "one")
    assert set_aside(world, "two").lines[0].aside == 2


def test_two_lines_of_one_order_share_a_lot(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2), line(2))
    assert [it.aside for it in set_aside(world, "one").lines] == [2, 1]


def test_bags_of_another_size_or_look_do_not_serve(world):
    bagged(world, "B1", 3, each=6)
    bagged(world, "B2", 3, look=MARSH)
    order(world, "one", line(1))
    with pytest.raises(Conflict, match="must be poured"):
        set_aside(world, "one")


def test_only_what_lies_in_the_parcel_is_packed(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2), line(2))
    set_aside(world, "one")
    pick_line(world, "one", 0, picked=True)
    with pytest.raises(Conflict, match="1 packs of that line are not set aside"):
        pick_line(world, "one", 1, picked=True)
    with pytest.raises(Conflict, match="1 line is not picked"):
        pack_order(world, "one")
    with pytest.raises(BadInput, match="the order has 2 lines"):
        pick_line(world, "one", 2, picked=True)


def test_a_parcel_is_opened_by_taking_something_out(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2))
    all_picked(world, "one")
    assert kept(world, "one").state is OrderState.PACKED
    assert pick_line(world, "one", 0, picked=False).state is OrderState.TAKEN
    all_picked(world, "one")
    assert give_back(world, "one", line=0).state is OrderState.TAKEN


def test_an_order_called_off_frees_its_packs_and_can_be_taken_up_again(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2))
    set_aside(world, "one")
    call_off(world, "one")
    with world.reading() as bench:
        assert not baits_set_aside(bench)
    with pytest.raises(Conflict, match="the order is called off"):
        set_aside(world, "one")
    assert take_up_again(world, "one").state is OrderState.TAKEN
    with pytest.raises(Conflict, match="the order is taken, not called off"):
        take_up_again(world, "one")


def test_an_order_asked_about_is_taken_once_it_is_confirmed(world):
    order(world, "one", line(2), state=OrderState.ASKED)
    assert confirm_order(world, "one").state is OrderState.TAKEN


@pytest.mark.parametrize(
    ("more", "why"),
    [({"set_aside": (SetAside(lot="A", packs=3),)}, "2 packs are ordered"),
     ({"picked": True}, "0 of them are set aside")],
)  # fmt: skip
def test_a_line_holds_no_more_than_was_ordered(more, why):
    with pytest.raises(BadInput, match=why):
        OrderLine(bait=SHAD, look=BROWN, packs=2, **more)


@pytest.mark.parametrize(
    ("taken", "due", "field"),
    [("2026-02-30", "", "taken_on"), ("2026-02-01", "2026-13-01", "due_on")],
)
def test_a_day_that_does_not_exist_is_refused(taken, due, field):
    with pytest.raises(BadInput, match=f"{field}: is no day"):
        Order(customer=ADA, taken_on=taken, due_on=due)


def test_a_day_typed_otherwise_is_answered_by_an_example():
    said = {"customer": ADA, "taken_on": "yesterday", "lines": []}
    with pytest.raises(BadInput, match="must look like 2026-04-01 "):
        from_json(Order, said)


# -- the list of orders


def test_late_orders_stand_first_and_free_stock_counts_once(world):
    bagged(world, "B1", 3)
    order(world, "later", line(2), due="2026-02-20")
    order(world, "late", line(2), due="2026-02-14")
    order(world, "whenever", line(1))
    with world.reading() as bench:
        seen = see_orders(bench, TODAY)
    assert [(it.id, it.ready, it.short, it.late) for it in seen.open] == [
        ("late", 2, 0, True), ("later", 1, 1, False), ("whenever", 0, 1, False),
    ]  # fmt: skip
    assert seen.late == 1
    (wanted,) = seen.wanted
    assert (wanted.packs, wanted.baits, wanted.due_on) == (2, 16, "2026-02-20")


def test_the_answer_to_a_late_order_owns_up_to_it(world):
    order(world, "late", line(2), due="2026-02-14")
    order(world, "today", line(2), due=TODAY)
    with world.reading() as bench:
        said = [
            confirming_text(see_order(bench, key, TODAY), lambda _: None, currency="$")
            for key in ("late", "today")
        ]
    assert "You asked for Saturday, February 14, and I am late" in said[0]
    assert "late" not in said[1]


def test_an_order_for_a_bait_without_a_mold_is_said_and_kept(world):
    order(world, "one", line(1, bait=WORM, look=MARSH))
    with world.bench() as bench:
        mold = bench.records.get(Mold.key, "demo-mold-worm")
        bench.records.retire(Mold.key, mold.id, expected_version=mold.version)
        bench.commit()
    with world.reading() as bench:
        view = see_order(bench, "one", TODAY)
    assert not view.lines[0].mold
    assert view.lines[0].bait == "Seven-inch marsh worm"


def test_the_standing_goes_step_by_step(world):
    def standing() -> Standing:
        with world.reading() as bench:
            return see_order(bench, "one", TODAY).standing

    order(world, "one", line(2))
    found = [standing()]
    bagged(world, "B1", 2)
    found.append(standing())
    set_aside(world, "one")
    found.append(standing())
    pick_line(world, "one", 0, picked=True)
    found.append(standing())
    pack_order(world, "one")
    found.append(standing())
    send_order(world, "one", entry(6), key=KEY)
    assert [*found, standing()] == [
        Standing.TO_POUR, Standing.READY, Standing.ASIDE, Standing.PICKED, Standing.PACKED,
        Standing.OVER,
    ]  # fmt: skip


# -- selling


def test_a_sale_takes_baits_with_their_mass_and_cost_and_sends_the_order(world):
    loose = poured(world, 7, 20)
    bagged(world, "B1", 2)
    order(world, "one", line(4))
    all_picked(world, "one")
    sale = send_order(world, "one", entry(6.5, fees_money=1.2, delivery_money=5), key=KEY)
    assert [(it.lot, it.packs) for it in sale.sale.lines] == [("B1", 2), (loose, 2)]
    assert kept(world, "one").state is OrderState.SENT
    assert (held(world, "B1").pieces, held(world, "B1").mg, held(world, "B1").cost) == (0, 0, 0)
    left = held(world, loose)
    assert (left.pieces, left.mg, left.cost) == (4, 4 * EACH_MG, 4 * EACH_COST)
    with world.reading() as bench:
        moves = bench.stock.moves(cause=f"sale/{KEY}")
        assert {m.kind for m in moves} == {MoveKind.SOLD}
        assert sum(m.cost for m in moves) == 32 * EACH_COST
        assert bench.ledger.check()
    assert (sale.sale.goods, sale.sale.received) == (Money.of(26), Money.of(31))


def test_the_same_sale_sent_twice_is_one(world):
    bagged(world, "B1", 2)
    order(world, "one", line(2))
    set_aside(world, "one")
    first = send_order(world, "one", entry(6), key=KEY)
    with world.reading() as bench:
        before = bench.ledger.check()
    again = sell(world, first.sale, key=KEY)
    with world.reading() as bench:
        assert bench.ledger.check() == before
    assert again == first


def test_an_order_of_which_nothing_is_set_aside_is_not_sent(world):
    bagged(world, "B1", 1)
    order(world, "one", line(2))
    with pytest.raises(Conflict, match="nothing of the order is set aside"):
        send_order(world, "one", entry(6), key=KEY)
    assert held(world, "B1").pieces == 8
    assert kept(world, "one").state is OrderState.TAKEN


def test_no_more_is_sent_than_was_ordered(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2))
    more = dataclasses.replace(sold("B1", 3), order="one")
    with pytest.raises(Conflict, match="left of the order: 1 of Four-inch slough shad in Slough"):
        sell(world, more, key=KEY)
    assert held(world, "B1").pieces == 24


def sold(lot: str, packs: int = 1, **more) -> Sale:
    line = {"bait": SHAD, "look": BROWN, "baits_each": 8, "price_money": 6} | more
    return Sale(sold_on=TODAY, lines=(from_json(SaleLine, line | {"lot": lot, "packs": packs}),))


def test_what_is_not_there_cannot_be_sold(world):
    bagged(world, "B1", 2)
    order(world, "one", line(1))
    set_aside(world, "one")
    with pytest.raises(Conflict, match=r"holds 16 baits, 8 of them set aside.*16 cannot be sold"):
        sell(world, sold("B1", 2), key=KEY)
    with pytest.raises(Conflict, match="24 cannot be sold from it"):
        sell(world, sold("B1", 3), key=KEY)
    with pytest.raises(NotFound):
        sell(world, sold("B9"), key=KEY)
    with world.reading() as bench:
        assert not sales_of(bench)
    assert held(world, "B1").pieces == 16


@pytest.mark.parametrize(
    ("more", "why"),
    [({"look": MARSH}, "holds another bait or look"),
     ({"baits_each": 4}, "is bagged by 8, not by 4")],
)  # fmt: skip
def test_a_lot_is_not_sold_as_something_else(world, more, why):
    bagged(world, "B1", 2)
    with pytest.raises(BadInput, match=why):
        sell(world, sold("B1", **more), key=KEY)


def test_a_lot_of_material_is_no_bait(world):
    lot = StockLot(
        code="M1", sort=LotSort.MATERIAL, item="plastic/demo-plastic-medium", opened_at=AT, name="M"
    )
    with world.bench() as bench:
        bench.stock.open(lot)
        bench.commit()
    with pytest.raises(BadInput, match="holds no finished baits"):
        sell(world, sold("M1"), key=KEY)


def test_a_sale_of_nothing_is_refused(world):
    with pytest.raises(BadInput, match="nothing is sold"):
        sell(world, Sale(sold_on=TODAY), key=KEY)


def test_more_delivery_than_goods_cannot_lie_inside_the_prices():
    with pytest.raises(BadInput, match="delivery_money: is said to lie inside"):
        dataclasses.replace(sold("B1"), delivery_money=7, delivery_inside=True)


def test_each_line_keeps_its_tax_way_and_its_exemption_as_typed(world):
    bagged(world, "B1", 2)
    order(world, "one", line(1))
    set_aside(world, "one")
    priced_line = PricedLine(
        price_money=6, tax_way=TaxWay.ADDED, exempt=Exempt.EXPORT, proof="=1+1 bill of lading"
    )
    send_order(world, "one", SendEntry(lines=(priced_line,), sold_on=TODAY), key=KEY)
    with world.reading() as bench:
        (found,) = sale_of(bench, KEY).sale.lines
    assert (found.tax_way, found.exempt, found.proof) == (
        TaxWay.ADDED, Exempt.EXPORT, "=1+1 bill of lading",
    )  # fmt: skip


def test_a_price_is_that_of_the_order_else_of_the_list_else_nobody_knows(world):
    priced(world, 7.25)
    with world.reading() as bench:
        typed, listed = line(2), dataclasses.replace(line(2), price_money=None)
        assert price_asked(bench, typed) == Money.of(6.5)
        assert price_asked(bench, listed) == Money.of(7.25)
        assert price_asked(bench, dataclasses.replace(listed, baits_each=5)) is None


# -- taking back


def test_a_sale_taken_back_puts_everything_where_it_was(world):
    loose = poured(world, 7, 20)
    bagged(world, "B1", 2)
    order(world, "one", line(4))
    all_picked(world, "one")
    before = held(world, loose), held(world, "B1"), kept(world, "one")
    send_order(world, "one", entry(6.5), key=KEY)
    undone = take_back_sale(world, KEY, why="wrong parcel", key=OTHER)
    assert (held(world, loose), held(world, "B1"), kept(world, "one")) == before
    assert (undone.why, undone.stands) == ("wrong parcel", False)
    with world.reading() as bench:
        assert sales_of(bench) == (undone,)
        assert sum(m.cost * (-1 if m.reverses else 1) for m in
                   bench.stock.moves(cause=f"sale/{KEY}")) == 0  # fmt: skip


def test_a_sale_is_taken_back_once_and_with_a_reason(world):
    bagged(world, "B1", 2)
    sell(world, sold("B1"), key=KEY)
    with pytest.raises(BadInput, match="why: say why"):
        take_back_sale(world, KEY, why="  ", key=OTHER)
    first = take_back_sale(world, KEY, why="returned", key=OTHER)
    assert take_back_sale(world, KEY, why="returned", key=OTHER) == first
    with pytest.raises(Conflict, match="was taken back before"):
        take_back_sale(world, KEY, why="again", key="c" * 32)
    assert held(world, "B1").pieces == 16


def test_an_order_sent_again_after_a_sale_was_taken_back_is_a_new_sale(world):
    bagged(world, "B1", 2)
    order(world, "one", line(2))
    all_picked(world, "one")
    send_order(world, "one", entry(6), key=KEY)
    take_back_sale(world, KEY, why="wrong address", key=OTHER)
    send_order(world, "one", entry(6), key="c" * 32)
    with world.reading() as bench:
        assert [it.stands for it in sales_of(bench)] == [False, True]


def test_sales_are_read_by_the_maker_s_own_day(world):
    bagged(world, "B1", 3)
    for key, day in ((KEY, "2026-03-31"), (OTHER, "2026-04-01")):
        sell(world, dataclasses.replace(sold("B1"), sold_on=day), key=key)
    with world.reading() as bench:
        assert [it.id for it in sales_of(bench, before="2026-04-01")] == [KEY]
        assert [it.id for it in sales_of(bench, since="2026-04-01")] == [OTHER]
        with pytest.raises(NotFound, match="there is no sale"):
            sale_of(bench, "c" * 32)


@pytest.mark.parametrize("packs", [(1, 1, 1), (2, 1), (3,)])
def test_sales_of_parts_share_out_mass_and_cost_to_the_last_grain(world, packs):
    """Whatever way a lot is sold, all of it leaves: nothing stays behind, nothing is made up."""
    bagged(world, "B1", 3)
    whole = held(world, "B1")
    for i, n in enumerate(packs, start=1):
        sell(world, sold("B1", n), key=f"{i:02x}" * 16)
    with world.reading() as bench:
        moves = [m for m in bench.stock.moves(lot="B1") if m.kind is MoveKind.SOLD]
    assert (sum(m.mg for m in moves), sum(m.cost for m in moves)) == (whole.mg, whole.cost)
    assert held(world, "B1").pieces == 0
    for move in moves:
        assert abs(Fraction(move.cost, move.pieces) - EACH_COST) < 1


# -- taking and changing an order


def wanted(packs: int = 2, **more) -> WantedLine:
    return WantedLine(bait=SHAD, look=BROWN, packs=packs, baits_each=8, **more)


def test_an_order_of_a_new_customer_makes_one_record_of_them(world):
    taken = OrderEntry(new_customer="Cy Fen", lines=(wanted(),), taken_on=TODAY)
    take_order(world, taken, key=KEY, message="=HYPERLINK(1) 2 packs")
    take_order(world, taken, key=KEY)
    take_order(world, dataclasses.replace(taken, new_customer=" cy fen "), key=OTHER)
    with world.reading() as bench:
        names = [s.noun.name for s in bench.records.all(Customer.key)]
        assert names.count("Cy Fen") == 1
        assert bench.records.get(Order.key, KEY).version == 1
    assert kept(world, KEY).message == "=HYPERLINK(1) 2 packs"
    assert kept(world, KEY).customer == kept(world, OTHER).customer


def test_an_order_of_nobody_or_of_two_people_is_refused():
    with pytest.raises(BadInput, match="pick a customer or name a new one"):
        OrderEntry(lines=(wanted(),), taken_on=TODAY)
    with pytest.raises(BadInput, match="pick or name, not both"):
        OrderEntry(customer=ADA, new_customer="Bo", lines=(wanted(),), taken_on=TODAY)


def test_an_order_for_what_is_not_on_the_bench_is_refused(world):
    gone = dataclasses.replace(wanted(), look="no-such-look")
    with pytest.raises(BadInput, match=r"lines\[0\].look: is not on the bench"):
        take_order(
            world, OrderEntry(new_customer="Cy", lines=(gone,), taken_on=TODAY), key=KEY
        )  # fmt: skip


def test_a_changed_order_keeps_aside_what_is_still_wanted(world):
    bagged(world, "B1", 5)
    order(world, "one", line(3), line(1, look=MARSH))
    set_aside(world, "one")
    first = entry_of(kept(world, "one"))
    version = 2
    fewer = dataclasses.replace(first, lines=(wanted(2), first.lines[1]))
    changed = change_order(world, "one", fewer, expected_version=version)
    assert changed.lines[0].set_aside == (SetAside(lot="B1", packs=2),)
    with pytest.raises(Conflict, match="was changed since you opened it"):
        change_order(world, "one", first, expected_version=version)


def test_a_parcel_whose_order_grows_is_open_again(world):
    bagged(world, "B1", 5)
    order(world, "one", line(2))
    all_picked(world, "one")
    more = dataclasses.replace(entry_of(kept(world, "one")), lines=(wanted(3),))
    with world.reading() as bench:
        version = bench.records.get(Order.key, "one").version
    changed = change_order(world, "one", more, expected_version=version)
    assert (changed.state, changed.lines[0].picked) == (OrderState.TAKEN, False)
