"""Pages of color on an empty and on a full bench."""

from __future__ import annotations

import re

import pytest

from web.client import Client


@pytest.mark.parametrize("path", ["/pucks", "/photo", "/reach"])
def test_they_open_on_an_empty_and_on_a_full_bench(empty_world, full_world, path):
    for world in (empty_world, full_world):
        assert Client(world).get(path).status_code == 200


def test_learning_without_pucks_says_what_to_do(empty_world):
    answer = Client(empty_world).send("/pucks", {})
    assert answer.status_code == 422
    assert "pour one" in answer.text


def form(**more):
    return {
        "rows": "2", "material-0": "demo-color-moss", "measure-0": "drops", "amount-0": "6",
        "material-1": "demo-color-brown", "measure-1": "drops", "amount-1": "1",
        "target_l": "52", "target_a": "-24", "target_b": "40", "light": "D65", "layer": "0",
    } | more  # fmt: skip


def test_the_color_page_shows_swatches_and_a_target_from_its_address(full_world):
    page = Client(full_world).get(
        "/looks/demo-look-marsh/color?target_l=52&target_a=-24&target_b=40"
    )
    assert page.status_code == 200
    assert "off the target" in page.text
    assert "Lot 26J25A is" in page.text


def test_sliders_change_the_swatches(full_world):
    address = "/looks/demo-look-marsh/color/preview"
    pale, deep = (
        Client(full_world).send(address, form(**{"amount-0": n})).text for n in ("2", "20")
    )
    assert re.findall("#[0-9a-f]{6}", pale) != re.findall("#[0-9a-f]{6}", deep)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"thick_mm": "900"}, "Thickness (mm): must lie between 0.2 and 60"),
        ({"target_l": "x"}, "Target L*: must be a number"),
        ({"material-0": "gone"}, "no material"),
    ],
)
def test_what_cannot_be_is_refused_in_words(full_world, change, words):
    answer = Client(full_world).send("/looks/demo-look-marsh/color/preview", form(**change))
    assert answer.status_code in {404, 422}
    assert words in answer.text.replace("&#39;", "'")


def test_recipes_are_listed_beside_the_target(full_world):
    answer = Client(full_world).send("/looks/demo-look-marsh/color/recipes", form())
    assert answer.status_code == 200
    assert "Nearest" in answer.text
    assert 'data-material="demo-color-moss"' in answer.text


def test_a_recipe_is_saved_as_a_new_version(full_world):
    address = "/looks/demo-look-marsh/color"
    kept = Client(full_world).send(address, form(**{"@version": "1", "amount-0": "9"}))
    assert kept.status_code == 303
    with full_world.bench() as bench:
        stored = bench.records.get("look", "demo-look-marsh")
    assert stored.version == 2
    assert stored.noun.layers[0].doses[0].per_100g == 9


def test_a_hot_cup_gets_its_advice(full_world):
    drip = {
        "drip_white_card": "demo-card-white", "drip_white_l": "70", "drip_white_a": "-22",
        "drip_white_b": "36", "drip_mm": "3",
    }  # fmt: skip
    answer = Client(full_world).send("/looks/demo-look-marsh/color/cure", form(**drip))
    assert answer.status_code == 200
    assert "hot cup is never put on the scale" in answer.text
    bare = Client(full_world).send("/looks/demo-look-marsh/color/cure", form())
    assert "type L*, a* and b*" in bare.text


def test_pages_of_color_carry_their_caution(full_world):
    for path in ("/pucks", "/looks/demo-look-marsh/color"):
        assert "350 °F (177 °C)" in Client(full_world).get(path).text


def test_reach_counts_colors_and_draws_them(full_world):
    page = Client(full_world).get("/reach").text
    assert "clearly different colors" in page
    assert page.count("<li><svg") >= 5


def test_a_file_of_spectra_needs_a_file(full_world):
    answer = Client(full_world).send("/pucks/spectra", {})
    assert answer.status_code == 422
    assert "choose a CSV file first" in answer.text


def test_the_shed_light_shows_its_own_color_once_it_is_described(full_world):
    address = "/looks/demo-look-marsh/color/preview"
    day, shed = (Client(full_world).send(address, form(light=x)).text for x in ("D65", "shed"))
    assert "Shed light:" in shed
    assert re.findall("#[0-9a-f]{6}", day) != re.findall("#[0-9a-f]{6}", shed)
