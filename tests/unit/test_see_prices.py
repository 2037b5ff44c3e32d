"""What packs cost by lots, stock and plans; what is sold; what pays back; what comes next."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from pourwright.actions.cost_trend import cost_trend
from pourwright.actions.demo_cups import DEMO_LOT_DRAFT
from pourwright.actions.enter_lot import enter_lot, lot_view
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.growth import next_dollar
from pourwright.actions.lot_cost import CountedLot, counted_lots, taken_by
from pourwright.actions.pack_cost import Basis
from pourwright.actions.packs_sold import packs_sold
from pourwright.actions.port import Bench, Event, World
from pourwright.actions.see_prices import NO_COST, mold_paybacks, see_price, see_prices
from pourwright.actions.selling_terms import selling_terms
from pourwright.actions.starter_kit import wishes
from pourwright.actions.tax_standing import choose_country
from pourwright.base.errors import NoAnswer, NotFound
from pourwright.base.record import to_json
from pourwright.bench.tap_kind import TAKEN_BACK
from pourwright.shop.draft import Draft
from pourwright.shop.lot import COUNTED, LotEntry, body_of
from pourwright.shop.lot_cost import KindCost, LotCost, Taken, lot_cost
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind, contrary
from pourwright.shop.noun import Noun
from pourwright.shop.offer import Offer
from pourwright.shop.sale import SALE_TAKEN_BACK, SOLD, Sale, SaleLine
from pourwright.shop.sheet import Sheet
from pourwright.shop.tax_profile import TaxCountry
from pourwright.shop.workplace import Workplace

SHAD, WORM = "demo-offer-shad", "demo-offer-worm"


def seen(bench: Bench, key: str) -> Any:
    """The terms and an entry of the list, known to have a cost where a test says so."""
    return see_price(bench, key)


def keep(world: World, sort: str, key: str, noun: Noun) -> None:
    with world.bench() as bench:
        try:
            version = bench.records.get(sort, key).version
        except NotFound:
            version = 0
        bench.records.save(sort, key, noun, expected_version=version)
        bench.commit()


def set_place(world: World, **changes: Any) -> None:
    with world.reading() as bench:
        place = bench.records.get("workplace", "workplace").noun
    assert isinstance(place, Workplace)
    keep(world, "workplace", "workplace", dataclasses.replace(place, **changes))


def tell(world: World, subject: str, kind: str, body: Any, at: str = "2026-11-25T10:00:00Z") -> str:
    event = Event(world.ids.fresh(), subject, kind, at, body)
    with world.bench() as bench:
        bench.ledger.append(event)
        bench.commit()
    return event.id


def sell(world: World, id: str, day: str, packs: int, bait: str = "demo-bait-worm") -> None:
    line = SaleLine(
        bait=bait, look="demo-look-marsh", lot="P1", packs=packs, baits_each=8, price_money=10
    )
    tell(world, f"sale/{id}", SOLD, to_json(Sale(sold_on=day, lines=(line,))))


def nothing_sold(world: World) -> None:
    """Take back whatever the demo bench has sold."""
    with world.bench() as bench:
        for it in bench.ledger.of_kind(SOLD):
            sale = it.event.subject.removeprefix("sale/")
            body = {"sale": sale, "why": "for this test"}
            bench.ledger.append(
                Event(
                    world.ids.fresh(), f"sale/{sale}", SALE_TAKEN_BACK, "2026-11-25T10:00:00Z", body
                )
            )
        bench.commit()


def only_lot(bench: Bench) -> CountedLot:
    (lot,) = counted_lots(bench, [bench.sheets.get(1)])
    return lot


def test_a_pack_of_a_counted_lot_costs_its_share_of_it(world):
    with world.reading() as bench:
        _, priced = seen(bench, SHAD)
        lot = only_lot(bench)
    assert priced.cost is not None
    # 31 good shads of the invented lot; a bag for the pack is 18 for 100.
    bare = lot.cost.total - lot.cost.of("packing and eyes")
    assert priced.cost.money.typical == pytest.approx(bare.amount / 31 * 5 + 0.18, abs=1e-6)
    assert priced.cost.basis is Basis.LOTS
    assert priced.cost.numbers == (1,)
    by_kind = sum(k.amount_money for k in priced.cost.kinds)
    assert by_kind == pytest.approx(priced.cost.money.typical, abs=1e-6)


def test_what_was_only_planned_says_so_and_a_frozen_sheet_goes_before_it(world):
    with world.reading() as bench:
        assert seen(bench, WORM)[1].cost.basis is Basis.DRAFT
        draft = bench.records.get(Draft.key, "demo-plan").noun
    number = freeze_sheet(world, draft).number
    with world.reading() as bench:
        cost = seen(bench, WORM)[1].cost
    assert (cost.basis, cost.numbers) == (Basis.SHEET, (number,))


def test_what_was_never_planned_has_no_cost_and_no_margin(world):
    offer = Offer(name="Odd", bait="demo-bait-worm", look="demo-look-shad", price_money=5)
    keep(world, Offer.key, "odd", offer)
    with world.reading() as bench:
        _, priced = seen(bench, "odd")
        assert (priced.cost, priced.breaks, priced.refused) == (None, None, (NO_COST,))
        assert mold_paybacks(bench, priced, selling_terms(bench)) == ()


def test_a_margin_that_no_price_allows_is_said_and_the_list_goes_on(world):
    set_place(world, margin=0.6, fee_share=0.4)
    with world.reading() as bench:
        _, listed = see_prices(bench)
    assert len(listed) >= 2
    assert all(p.cost and "no price works" in p.refused[0] for p in listed)


def test_a_count_taken_back_is_no_lot(world):
    with world.reading() as bench:
        sheet = bench.sheets.get(1)
        counted = [e for e in bench.ledger.of(f"lot/{sheet.code}") if e.event.kind == COUNTED]
    tell(world, f"lot/{sheet.code}", TAKEN_BACK, {"event": counted[-1].event.id})
    with world.reading() as bench:
        assert counted_lots(bench, [sheet]) == ()


def test_the_newest_three_lots_stand_together(world):
    goods = (10, 20, 30, 40)
    for good in goods:
        sheet = freeze_sheet(world, DEMO_LOT_DRAFT)
        entry = LotEntry(shots=20, good=good, minutes=100)
        tell(world, f"lot/{sheet.code}", COUNTED, body_of(entry), at=sheet.frozen_at)
    with world.reading() as bench:
        _, priced = seen(bench, SHAD)
        lots = counted_lots(bench, [bench.sheets.get(n) for n in priced.cost.numbers])
    assert [lot.cost.good for lot in lots] == [40, 30, 20]
    bare = sum((x.cost.total - x.cost.of("packing and eyes") for x in lots), Money(0))
    assert priced.cost.money.typical == pytest.approx(bare.amount / 90 * 5 + 0.18, abs=1e-6)
    assert len(priced.trend.points) == 5
    assert priced.trend.points[0].number == 1


USED = Move(id="a" * 32, at="t", kind=MoveKind.USED, source="M1", target="P1", mg=5, cost=700)
POT = Move(id="b" * 32, at="t", kind=MoveKind.POTTED, source="P1", target="R1", mg=5, cost=90)


def test_moves_undone_carry_nothing():
    assert taken_by([]) == Taken(None, None)
    assert taken_by([USED, POT]) == Taken(Money(700), Money(90))
    undone = contrary(USED, id="c" * 32, at="t")
    assert taken_by([USED, undone, POT]) == Taken(None, Money(90))
    again = dataclasses.replace(USED, id="d" * 32, cost=500)
    assert taken_by([USED, again]).used == Money(1200)


def lots_at(*each: tuple[float, float]) -> tuple[list[Sheet], dict[int, CountedLot]]:
    """Lots of ten good baits, by materials and labor of each, oldest first."""
    found = {}
    for number, (plastic, labor) in enumerate(each, start=1):
        kinds = (
            KindCost("materials", Money.of(plastic * 10), ""),
            KindCost("labor", Money.of(labor * 10), ""),
        )
        sheet = Sheet(number, f"P{number}", f"2026-0{number}-01T00:00:00Z", "", "", {}, {}, {})
        found[number] = CountedLot(sheet, LotCost(kinds, 10))
    return [lot.sheet for lot in reversed(found.values())], found


def test_a_trend_names_what_moved():
    quiet = cost_trend(*lots_at((0.4, 0.6), (0.4, 0.6), (0.4, 0.6), (0.4, 0.65)))
    assert "within 10%" in quiet.words
    assert [p.each_money for p in quiet.points] == pytest.approx([1, 1, 1, 1.05])
    dearer = cost_trend(*lots_at((0.4, 0.6), (0.4, 0.6), (0.4, 0.6), (0.3, 1.2)))
    assert "50% dearer" in dearer.words
    assert "labor moved most" in dearer.words
    cheaper = cost_trend(*lots_at((0.4, 0.6), (0.4, 0.6), (0.4, 0.6), (0.1, 0.6)))
    assert "30% cheaper" in cheaper.words
    assert "materials moved most" in cheaper.words
    assert "3 lots counted, 4 needed" in cost_trend(*lots_at(*[(0.4, 0.6)] * 3)).words


def test_sales_of_three_months_make_a_month(world):
    nothing_sold(world)
    with world.reading() as bench:
        assert packs_sold(bench).per_month is None
    for key, day, packs in (
        ("a", "2027-03-30", 6),
        ("b", "2027-02-10", 3),
        ("c", "2026-12-01", 99),
    ):
        sell(world, key, day, packs)
    sell(world, "d", "2027-03-01", 90, "demo-bait-paddle")
    with world.reading() as bench:
        worm = packs_sold(bench, "demo-bait-worm", 8)
        every = packs_sold(bench, baits_each=8)
    assert worm.per_month is not None
    assert every.per_month is not None
    assert (worm.per_month.typical, worm.per_order, worm.until) == (3, 4.5, "2027-03-30")
    assert every.per_month.typical == 33
    # Two orders of 6 and 3 at random: 1.645 x sqrt(45) = 11 over three months.
    assert worm.per_month.high == pytest.approx((9 + 1.645 * 45**0.5) / 3, abs=0.01)
    assert worm.per_month.low == 0


def test_tax_waits_for_a_country(world):
    with world.bench() as bench:
        for stored in bench.records.all("tax_profile"):
            bench.records.retire("tax_profile", stored.id, expected_version=stored.version)
        bench.commit()
    with world.reading() as bench:
        assert (selling_terms(bench).tax_rate, selling_terms(bench).tax_country) == (0, "")
    keep(world, Offer.key, "any", Offer(name="Any", bait="demo-bait-paddle", price_money=11))
    with world.reading() as bench:
        before = seen(bench, "any")[1].breaks.rows[0].left_each_money.typical
    choose_country(world, TaxCountry.US)
    with world.reading() as bench:
        terms, priced = seen(bench, "any")
    # 26 USC 4161(a)(1)(A), 4216(a) (read): of 11.00 with the tax inside, 1.00 is tax.
    assert before - priced.breaks.rows[0].left_each_money.typical == pytest.approx(1)
    assert terms.tax_country == "United States"
    choose_country(world, TaxCountry.ELSEWHERE)
    with world.reading() as bench:
        assert selling_terms(bench).tax_rate == 0


def test_another_mold_pays_back_by_its_own_baits(world):
    with world.reading() as bench:
        terms, priced = seen(bench, SHAD)
        found: Any = mold_paybacks(bench, priced, terms)
    (back,) = found
    wear = next(k.amount_money for k in priced.cost.kinds if k.kind == "mold wear")
    left = priced.breaks.rows[0].left_each_money.typical + wear
    assert back.price_money == 45
    assert back.answer.left_each_money.typical == pytest.approx(left, abs=1e-6)
    packs = int(back.answer.packs.typical)
    assert packs * left >= 45 > (packs - 1) * left


def test_a_second_mold_helps_as_far_as_its_bait_sells(world):
    nothing_sold(world)
    with world.reading() as bench, pytest.raises(NoAnswer, match="nothing was sold yet"):
        next_dollar(bench, wishes(bench), None)
    sell(world, "worms", "2027-03-30", 30)
    with world.reading() as bench:
        unsold = next_dollar(bench, wishes(bench), None)
    assert any(
        u.name == "Second slough shad mold" and "sell some" in u.why for u in unsold.answer.unknown
    )
    sell(world, "shads", "2027-03-30", 30, "demo-bait-paddle")
    with world.reading() as bench:
        half = next_dollar(bench, wishes(bench), None)
    sell(world, "more", "2027-03-30", 60, "demo-bait-paddle")
    with world.reading() as bench:
        most = next_dollar(bench, wishes(bench), None)
    half_it, most_it = (
        next(r for r in found.answer.ranked if r.name == "Second slough shad mold")
        for found in (half, most)
    )
    # Half of 60 packs, then three quarters of 120: three times the minutes saved.
    assert most_it.saved_min.typical == pytest.approx(3 * half_it.saved_min.typical, rel=1e-6)
    assert half.sold_until == "2027-03-30"
    assert {u.name for u in half.answer.unknown} >= {"Second microwave", "Infrared thermometer"}


def test_a_list_without_costs_is_not_ranked(world):
    with world.bench() as bench:
        for stored in bench.records.all(Offer.key):
            bench.records.retire(Offer.key, stored.id, expected_version=stored.version)
        bench.commit()
    with world.reading() as bench, pytest.raises(NoAnswer, match="no entry of the price list"):
        next_dollar(bench, wishes(bench), None)


def test_materials_cost_what_their_lots_cost(world):
    sheet = freeze_sheet(world, DEMO_LOT_DRAFT)
    entry = LotEntry(shots=18, good=30, minutes=150)
    before = lot_cost(sheet, entry)
    enter_lot(world, sheet.number, entry)
    with world.reading() as bench:
        (lot,) = counted_lots(bench, [sheet])
        used = [m for m in bench.stock.moves(cause=f"sheet/{sheet.number}") if m.kind == "used"]
        page: Any = lot_view(bench, sheet.number).comparison
    materials = next(k for k in lot.cost.kinds if k.kind == "materials")
    assert used
    assert materials.known == "from the lots that were used"
    assert materials.amount == Money(sum(m.cost for m in used))
    assert page.cost_total_money == lot.cost.total.amount
    assert "Materials from the lots that were used." in page.notes
    # Everything was bought at the price the plan reckoned with.
    assert materials.amount.amount == pytest.approx(before.of("materials").amount, rel=0.01)
