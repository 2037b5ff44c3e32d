"""Bagging: from hanging lots into bags, with what speaks against it, and back."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.bag_baits import Bagging, Taken, bag_baits, bag_cause
from pourwright.actions.bag_doubt import Doubted
from pourwright.actions.buy_lot import buy_lot
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.hanging import hanging_lots
from pourwright.actions.keep_record import add_record
from pourwright.actions.see_rack import see_rack
from pourwright.actions.see_today import see_today
from pourwright.actions.take_out import Gone, TakingOut, out_cause, take_out
from pourwright.actions.undo_moves import undo_moves
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.check_scheme import check_character
from pourwright.shop.lot import LotEntry
from pourwright.shop.material import Colorant
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.order import Customer, Order, OrderLine, SetAside
from pourwright.shop.purchase import BuyUnit, Purchase
from pourwright.shop.stock_lot import LotSort, StockLot
from rack_bench import EACH_COST, EACH_MG, frozen, hung, poured
from ready_store import demo_bench

KEY, UNDO = "a1" * 16, "b2" * 16
OTHER_LOOK = "demo-look-marsh"


@pytest.fixture
def world(tmp_path):
    return demo_bench(tmp_path)


def bagging(*taken: tuple[str, int], each: int = 8, **more) -> Bagging:
    lots = tuple(Taken(lot=lot, baits=baits) for lot, baits in taken)
    return Bagging(taken=lots, baits_each=each, **more)


def held(world, code):
    with world.reading() as bench:
        return bench.stock.lot(code)


def rack(world):
    with world.reading() as bench:
        return see_rack(bench, world.clock.now())


def loose(world, code):
    return next(lot for lot in rack(world).loose if lot.code == code)


def bags_with(world, code):
    return next(bags for bags in rack(world).bags if code in [lot.code for lot in bags.lots])


def test_baits_of_two_lots_share_bags_with_their_mass_and_their_cost(world):
    first, second = poured(world, 2, 21), poured(world, 3, 30)
    made = bag_baits(world, bagging((first, 21), (second, 3)), key=KEY)
    assert (made.pieces, made.mg, made.cost) == (24, 24 * EACH_MG, 24 * EACH_COST)
    assert made.lot.baits_each == 8
    assert made.lot.code[0] == "B"
    assert check_character(made.lot.code[:-1]) == made.lot.code[-1]
    assert held(world, first).pieces == 0
    assert held(world, second).pieces == 27
    with world.reading() as bench:
        assert {m.source for m in bench.stock.came_from(made.lot.code)} >= {first, second}
    bags = bags_with(world, made.lot.code)
    assert (bags.bags, bags.set_aside) == (sum(it.held.pieces for it in bags.lots) // 8, 0)


def test_a_torn_bag_leaves_whole_bags_and_odd_baits(world):
    lot = poured(world, 2, 27)
    assert loose(world, lot).in_bags_of(8) == 24
    made = bag_baits(world, bagging((lot, 24)), key=KEY)
    take_out(world, TakingOut(lot=made.lot.code, baits=3), key=UNDO)
    bagged = next(it for it in bags_with(world, made.lot.code).lots if it.held.pieces == 21)
    assert (bagged.bags, bagged.odd, bagged.bags_set_aside) == (2, 5, 0)


def test_what_is_left_keeps_every_milligram_and_every_cost(world):
    lot = poured(world, 2, 7)
    with world.bench() as bench:
        odd = Move(
            id=world.ids.fresh(), at=world.clock.now(), kind=MoveKind.COUNTED, target=lot, mg=3,
            cost=2,
        )  # fmt: skip
        bench.stock.post(odd)
        bench.commit()
    before = held(world, lot)
    keys = (f"{n:032x}" for n in (16, 32, 48))
    made = [bag_baits(world, bagging((lot, n), each=n), key=next(keys)) for n in (2, 4, 1)]
    assert sum(it.mg for it in made) == before.mg
    assert sum(it.cost for it in made) == before.cost
    assert (held(world, lot).mg, held(world, lot).cost) == (0, 0)


def test_plastic_kept_for_remelt_stays_when_the_baits_go(world):
    # Five weigh 57.4 g, so that one weighs 11.48 g; 64 g and 63 g wait for a pot.
    entry = LotEntry(shots=18, good=31, five_g=57.4, remelt_g=64, sprue_g=63)
    lot = frozen(world, 2).code
    enter_lot(world, 2, entry, event_id="e1" * 16)
    assert held(world, lot).mg == 31 * 11_480 + 127_000
    made = bag_baits(world, bagging((lot, 24)), key=KEY)
    assert made.mg == 24 * 11_480
    rest = bag_baits(world, bagging((lot, 7), each=7), key=UNDO)
    assert rest.mg == 7 * 11_480
    left = held(world, lot)
    assert (left.mg, left.pieces, left.cost) == (127_000, 0, 0)
    assert lot not in [it.code for it in rack(world).loose]


def test_numbers_of_bagged_lots_count_on(world):
    lot = poured(world, 2, 16)
    codes = [bag_baits(world, bagging((lot, 8)), key=f"{n:032x}").lot.code for n in (16, 32)]
    first, second = (int(code[7:11]) for code in codes)
    assert second == first + 1


def test_the_same_press_twice_bags_once(world):
    lot = poured(world, 2, 24)
    once = bag_baits(world, bagging((lot, 8)), key=KEY)
    assert bag_baits(world, bagging((lot, 8)), key=KEY) == once
    assert held(world, lot).pieces == 16


def test_taken_back_all_is_where_it_was(world):
    lot = poured(world, 2, 24)
    before = held(world, lot)
    made = bag_baits(world, bagging((lot, 16)), key=KEY)
    for key in (UNDO, UNDO, "c3" * 16):
        undo_moves(world, bag_cause(KEY), key=key)
    assert held(world, lot) == before
    assert held(world, made.lot.code).pieces == 0
    assert made.lot.code not in [it.code for bags in rack(world).bags for it in bags.lots]


def test_bags_that_left_cannot_be_taken_back(world):
    lot = poured(world, 2, 24)
    made = bag_baits(world, bagging((lot, 16)), key=KEY)
    take_out(world, TakingOut(lot=made.lot.code, baits=8, why=Gone.GIVEN_AWAY), key="c3" * 16)
    with pytest.raises(Conflict):
        undo_moves(world, bag_cause(KEY), key=UNDO)
    assert held(world, made.lot.code).pieces == 8
    assert held(world, lot).pieces == 8
    with pytest.raises(NotFound):
        undo_moves(world, bag_cause("d4" * 16), key=UNDO)


def test_baits_that_have_not_hung_long_enough_wait_for_a_second_press(world):
    lot = poured(world, 2, 24)
    hung(world, lot, hours_ago=4)
    with pytest.raises(Doubted, match=r"Lot 2 should hang for another (19 h 59|20 h 0) min"):
        bag_baits(world, bagging((lot, 24)), key=KEY)
    assert held(world, lot).pieces == 24
    assert bag_baits(world, bagging((lot, 24), anyway=True), key=KEY).pieces == 24


def test_baits_that_hung_long_enough_are_bagged_at_once(world):
    lot = poured(world, 2, 24)
    hung(world, lot, hours_ago=25)
    assert loose(world, lot).hanging.overdue
    assert bag_baits(world, bagging((lot, 24)), key=KEY).pieces == 24


def test_a_lot_that_is_all_bagged_hangs_no_more_until_that_is_taken_back(world):
    lot = poured(world, 2, 24)
    hung(world, lot, hours_ago=25)
    bag_baits(world, bagging((lot, 16)), key=KEY)
    assert [it.sheet.code for it in hanging(world)] == [lot]
    bag_baits(world, bagging((lot, 8)), key=UNDO)
    assert hanging(world) == ()
    undo_moves(world, bag_cause(UNDO), key="c3" * 16)
    assert [it.sheet.code for it in hanging(world)] == [lot]


def hanging(world):
    with world.reading() as bench:
        now = world.clock.now()
        assert see_today(bench, now, now[:10]).hanging == hanging_lots(bench, now)
        return hanging_lots(bench, now)


def bleeding(world, name: str, *, bleeds: bool = True) -> None:
    with world.bench() as bench:
        look = bench.records.get("look", OTHER_LOOK).noun
        used = {dose.material for layer in look.layers for dose in layer.doses}
        stored = next(s for s in bench.records.all(Colorant.key) if s.id in used)
        noun = dataclasses.replace(stored.noun, name=name, bleeds=bleeds)
        bench.records.save(Colorant.key, stored.id, noun, expected_version=stored.version)
        bench.commit()


def test_a_color_that_bleeds_is_told_where_looks_share_a_bag(world):
    bleeding(world, "Bleeder")
    first, second = poured(world, 2, 12), poured(world, 3, 12, look=OTHER_LOOK)
    with pytest.raises(Doubted, match="Bleeder in Marsh green, copper flake bleeds: Slough shad"):
        bag_baits(world, bagging((first, 12), (second, 12)), key=KEY)
    mixed = bag_baits(world, bagging((first, 12), (second, 12), anyway=True), key=KEY)
    assert mixed.lot.item == "demo-bait-paddle|"
    assert mixed.lot.name.endswith("assorted looks")


def test_a_color_that_bleeds_may_lie_with_its_own(world):
    bleeding(world, "Bleeder")
    first, second = (poured(world, n, 12, look=OTHER_LOOK) for n in (2, 3))
    assert bag_baits(world, bagging((first, 12), (second, 12)), key=KEY).pieces == 24


def test_colors_that_do_not_bleed_share_a_bag_at_once(world):
    bleeding(world, "Fast", bleeds=False)
    first, second = poured(world, 2, 12), poured(world, 3, 12, look=OTHER_LOOK)
    made = bag_baits(world, bagging((first, 12), (second, 12)), key=KEY)
    assert (made.pieces, made.lot.item) == (24, "demo-bait-paddle|")


def test_assorted_bags_are_all_alike(world):
    first, second = poured(world, 2, 12), poured(world, 3, 12, look=OTHER_LOOK)
    with pytest.raises(BadInput, match="cannot be shared out evenly over 2 bags"):
        bag_baits(world, bagging((first, 11), (second, 5)), key=KEY)


def test_different_baits_are_not_mixed(world):
    first = poured(world, 2, 12)
    with world.bench() as bench:
        sheet = bench.sheets.get(1)
        other = dataclasses.replace(
            sheet, number=9, code="P2601010009" + check_character("P2601010009"),
            draft={**sheet.draft, "mold": "demo-mold-worm"},
        )  # fmt: skip
        bench.sheets.add(other)
        bench.stock.open(StockLot(
            code=other.code, sort=LotSort.POURED, item="sheet/9", opened_at=sheet.frozen_at,
            name="Worms",
        ))  # fmt: skip
        bench.stock.post(Move(
            id=world.ids.fresh(), at=sheet.frozen_at, kind=MoveKind.COUNTED, target=other.code,
            pieces=12, mg=12_000,
        ))  # fmt: skip
        bench.commit()
    with pytest.raises(BadInput, match="are different baits: bag each on its own"):
        bag_baits(world, bagging((first, 4), (other.code, 4)), key=KEY)


def set_aside(world, lot: str, packs: int, each: int) -> None:
    customer = add_record(world, Customer(name="Invented customer")).id
    line = OrderLine(
        bait="demo-bait-paddle", look="demo-look-shad", packs=packs, baits_each=each,
        set_aside=(SetAside(lot=lot, packs=packs),),
    )  # fmt: skip
    add_record(world, Order(name="One", customer=customer, taken_on="2026-01-02", lines=(line,)))


def test_what_orders_have_set_aside_stays(world):
    lot = poured(world, 2, 24)
    set_aside(world, lot, 2, 8)
    assert (loose(world, lot).set_aside, loose(world, lot).free) == (16, 8)
    with pytest.raises(Conflict, match="holds 24 baits, 16 of them set aside for orders"):
        bag_baits(world, bagging((lot, 16)), key=KEY)
    with pytest.raises(Conflict, match="16 of the 24 baits are set aside"):
        take_out(world, TakingOut(lot=lot, baits=9), key=KEY)
    assert bag_baits(world, bagging((lot, 8)), key=KEY).pieces == 8


def test_more_than_there_is_and_what_is_no_lot_are_refused(world):
    lot = poured(world, 2, 24)
    with pytest.raises(Conflict, match="holds 24 baits"):
        bag_baits(world, bagging((lot, 32)), key=KEY)
    with pytest.raises(NotFound):
        bag_baits(world, bagging(("P2601010099X", 8)), key=KEY)
    bags = bag_baits(world, bagging((lot, 8)), key=KEY).lot.code
    with pytest.raises(BadInput, match="only loose baits are bagged"):
        bag_baits(world, bagging((bags, 8)), key=UNDO)


@pytest.mark.parametrize(
    ("taken", "each", "why"),
    [
        ((("P1", 10),), 8, "10 baits in bags of 8 leave 2 over"),
        ((("P1", 8), ("P1", 8)), 8, "names a lot twice"),
        ((), 8, "1 to 20 entries"),
        ((("P1", 0),), 8, "between 1 and"),
    ],
)
def test_bags_that_cannot_be_are_refused(taken, each, why):
    with pytest.raises(BadInput, match=why):
        bagging(*taken, each=each)


def test_packing_is_counted_down_the_oldest_first(world):
    lot = poured(world, 2, 24)
    with world.bench() as bench:
        for code, pieces in (("M2601010001", 2), ("M2601020002", 50)):
            full = code + check_character(code)
            bench.stock.open(StockLot(
                code=full, sort=LotSort.MATERIAL, item="packing/demo-packing",
                opened_at=f"20{code[1:3]}-{code[3:5]}-{code[5:7]}T00:00:00Z", name="Bags",
            ))  # fmt: skip
            bench.stock.post(Move(
                id=world.ids.fresh(), at="2026-01-03T00:00:00Z", kind=MoveKind.BOUGHT,
                target=full, pieces=pieces, cost=pieces * 900,
            ))  # fmt: skip
        bench.commit()
    made = bag_baits(world, bagging((lot, 24), packing="demo-packing"), key=KEY)
    assert made.pieces == 24
    with world.reading() as bench:
        left = [h.pieces for h in bench.stock.lots(LotSort.MATERIAL, item="packing/demo-packing")]
    assert left == [0, 49]
    undo_moves(world, bag_cause(KEY), key=UNDO)
    with world.reading() as bench:
        left = [h.pieces for h in bench.stock.lots(LotSort.MATERIAL, item="packing/demo-packing")]
    assert left == [2, 50]


def test_fewer_bags_than_the_books_need_are_said_before_and_a_second_press_goes_over_it(world):
    lot = poured(world, 2, 24)
    short = bagging((lot, 24), packing="demo-packing")
    bag = Purchase(quantity=1, unit=BuyUnit.PIECE, price_money=0.1)
    code = buy_lot(world, "packing", "demo-packing", bag, key="e" * 32).lot.code
    with pytest.raises(Doubted, match=r"The books have 1 of .*, and 3 are needed"):
        bag_baits(world, short, key=KEY)
    made = bag_baits(world, dataclasses.replace(short, anyway=True), key=KEY)
    assert made.pieces == 24
    with world.reading() as bench:
        assert bench.stock.lot(code).pieces == 0


def test_baits_thrown_away_are_gone_with_the_reason_and_can_come_back(world):
    lot = poured(world, 2, 24)
    take_out(world, TakingOut(lot=lot, baits=3, why=Gone.OWN_USE, note="for Sunday"), key=KEY)
    take_out(world, TakingOut(lot=lot, baits=3, why=Gone.OWN_USE, note="for Sunday"), key=KEY)
    assert held(world, lot).pieces == 21
    with world.reading() as bench:
        (move,) = bench.stock.moves(cause=out_cause(KEY))
    assert (move.kind, move.note) == (MoveKind.SCRAPPED, "kept for own use: for Sunday")
    assert (move.mg, move.cost) == (3 * EACH_MG, 3 * EACH_COST)
    undo_moves(world, out_cause(KEY), key=UNDO)
    assert held(world, lot).pieces == 24
    with pytest.raises(Conflict, match="holds 24 baits, not 25"):
        take_out(world, TakingOut(lot=lot, baits=25), key="e5" * 16)


def test_an_older_lot_of_the_same_bags_goes_first(world):
    lot = poured(world, 2, 24)
    first, second = (
        bag_baits(world, bagging((lot, 8)), key=f"{n:032x}").lot.code for n in (16, 32)
    )
    by_four = bag_baits(world, bagging((lot, 4), each=4), key="f6" * 16).lot.code
    codes = [it.code for it in bags_with(world, first).lots]
    assert codes.index(first) < codes.index(second)
    assert by_four not in codes
    assert bags_with(world, by_four).first.each == 4


def test_a_lot_that_hangs_and_is_in_no_stock_is_named(world):
    code = frozen(world, 2).code
    hung(world, code, hours_ago=1)
    seen = rack(world)
    assert [(it.sheet.code, it.good) for it in seen.unbooked] == [(code, None)]
    assert code not in [it.code for it in seen.loose]
