"""Looks side by side, in one bait, scale and water a row; and each pair to a fish."""

from __future__ import annotations

import html
import re
from itertools import combinations
from urllib.parse import parse_qs, urlsplit

import pytest

from pourwright.body.division import Place
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from web.client import Client, words_in

COMPARE = "/looks/compare"
BOTH = f"{COMPARE}?look=demo-look-shad&look=demo-look-marsh"


def colored(name: str, color: str, drops: float) -> Look:
    dose = Dose(material=color, per_100g=drops, measure=Measure.DROPS)
    return Look(name=name, layers=(LookLayer(place=Place.BODY, share=1.0, doses=(dose,)),))


@pytest.fixture
def five_world(full_world):
    """Three looks of one layer beside the two of the demo bench."""
    with full_world.bench() as bench:
        for key, look in {
            "rose": colored("Rose alone", "demo-color-rose", 20),
            "white": colored("White alone", "demo-color-white", 20),
            "white-too": colored("White again", "demo-color-white", 20),
        }.items():
            bench.records.save(Look.key, key, look, expected_version=0)
        bench.commit()
    return full_world


def pictures(page) -> list[dict[str, list[str]]]:
    """What each picture of a page was asked for, with whose it is."""
    sources = [html.unescape(x) for x in re.findall(r'class="look-image" src="([^"]+)"', page.text)]
    return [parse_qs(urlsplit(x).query) | {"of": [urlsplit(x).path.split("/")[2]]} for x in sources]


def test_each_row_has_one_bait_one_scale_and_one_place(full_world):
    page = Client(full_world).get(BOTH)
    found = pictures(page)
    assert page.status_code == 200
    assert [x["of"][0] for x in found] == ["demo-look-shad", "demo-look-marsh"] * 4
    for one, two in zip(found[::2], found[1::2], strict=True):
        assert {k: v for k, v in one.items() if k != "of"} == {
            k: v for k, v in two.items() if k != "of"
        }
    assert [x["where"][0] for x in found[::2]] == ["in the hand", *["under water"] * 3]
    assert [x["water"][0] for x in found[2::2]] == ["clear", "green", "tea-stained"]


def test_the_waters_are_picked(full_world):
    page = Client(full_world).get(f"{BOTH}&waters=muddy&waters=my+water")
    assert [x["water"][0] for x in pictures(page)[2::2]] == ["muddy", "my water"]
    words = words_in(page)
    assert "Muddy water" in words
    assert "Tea-stained water" not in words
    many = Client(full_world).get(
        f"{BOTH}&waters=clear&waters=green&waters=muddy&waters=tea-stained"
    )
    assert "Up to 3 waters" in words_in(many)
    assert len(pictures(many)) == 8


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_every_pair_is_told_apart_in_every_water(five_world, count):
    keys = ["rose", "white", "white-too", "demo-look-shad"][:count]
    names = ["Rose alone", "White alone", "White again", "Slough shad: brown back, pearl belly"]
    page = Client(five_world).get(f"{COMPARE}?" + "&".join(f"look={k}" for k in keys))
    words = words_in(page)
    for one, two in combinations(names[:count], 2):
        assert words.count(f"{one} and {two}") == 3
    assert words.count(" and White") == 3 * sum(
        1 for _, two in combinations(keys, 2) if two.startswith("white")
    )
    assert len(pictures(page)) == 4 * count


def test_the_same_color_twice_is_no_difference_and_another_is_one(five_world):
    words = words_in(Client(five_world).get(f"{COMPARE}?look=white&look=white-too&look=rose"))
    same = words.split("White alone and White again")[1].split("White alone and Rose")[0]
    assert "by color hard to tell (0.0 steps, 0.0 to 0.0)" in same
    assert "by brightness hard to tell (0.0 steps, 0.0 to 0.0)" in same
    other = words.split("White alone and Rose alone")[1].split("White again and Rose")[0]
    assert "clear" in other


def test_more_than_four_are_said_and_the_first_four_shown(five_world):
    keys = ("rose", "white", "white-too", "demo-look-shad", "demo-look-marsh")
    page = Client(five_world).get(f"{COMPARE}?" + "&".join(f"look={k}" for k in keys))
    assert "Up to 4 looks stand side by side" in words_in(page)
    assert {x["of"][0] for x in pictures(page)} == set(keys[:4])


def test_without_ticks_it_asks_for_some(full_world):
    page = Client(full_world).get(COMPARE)
    assert page.status_code == 200
    assert pictures(page) == []
    assert "Tick up to four looks" in words_in(page)
    assert page.text.count('name="look"') == 2


def test_an_empty_bench_is_told_how_to_begin(empty_world):
    assert "No look on this bench yet" in words_in(Client(empty_world).get(COMPARE))


def test_a_look_that_is_gone_and_a_depth_that_is_none_are_said(full_world):
    client = Client(full_world)
    assert "no longer on the bench" in words_in(client.get(f"{BOTH}&look=gone"))
    deep = client.get(f"{BOTH}&depth_m=x")
    assert deep.status_code == 422
    assert "Depth of the bait: is not a number" in words_in(deep)


def test_the_list_of_looks_leads_there_without_a_script(full_world):
    page = Client(full_world).get("/looks")
    assert 'action="/looks/compare"' in page.text
    ticks = re.findall(
        r'<input type="checkbox" name="look" value="([^"]+)" form="compare">', page.text
    )
    assert sorted(ticks) == ["demo-look-marsh", "demo-look-shad"]
