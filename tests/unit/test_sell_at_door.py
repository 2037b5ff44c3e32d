"""A sale without an order: out of what lies free, at the price of the list, into every book."""

from __future__ import annotations

import pytest

from order_bench import BROWN, EACH_COST, SHAD, bagged, line, order, order_bench, poured, priced
from pourwright.actions.excise_quarter import excise_quarter
from pourwright.actions.export_journal import COST, GOODS, MONEY, journal_of
from pourwright.actions.money_totals import money_months
from pourwright.actions.sales_of import sales_of
from pourwright.actions.sell_at_door import DoorEntry, DoorLine, free_lots, sell_at_door
from pourwright.actions.set_aside import set_aside
from pourwright.actions.take_back_sale import take_back_sale
from pourwright.actions.take_out import TakingOut, take_out
from pourwright.actions.tax_standing import choose_country
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.money import Money
from pourwright.shop.offer import Offer, PriceStep
from pourwright.shop.sale import Exempt, TaxWay
from pourwright.shop.stock_lot import LotSort, StockLot
from pourwright.shop.tax.quarter import Quarter
from pourwright.shop.tax_profile import TaxCountry

DAY = "2026-02-15"
KEY, OTHER = "a" * 32, "b" * 32


@pytest.fixture
def world(tmp_path):
    return order_bench(tmp_path)


def entry(*lines: DoorLine, **more) -> DoorEntry:
    return DoorEntry(lines=lines, sold_on=DAY, **more)


def pieces(world, code: str) -> int:
    with world.reading() as bench:
        held: int = bench.stock.lot(code).pieces
    return held


def utc_day(at: str) -> str:
    return at[:10]


def test_bags_and_loose_baits_leave_at_the_price_of_the_list(world):
    loose, bags = poured(world, 7, 20), bagged(world, "B1", 3)
    priced(world, 6.5)
    priced(world, 0.9, each=1)
    kept = sell_at_door(
        world,
        entry(
            DoorLine(lot=bags, packs=2), DoorLine(lot=loose, packs=3, baits_each=1), fees_money=1
        ),
        key=KEY,
    )
    assert kept.sale.received == Money.of("15.7")
    assert [(it.bait, it.look, it.baits_each) for it in kept.sale.lines] == [
        (SHAD, BROWN, 8), (SHAD, BROWN, 1),
    ]  # fmt: skip
    assert (pieces(world, bags), pieces(world, loose)) == (8, 17)


def test_packs_of_one_sort_count_together_for_the_steps_of_the_list(world):
    old, new = bagged(world, "B1", 3), bagged(world, "B2", 3)
    with world.bench() as bench:
        steps = (PriceStep(from_packs=5, price_money=5),)
        offer = Offer(name="8", bait=SHAD, baits_each=8, price_money=6.5, steps=steps)
        bench.records.save(Offer.key, "offer", offer, expected_version=0)
        bench.commit()
    both = entry(DoorLine(lot=old, packs=2), DoorLine(lot=new, packs=3))
    assert sell_at_door(world, both, key=KEY).sale.goods == Money.of(25)


def test_the_same_sale_twice_is_one(world):
    bagged(world, "B1", 3)
    it = entry(DoorLine(lot="B1", packs=3, price_money=6))
    assert sell_at_door(world, it, key=KEY) == sell_at_door(world, it, key=KEY)
    assert pieces(world, "B1") == 0


def test_what_orders_have_set_aside_is_neither_offered_nor_sold(world):
    bagged(world, "B1", 3)
    order(world, "one", line(2))
    set_aside(world, "one")
    with world.reading() as bench:
        (free,) = free_lots(bench)
    assert (free.lot, free.words) == ("B1", "1 bag of 8")
    with pytest.raises(Conflict, match="16 of them set aside for other orders"):
        sell_at_door(world, entry(DoorLine(lot="B1", packs=2, price_money=6)), key=KEY)
    assert pieces(world, "B1") == 24


def test_a_lot_is_offered_bags_first_and_never_by_less_than_a_bag(world):
    loose = poured(world, 7, 5)
    bagged(world, "B1", 1)
    bagged(world, "B2", 1)
    take_out(world, TakingOut(lot="B2", baits=5), key=KEY)
    with world.reading() as bench:
        assert [(it.lot, it.words) for it in free_lots(bench)] == [
            ("B1", "1 bag of 8"), (loose, "5 loose baits"),
        ]  # fmt: skip


@pytest.mark.parametrize(
    ("more", "field", "why"),
    [({}, "price_money", "the price list has no pack of 8"),
     ({"baits_each": 4, "price_money": 3}, "baits_each", "is bagged by 8")],
)  # fmt: skip
def test_what_nobody_said_is_asked_for(world, more, field, why):
    bagged(world, "B1", 3)
    with pytest.raises(BadInput, match=why) as refused:
        sell_at_door(world, entry(DoorLine(lot="B1", packs=1, **more)), key=KEY)
    assert refused.value.field == f"lines[0].{field}"
    with world.reading() as bench:
        assert not sales_of(bench)


def test_loose_baits_need_the_size_of_a_pack(world):
    loose = poured(world, 7, 20)
    with pytest.raises(BadInput, match="how many make a pack"):
        sell_at_door(world, entry(DoorLine(lot=loose, packs=1, price_money=1)), key=KEY)


def test_a_lot_that_is_none_or_holds_no_baits_is_refused(world):
    with world.bench() as bench:
        bench.stock.open(StockLot(
            code="M1", sort=LotSort.MATERIAL, item="plastic/x", opened_at=f"{DAY}T10:00:00Z",
            name="M",
        ))  # fmt: skip
        bench.commit()
    with pytest.raises(BadInput, match="holds no finished baits"):
        sell_at_door(world, entry(DoorLine(lot="M1", packs=1, price_money=1)), key=KEY)
    with pytest.raises(NotFound, match="there is no lot 'B9'"):
        sell_at_door(world, entry(DoorLine(lot="B9", packs=1, price_money=1)), key=KEY)
    bagged(world, "B1", 1)
    some = entry(DoorLine(lot="B1", packs=1, price_money=1), customer="nobody")
    with pytest.raises(BadInput, match="not on the list of customers"):
        sell_at_door(world, some, key=KEY)


def test_it_stands_in_every_book_and_leaves_them_when_taken_back(world):
    bagged(world, "B1", 3)
    choose_country(world, TaxCountry.US)
    sell_at_door(world, entry(DoorLine(lot="B1", packs=2, price_money=5.5)), key=KEY)

    def books():
        with world.reading() as bench:
            (month,) = money_months(bench, ("2026-02",), utc_day)
            sheet = excise_quarter(bench, Quarter(2026, 1))
            entries = journal_of(bench, utc_day).entries
        held: dict[str, Money] = {}
        for it in entries:
            for p in it.postings:
                held[p.account] = held.get(p.account, Money(0)) + p.amount
        return month.totals, sheet, held

    totals, sheet, held = books()
    assert (totals.sales, totals.baits, totals.goods) == (1, 16, Money.of(11))
    assert totals.cost == Money(16 * EACH_COST)
    # By hand: 10 % of the price without the tax is 1/11 of one that holds it, 26 USC 4161(a)(1).
    assert totals.tax_inside == Money.of(1)
    assert sheet.answer.tax_money == 1
    assert (held[GOODS], held[MONEY], held[COST]) == (
        Money.of(-11), Money.of(11), Money(16 * EACH_COST),
    )  # fmt: skip
    take_back_sale(world, KEY, why="torn bag", key=OTHER)
    totals, _, held = books()
    assert (totals.sales, held[GOODS], pieces(world, "B1")) == (0, Money(0), 24)


def test_the_tax_of_a_line_is_kept_as_it_was_typed(world):
    bagged(world, "B1", 3)
    typed = DoorLine(
        lot="B1", packs=1, price_money=5, tax_way=TaxWay.ADDED, exempt=Exempt.EXPORT, proof="=1+1"
    )
    (found,) = sell_at_door(world, entry(typed), key=KEY).sale.lines
    assert (found.tax_way, found.exempt, found.proof) == (TaxWay.ADDED, Exempt.EXPORT, "=1+1")
