"""A counted batch takes its materials out of the stock and puts its good baits in."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.buy_lot import buy_lot
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.fill_pot import fill_pot
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.keep_record import change_record
from pourwright.actions.port import World
from pourwright.actions.post_material import FOUND, Deed, take
from pourwright.actions.post_pour import post_pour
from pourwright.actions.pour_books import pour_books
from pourwright.base.errors import Conflict
from pourwright.shop.lot import LotEntry
from pourwright.shop.material import Material
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.purchase import BuyUnit, Purchase
from pourwright.shop.stock_lot import LotSort
from pourwright.store.stock import SqlStock

PLASTIC, POT = "demo-plastic-medium", "demo-remelt"
ENTRY = LotEntry(shots=8, good=24, flash=6, five_g=74.0, remelt_g=60, sprue_g=40)
KEY, LATER = "c" * 32, "2026-02-01T00:00:00Z"


def on_hand(world: World, sort: str, id: str) -> float:
    with world.bench() as bench:
        noun = bench.records.get(sort, id).noun
    assert isinstance(noun, Material)
    return noun.on_hand_g or 0.0


def balanced(world: World) -> None:
    """What all lots hold is what came in less what went out, and no lot holds less than nothing."""
    with world.bench() as bench:
        lots, moves = bench.stock.lots(), bench.stock.moves()
    for amount in ("mg", "pieces", "cost"):
        held = [getattr(h, amount) for h in lots]
        into = sum(getattr(m, amount) for m in moves if not m.source)
        out = sum(getattr(m, amount) for m in moves if not m.target)
        assert sum(held) == into - out
        assert min(held) >= 0


def test_the_sheets_grams_leave_the_oldest_lots_and_the_baits_stand_in_the_poured_one(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    need = {line["material"]: line["need_g"] for line in sheet.plan["shelf"]}
    assert on_hand(world, "plastic", PLASTIC) == pytest.approx(3100 - need[PLASTIC], abs=1e-3)
    assert on_hand(world, "colorant", "demo-color-moss") == pytest.approx(
        24 - need["demo-color-moss"], abs=1e-3
    )
    with world.bench() as bench:
        held = bench.stock.lot(sheet.code)
        used = [m for m in bench.stock.moves(lot=sheet.code) if m.kind is MoveKind.USED]
        loss = [m for m in bench.stock.moves(lot=sheet.code) if m.kind is MoveKind.SCRAPPED]
    assert (held.lot.sort, held.pieces) == (LotSort.POURED, 24)
    assert held.mg == 24 * 14_800 + 100_000
    assert {m.mg for m in used} == {round(g * 1000) for g in need.values()}
    assert sum(m.mg for m in used) == held.mg + loss[0].mg
    assert held.cost == sum(m.cost for m in used)
    # 519.472 g of plastic at 46 for 3975 g.
    assert max(m.cost for m in used) == pytest.approx(519.472 / 3975 * 46 * 10_000, abs=2)
    balanced(world)


def test_the_same_entry_sent_twice_takes_once(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY, event_id=KEY)
    once = moves_of(world, sheet.number)
    enter_lot(world, sheet.number, ENTRY, event_id=KEY)
    assert moves_of(world, sheet.number) == once


def test_a_correction_keeps_what_was_used_and_counts_the_baits_anew(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    left = on_hand(world, "plastic", PLASTIC)
    enter_lot(world, sheet.number, dataclasses.replace(ENTRY, good=20, flash=10))
    assert on_hand(world, "plastic", PLASTIC) == left
    with world.bench() as bench:
        held = bench.stock.lot(sheet.code)
    assert (held.pieces, held.mg) == (20, 20 * 14_800 + 100_000)
    balanced(world)


def test_fewer_baits_than_went_on_are_refused_and_the_first_count_stays(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    with world.bench() as bench:
        bench.stock.post(
            Move(
                id=KEY, at="2026-02-01T00:00:00Z", kind=MoveKind.SOLD, source=sheet.code, pieces=22
            )
        )
        bench.commit()
    with pytest.raises(Conflict, match=r"22 baits of lot .* are bagged, sold or gone"):
        enter_lot(world, sheet.number, dataclasses.replace(ENTRY, good=21, flash=9))
    with world.bench() as bench:
        assert bench.stock.lot(sheet.code).pieces == 2


def test_what_the_books_do_not_have_is_found_by_a_count(world):
    change(world, "plastic", PLASTIC, on_hand_g=100.0)
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    assert on_hand(world, "plastic", PLASTIC) == 0
    with world.bench() as bench:
        found = [m for m in bench.stock.moves() if m.note.startswith("used, though")]
    need = next(x["need_g"] for x in sheet.plan["shelf"] if x["material"] == PLASTIC)
    assert [m.mg for m in found] == [round(need * 1000) - 100_000]
    balanced(world)


def test_what_was_found_stays_said_until_the_count_is_taken_back(world):
    change(world, "plastic", PLASTIC, on_hand_g=100.0)
    first, second = (freeze_sheet(world, DEMO_DRAFT) for _ in range(2))
    enter_lot(world, first.number, ENTRY)
    change(world, "plastic", PLASTIC, on_hand_g=1000.0)
    enter_lot(world, second.number, ENTRY)
    enter_lot(world, first.number, dataclasses.replace(ENTRY, good=20, flash=10))
    need = next(x["need_g"] for x in first.plan["shelf"] if x["material"] == PLASTIC)
    with world.bench() as bench:
        name = bench.records.get("plastic", PLASTIC).noun.name
        (found,) = pour_books(bench, first, ENTRY).found
        assert (found.name, found.found_mg) == (name, round(need * 1000) - 100_000)
        assert pour_books(bench, second, ENTRY).found == ()
        post_pour(bench, first, None, key=KEY, at=LATER)
        assert pour_books(bench, first, None).found == ()


def test_the_stock_is_behind_a_count_that_it_does_not_hold(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    with world.bench() as bench:
        assert pour_books(bench, sheet, ENTRY).behind
        assert not pour_books(bench, sheet, None).behind
    enter_lot(world, sheet.number, ENTRY)
    with world.bench() as bench:
        assert not pour_books(bench, sheet, ENTRY).behind
        assert pour_books(bench, sheet, dataclasses.replace(ENTRY, good=20)).behind


def fails_at(monkeypatch: pytest.MonkeyPatch, kind: MoveKind) -> None:
    """A store that takes no move of that kind."""
    post = SqlStock.post

    def refusing(self: SqlStock, *moves: Move) -> None:
        if any(m.kind is kind for m in moves):
            raise Conflict("no room in the books")
        post(self, *moves)

    monkeypatch.setattr(SqlStock, "post", refusing)


@pytest.mark.parametrize("kind", [MoveKind.USED, MoveKind.MADE, MoveKind.SCRAPPED])
def test_a_posting_that_fails_midway_leaves_nothing(world, monkeypatch, kind):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    with world.bench() as bench:
        before = bench.stock.moves(), bench.stock.lots(), bench.ledger.check()
        fails_at(monkeypatch, kind)
        with pytest.raises(Conflict, match="no room"):
            post_pour(bench, sheet, ENTRY, key=KEY, at=LATER)
        assert (bench.stock.moves(), bench.stock.lots(), bench.ledger.check()) == before
    assert on_hand(world, "plastic", PLASTIC) == 3100


def test_a_material_nobody_counted_gets_a_lot_of_unknown_beginning(world):
    change(world, "plastic", PLASTIC, on_hand_g=None)
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    with world.bench() as bench:
        (lot,) = bench.stock.lots(item=f"plastic/{PLASTIC}")
        assert [m.kind for m in bench.stock.moves(lot=lot.lot.code)] == [
            MoveKind.COUNTED, MoveKind.USED,
        ]  # fmt: skip


def test_eyes_leave_two_by_two_and_come_back_with_a_count_taken_back(world):
    # Common practice, no source: an eye on either side of a bait.
    bag = Purchase(quantity=100, unit=BuyUnit.PIECE, price_money=9)
    code = buy_lot(world, "eyes", "demo-eyes", bag, key="e" * 32).lot.code
    sheet = freeze_sheet(world, dataclasses.replace(DEMO_DRAFT, eyes="demo-eyes"))
    enter_lot(world, sheet.number, ENTRY)
    with world.bench() as bench:
        assert (bench.stock.lot(code).pieces, bench.stock.lot(code).cost) == (52, 46_800)
    enter_lot(world, sheet.number, dataclasses.replace(ENTRY, good=20, flash=10))
    with world.bench() as bench:
        assert (bench.stock.lot(code).pieces, bench.stock.lot(code).cost) == (60, 54_000)
        post_pour(bench, sheet, None, key=KEY, at=LATER)
        assert (bench.stock.lot(code).pieces, bench.stock.lot(code).cost) == (100, 90_000)
        bench.commit()
    balanced(world)


def test_eyes_that_the_books_had_not_are_said(world):
    bag = Purchase(quantity=40, unit=BuyUnit.PIECE, price_money=4)
    sheet = freeze_sheet(world, dataclasses.replace(DEMO_DRAFT, eyes="demo-eyes"))
    enter_lot(world, sheet.number, ENTRY)
    with world.bench() as bench:
        # No eyes were ever bought by the lot: nothing is known of them.
        assert pour_books(bench, sheet, ENTRY).eyes_short == 0
    buy_lot(world, "eyes", "demo-eyes", bag, key="e" * 32)
    fewer = dataclasses.replace(ENTRY, good=23, flash=ENTRY.flash + 1)
    enter_lot(world, sheet.number, fewer)
    with world.bench() as bench:
        books = pour_books(bench, sheet, fewer)
    assert books.eyes_short == 2 * 23 - 40
    assert books.eyes_words.startswith("the books had 6 eyes fewer")


def test_what_a_pour_finds_is_worth_the_average_of_what_is_there(world):
    kilo = Purchase(quantity=1, unit=BuyUnit.KILOGRAM, price_money=90)
    buy_lot(world, "plastic", PLASTIC, kilo, key="e" * 32)
    with world.bench() as bench:
        there = bench.stock.lots(item=f"plastic/{PLASTIC}", present=True)
        worth, mg = sum(h.cost for h in there), sum(h.mg for h in there)
        deed = Deed(KEY, LATER, "sheet/9")
        took = take(bench, f"plastic/{PLASTIC}", mg + 1_000_000, target="", deed=deed)
        found = next(m for m in bench.stock.moves() if m.note == FOUND)
    assert took.found_mg == 1_000_000
    assert found.cost == worth * 1_000_000 // mg


def test_leftovers_go_into_the_pots_lot_with_what_they_are_worth(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    fill_pot(world, sheet.number, POT, 100, event_id=KEY)
    with world.bench() as bench:
        (pot,) = bench.stock.lots(item=f"remelt_pot/{POT}")
        assert pot.mg == 520_000
        assert bench.stock.lot(sheet.code).mg == 24 * 14_800
        (move,) = [m for m in bench.stock.moves(lot=sheet.code) if m.kind is MoveKind.POTTED]
    # Half the price of fresh plastic, 46 for 3975 g.
    assert move.cost == pytest.approx(0.1 * 46 / 3.975 * 0.5 * 10_000, abs=1)
    assert on_hand(world, "remelt_pot", POT) == 520
    balanced(world)


def test_a_pots_plastic_used_again_is_traced_and_never_its_own_ancestor(world):
    first = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, first.number, ENTRY)
    fill_pot(world, first.number, POT, 100, event_id=KEY)
    second = freeze_sheet(world, dataclasses.replace(DEMO_DRAFT, remelt=POT, remelt_g=100))
    enter_lot(world, second.number, ENTRY)
    fill_pot(world, second.number, POT, 50, event_id="d" * 32)
    with world.bench() as bench:
        assert first.code in {m.source for m in bench.stock.came_from(second.code)}
        lots = bench.stock.lots(item=f"remelt_pot/{POT}")
        assert len(lots) == 2
    assert on_hand(world, "remelt_pot", POT) == sum(h.mg for h in lots) / 1000 == 470
    balanced(world)


def test_an_amount_typed_into_the_form_is_a_count(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, ENTRY)
    before = worth(world, "plastic", PLASTIC)
    change(world, "plastic", PLASTIC, on_hand_g=1000.0)
    with world.bench() as bench:
        (lot,) = bench.stock.lots(item=f"plastic/{PLASTIC}")
        last = bench.stock.moves(lot=lot.lot.code)[-1]
    assert lot.mg == 1_000_000
    assert (last.kind, last.source) == (MoveKind.COUNTED, lot.lot.code)
    assert lot.cost / lot.mg == pytest.approx(before[1] / before[0], rel=1e-4)
    change(world, "plastic", PLASTIC, on_hand_g=1500.0)
    assert worth(world, "plastic", PLASTIC)[0] == 1_500_000
    balanced(world)


def worth(world: World, sort: str, id: str) -> tuple[int, int]:
    with world.bench() as bench:
        lots = bench.stock.lots(item=f"{sort}/{id}")
        return sum(h.mg for h in lots), sum(h.cost for h in lots)


def moves_of(world: World, number: int) -> tuple[Move, ...]:
    with world.bench() as bench:
        return bench.stock.moves(cause=f"sheet/{number}")


def change(world: World, sort: str, id: str, **values) -> None:
    with world.bench() as bench:
        stored = bench.records.get(sort, id)
    noun = dataclasses.replace(stored.noun, **values)
    change_record(world, noun, id=id, expected_version=stored.version)
