"""The tax profile: no country is taken for granted, and no smaller share without an adviser."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from pourwright.actions.keep_record import add_record, retire_record
from pourwright.actions.tax_standing import TAX_PROFILE, choose_country, tax_standing
from pourwright.base.errors import BadInput, Conflict
from pourwright.shop.sale import TaxWay
from pourwright.shop.tax_profile import TaxCountry, TaxProfile
from ready_store import empty_bench

TOLD = TaxProfile(
    country=TaxCountry.US, base_share=0.75, base_adviser="Invented adviser",
    base_since="2026-04-01", base_channels="Market, message",
)  # fmt: skip


def standing(world):
    with world.reading() as bench:
        return tax_standing(bench)


def test_nothing_stands_until_a_country_is_chosen(tmp_path):
    world = empty_bench(tmp_path)
    assert standing(world) is None
    add_record(world, TaxProfile())
    assert standing(world) is None
    choose_country(world, TaxCountry.US)
    assert standing(world) == TaxProfile(country=TaxCountry.US, tax_way=TaxWay.INSIDE)


def test_choosing_again_keeps_the_rest_of_the_profile(tmp_path):
    world = empty_bench(tmp_path)
    add_record(world, dataclasses.replace(TOLD, note="as told"))
    choose_country(world, TaxCountry.ELSEWHERE)
    assert standing(world) == dataclasses.replace(
        TOLD, note="as told", country=TaxCountry.ELSEWHERE
    )


def test_there_is_one_profile_and_a_country_brings_it_back(tmp_path):
    world = empty_bench(tmp_path)
    choose_country(world, TaxCountry.US)
    with pytest.raises(Conflict, match="version 1"):
        add_record(world, TaxProfile())
    retire_record(world, TaxProfile.key, TAX_PROFILE, expected_version=1)
    assert standing(world) is None
    choose_country(world, TaxCountry.US)
    assert standing(world) is not None


@pytest.mark.parametrize("name", ["base_adviser", "base_since", "base_channels"])
def test_a_smaller_share_that_nobody_answers_for_is_refused_by_name(name):
    blank: dict[str, Any] = {name: ""}
    with pytest.raises(BadInput, match=name):
        dataclasses.replace(TOLD, **blank)


def test_a_registration_without_its_day_and_days_that_do_not_exist_are_refused():
    with pytest.raises(BadInput, match="registered_on"):
        TaxProfile(registration="00-0000000-X")
    for name in ("registered_on", "base_since"):
        no_day: dict[str, Any] = {name: "2026-02-30"}
        with pytest.raises(BadInput, match="no day of the calendar"):
            dataclasses.replace(TOLD, **no_day)


@pytest.mark.parametrize(
    ("sold_on", "channel", "share"),
    [
        ("2026-04-01", "market", 0.75), ("2026-05-02", " Message ", 0.75),
        ("2026-03-31", "market", 1), ("2026-04-01", "shop", 1), ("2026-04-01", "", 1),
    ],
)  # fmt: skip
def test_the_smaller_share_holds_for_its_days_and_ways_alone(sold_on, channel, share):
    assert TOLD.share_for(sold_on=sold_on, channel=channel) == share
