"""Buy, count, throw away and take back: each in the units of the package, nothing lost."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.buy_lot import AVERAGED, buy_lot, paper_of
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.keep_record import change_record
from pourwright.actions.keep_stock import count_stock, reverse_move, scrap_stock
from pourwright.actions.port import World
from pourwright.actions.see_lot import see_lot
from pourwright.actions.see_stock import see_stock
from pourwright.base.band import Band, exact
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.lot import LotEntry
from pourwright.shop.move import MoveKind
from pourwright.shop.purchase import BuyUnit, Purchase, bought
from pourwright.shop.stock_value import Method

PLASTIC = ("plastic", "demo-plastic-medium")
KEYS = [f"{c * 32}" for c in "abcdef"]


def package(quantity: float, unit: BuyUnit, price: float = 10, **more) -> Purchase:
    return Purchase(quantity=quantity, unit=unit, price_money=price, **more)


# From memory: NIST Handbook 44, Appendix C: 1 lb = 453.59237 g, 1 oz = 28.349523125 g,
# 1 gal = 3785.411784 mL, 1 qt = 946.352946 mL, 1 pt = 473.176473 mL, 1 fl oz = 29.5735295625 mL.
@pytest.mark.parametrize(
    ("unit", "grams"),
    [
        (BuyUnit.POUND, 453.59237), (BuyUnit.OUNCE, 28.349523125), (BuyUnit.KILOGRAM, 1000),
        (BuyUnit.GRAM, 1), (BuyUnit.GALLON, 2 * 3785.411784), (BuyUnit.QUART, 2 * 946.352946),
        (BuyUnit.PINT, 2 * 473.176473), (BuyUnit.FLUID_OUNCE, 2 * 29.5735295625),
        (BuyUnit.LITER, 2000),
    ],
)  # fmt: skip
def test_packages_come_to_grams_by_their_definitions(unit, grams):
    assert bought(package(1, unit), exact(2.0)).mg == pytest.approx(grams * 1000, abs=0.5)


def test_a_volume_says_what_it_rests_on_and_is_refused_without_a_density():
    came = bought(package(1, BuyUnit.GALLON), Band(1.024, 1.052, 1.105))
    assert came.words == ("1 gallon at 1.052 g/mL: 3982 g (3876 to 4183 g); weigh it to be sure")
    with pytest.raises(BadInput, match="needs a density"):
        bought(package(1, BuyUnit.GALLON), None)
    with pytest.raises(BadInput, match="whole number of pieces"):
        bought(package(1.5, BuyUnit.PIECE), None)


def test_a_purchase_is_a_lot_with_its_paper_and_the_shelf_follows(world):
    paper = package(2, BuyUnit.POUND, 12, supplier_lot="Q-9", flash_point_c=213)
    held = buy_lot(world, *PLASTIC, paper, key=KEYS[0])
    again = buy_lot(world, *PLASTIC, paper, key=KEYS[0])
    assert again == held
    assert held.mg == 907_185
    with world.bench() as bench:
        assert paper_of(bench, held.lot.code) == paper
        assert bench.records.get(*PLASTIC).noun.on_hand_g == 3100 + 907.185
        assert len(bench.stock.lots(item="/".join(PLASTIC))) == 2


def test_all_lots_of_a_material_have_one_price_at_a_moving_average(world):
    buy_lot(world, *PLASTIC, package(1, BuyUnit.KILOGRAM, 40), key=KEYS[0])
    with world.bench() as bench:
        lots = bench.stock.lots(item="/".join(PLASTIC))
    # 3100 g at 46 for 3975 g, and 1000 g at 40.
    each = (3100 * 46 / 3975 + 40) / 4100
    assert [h.cost for h in lots] == pytest.approx([each * h.mg * 10 for h in lots], abs=2)
    assert sum(h.cost for h in lots) == round(3100 * 46 / 3975 * 10_000) + 400_000


def test_first_in_first_out_leaves_each_lot_its_price(world):
    change(world, ("workplace", "workplace"), stock_method=Method.FIRST_IN)
    held = buy_lot(world, *PLASTIC, package(1, BuyUnit.KILOGRAM, 40), key=KEYS[0])
    assert held.cost == 400_000
    with world.bench() as bench:
        assert not [m for m in bench.stock.moves() if m.note == AVERAGED]


def test_a_purchase_taken_back_restores_the_shelf_and_the_prices(world):
    buy_lot(world, *PLASTIC, package(1, BuyUnit.KILOGRAM, 40), key=KEYS[0])
    before = worths(world)
    held = buy_lot(world, *PLASTIC, package(1, BuyUnit.KILOGRAM, 90), key=KEYS[1])
    with world.bench() as bench:
        move = next(m for m in bench.stock.moves(lot=held.lot.code) if m.kind is MoveKind.BOUGHT)
    reverse_move(world, held.lot.code, move.id, key=KEYS[2])
    after = worths(world)
    assert after.pop(held.lot.code) == (0, 0)
    assert after == before
    with pytest.raises(Conflict, match="taken back already"):
        reverse_move(world, held.lot.code, move.id, key=KEYS[3])
    with world.bench() as bench:
        back = next(m for m in bench.stock.moves(lot=held.lot.code) if m.reverses == move.id)
    with pytest.raises(Conflict, match="not taken back itself"):
        reverse_move(world, held.lot.code, back.id, key=KEYS[4])
    with pytest.raises(NotFound, match="has no move"):
        reverse_move(world, held.lot.code, "0" * 32, key=KEYS[5])


def test_a_count_moves_the_difference_with_its_share_of_the_cost(world):
    code = buy_lot(world, "salt", "demo-salt", package(1000, BuyUnit.GRAM), key=KEYS[0]).lot.code
    held = worths(world, "salt/demo-salt")[code]
    count_stock(world, code, mg=750_000, key=KEYS[1])
    count_stock(world, code, mg=750_000, key=KEYS[1])
    assert worths(world, "salt/demo-salt")[code] == (750_000, held[1] - held[1] * 250 // 1000)
    count_stock(world, code, mg=900_000, key=KEYS[2])
    assert worths(world, "salt/demo-salt")[code][0] == 900_000
    count_stock(world, code, mg=0, key=KEYS[3])
    assert worths(world, "salt/demo-salt")[code] == (0, 0)


def test_what_is_found_comes_at_the_price_of_the_lot_however_much_it_is(world):
    code = buy_lot(world, "eyes", "demo-eyes", package(10, BuyUnit.PIECE, 1), key=KEYS[0]).lot.code
    count_stock(world, code, pieces=50, key=KEYS[1])
    # A dime a piece: 50 are worth five.
    assert worths(world, "eyes/demo-eyes")[code] == (0, 50_000)


def test_one_amount_typed_into_the_form_is_taken_back_without_the_others(world):
    code = buy_lot(world, *PLASTIC, package(500, BuyUnit.GRAM), key=KEYS[0]).lot.code
    change(world, PLASTIC, on_hand_g=4000.0)
    change(world, PLASTIC, on_hand_g=4100.0)
    with world.bench() as bench:
        newest = bench.stock.moves(lot=code)[-1]
    reverse_move(world, code, newest.id, key=KEYS[1])
    with world.bench() as bench:
        assert bench.records.get(*PLASTIC).noun.on_hand_g == 4000
        assert sum(h.mg for h in bench.stock.lots(item="/".join(PLASTIC))) == 4_000_000


def test_what_the_form_says_is_more_comes_at_the_average_of_what_is_there(world):
    buy_lot(world, *PLASTIC, package(1, BuyUnit.KILOGRAM, 40), key=KEYS[0])
    change(world, PLASTIC, on_hand_g=8200.0)
    mg, cost = (sum(amounts) for amounts in zip(*worths(world).values(), strict=True))
    # 3100 g at 46 for 3975 g, and 1000 g at 40: twice as much of the same.
    assert (mg, cost) == (8_200_000, pytest.approx(2 * (3100 * 46 / 3975 + 40) * 10_000, abs=2))


def test_an_amount_left_empty_in_the_form_is_no_count(world):
    buy_lot(world, *PLASTIC, package(1, BuyUnit.KILOGRAM, 40), key=KEYS[0])
    before = worths(world)
    change(world, PLASTIC, on_hand_g=None)
    with world.bench() as bench:
        assert bench.records.get(*PLASTIC).noun.on_hand_g == 4100
    assert worths(world) == before


def test_more_than_is_there_is_not_thrown_away(world):
    code = buy_lot(world, *PLASTIC, package(500, BuyUnit.GRAM), key=KEYS[0]).lot.code
    with pytest.raises(Conflict, match="holds 500 g, not 501 g"):
        scrap_stock(world, code, mg=501_000, key=KEYS[1])
    with pytest.raises(BadInput, match="at most 200 characters"):
        scrap_stock(world, code, mg=1, note="x" * 201, key=KEYS[2])
    with pytest.raises(Conflict, match=r"holds 500 g, not 12345678\.901 g"):
        scrap_stock(world, code, mg=12_345_678_901, key=KEYS[1])
    scrap_stock(world, code, mg=100_000, note="spilled", key=KEYS[2])
    assert worths(world)[code][0] == 400_000


def test_pieces_are_bought_by_the_piece_and_plastic_is_not(world):
    held = buy_lot(world, "packing", "demo-packing", package(100, BuyUnit.PIECE, 9), key=KEYS[0])
    assert (held.pieces, held.cost) == (100, 90_000)
    with pytest.raises(BadInput, match="must be a weight or a volume"):
        buy_lot(world, *PLASTIC, package(5, BuyUnit.PIECE), key=KEYS[1])
    with pytest.raises(BadInput, match="must be piece"):
        buy_lot(world, "eyes", "demo-eyes", package(5, BuyUnit.GRAM), key=KEYS[1])


def test_what_belongs_to_a_batch_is_not_taken_back_from_the_lot(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, LotEntry(shots=8, good=24, flash=6))
    with world.bench() as bench:
        seen = see_lot(bench, sheet.code)
    assert not any(line.own for line in seen.moves)
    with pytest.raises(Conflict, match="belongs to a batch"):
        reverse_move(world, sheet.code, seen.moves[0].move.id, key=KEYS[0])
    with pytest.raises(BadInput, match="holds baits"):
        count_stock(world, sheet.code, pieces=3, key=KEYS[0])


def test_a_frozen_sheet_wants_more_than_is_there_and_that_comes_first(world):
    draft = dataclasses.replace(DEMO_DRAFT, count=200)
    freeze_sheet(world, draft)
    before = seen_plastic(world)
    sheet = freeze_sheet(world, draft)
    need = next(x["need_g"] for x in sheet.plan["shelf"] if x["material"] == PLASTIC[1])
    after = seen_plastic(world)
    assert after.need_mg - before.need_mg == round(need * 1000)
    with world.bench() as bench:
        first = see_stock(bench, world.clock.now(), "2026-01-20").materials[0]
    assert first.short_mg == after.short_mg == max(0, after.need_mg - 3_100_000) > 0


def seen_plastic(world: World):
    with world.bench() as bench:
        stock = see_stock(bench, world.clock.now(), "2026-01-20")
    return next(it for it in stock.materials if it.id == PLASTIC[1])


def worths(world: World, item: str = "/".join(PLASTIC)) -> dict[str, tuple[int, int]]:
    with world.bench() as bench:
        return {h.lot.code: (h.mg, h.cost) for h in bench.stock.lots(item=item)}


def change(world: World, key: tuple[str, str], **values) -> None:
    with world.bench() as bench:
        stored = bench.records.get(*key)
    noun = dataclasses.replace(stored.noun, **values)
    change_record(world, noun, id=key[1], expected_version=stored.version)
