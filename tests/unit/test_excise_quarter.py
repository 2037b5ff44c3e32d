"""The sheet of a quarter from the sales of the books."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.excise_lines import delivery_shares
from pourwright.actions.excise_quarter import excise_quarter
from pourwright.actions.keep_record import change_record
from pourwright.actions.tax_standing import TAX_PROFILE, choose_country
from pourwright.base.errors import BadInput
from pourwright.shop.sale import Exempt, Sale, TaxWay
from pourwright.shop.tax.quarter import Quarter
from pourwright.shop.tax_profile import TaxCountry, TaxProfile
from ready_store import empty_bench
from sold_bench import line, sold, stocked, taken_back

SPRING = Quarter(2026, 2)
AT = "2026-05-10T15:00:00Z"


@pytest.fixture
def world(tmp_path):
    made = empty_bench(tmp_path)
    stocked(made)
    choose_country(made, TaxCountry.US)
    return made


def sheet(world, quarter=SPRING):
    with world.reading() as bench:
        return excise_quarter(bench, quarter)


def sale(*lines, day="2026-05-10", **more):
    return Sale(sold_on=day, lines=lines, **more)


@pytest.mark.parametrize("country", [TaxCountry.NOT_CHOSEN, TaxCountry.ELSEWHERE])
def test_no_figure_without_the_country_whose_rules_are_here(world, country):
    sold(world, sale(line(11)), at=AT, costs=["1"])
    choose_country(world, country)
    found = sheet(world)
    assert found.answer is None
    assert found.sales == ()
    assert (found.profile is None) == (country is TaxCountry.NOT_CHOSEN)


def test_sales_go_by_the_day_they_carry(world):
    for day in ("2026-03-31", "2026-04-01", "2026-06-30", "2026-07-01"):
        sold(world, sale(line(11), day=day), at=AT, costs=["1"])
    found = sheet(world)
    assert [it.line.sold_on for it in found.sales] == ["2026-04-01", "2026-06-30"]
    assert found.answer.tax_money == 2  # 26 USC 4161(a)(1)(A), 4216(a): 1.00 inside each 11.00
    assert sheet(world, Quarter(2026, 4)).answer.tax_money == 0


def test_delivery_beside_the_price_and_inside_it(world):
    lines = (line(33), line(22))
    for inside in (False, True):
        goods = 55 + 5.5 * inside
        one = sale(
            line(33 + 3.3 * inside), line(22 + 2.2 * inside), delivery_money=5.5,
            delivery_inside=inside, delivery_proof="receipt",
        )  # fmt: skip
        assert one.goods.amount == goods
        sold(world, one, at=AT, costs=["1", "1"])
    sold(world, sale(*lines, delivery_money=11), at=AT, costs=["1", "1"])
    # 26 USC 4216(a): 5.00 in each of the first two, whose delivery is established; 6.00 in the
    # third, which is taxed on 66.00.
    assert sheet(world).answer.tax_money == 16
    assert [it.tax_money for it in sheet(world).answer.lines] == pytest.approx(
        [3, 2, 3, 2, 3.6, 2.4]
    )


def test_shares_of_a_delivery_add_up_and_lie_within_their_lines():
    one = sale(line(0.01), line(0.01), line(0.01), delivery_money=0.01, delivery_inside=True)
    shares = delivery_shares(one)
    assert sum(it.ten_thousandths for it in shares) == 100
    assert max(it.ten_thousandths for it in shares) <= 34
    given_away = sale(line(0), line(0), delivery_money=3)
    assert [it.amount for it in delivery_shares(given_away)] == [1.5, 1.5]


def test_the_smaller_share_of_an_adviser_holds_where_he_said(world):
    profile = TaxProfile(
        country=TaxCountry.US, base_share=0.75, base_adviser="Invented adviser",
        base_since="2026-05-01", base_channels="market", tax_way=TaxWay.ADDED,
    )  # fmt: skip
    change_record(world, profile, id=TAX_PROFILE, expected_version=1)
    for day, channel in (("2026-05-01", "Market"), ("2026-04-30", "Market"), ("2026-05-01", "")):
        one = sale(line(100, tax_way=TaxWay.ADDED), day=day, channel=channel)
        sold(world, one, at=AT, costs=["1"])
    assert [it.tax_money for it in sheet(world).answer.lines] == [7.5, 10, 10]


def test_a_free_sale_needs_the_registration_of_the_profile(world):
    one = sale(line(11, exempt=Exempt.EXPORT, proof="bill of lading"))
    sold(world, one, at=AT, costs=["1"])
    assert sheet(world).answer.tax_money == 1
    registered = TaxProfile(country=TaxCountry.US, registration="00-A", registered_on="2026-05-10")
    change_record(world, registered, id=TAX_PROFILE, expected_version=1)
    assert sheet(world).answer.tax_money == 0
    later = dataclasses.replace(registered, registered_on="2026-05-11")
    change_record(world, later, id=TAX_PROFILE, expected_version=2)
    assert sheet(world).answer.tax_money == 1


def test_a_sale_taken_back_in_its_quarter_is_left_out_and_one_later_stays_on(world):
    for undone in ("2026-06-30T20:00:00Z", "2026-07-02T08:00:00Z"):
        key = sold(world, sale(line(11)), at=AT, costs=["1"])
        taken_back(world, key, at=undone, why="torn parcel")
    spring, summer = sheet(world), sheet(world, Quarter(2026, 3))
    assert spring.answer.tax_money == 1
    assert summer.answer.tax_money == 0
    left_out, still_on = spring.asides
    assert left_out.startswith("Left out")
    assert "2026-06-30, torn parcel" in left_out
    assert still_on.startswith("Still on this sheet")
    assert [it.startswith("Not on this sheet") for it in summer.asides] == [True]
    assert sheet(world, Quarter(2026, 4)).asides == ()


def test_a_year_that_no_return_covers_is_refused(world):
    with pytest.raises(BadInput, match="year"):
        sheet(world, Quarter(1850, 1))
