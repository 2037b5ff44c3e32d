"""The page that looks inside a cup, without a browser."""

from __future__ import annotations

import re
from html import unescape
from urllib.parse import urlencode

import pytest

from web.client import Client, form_in, words_in

PAGE = "/inside-the-cup"
NBSP = "\N{NO-BREAK SPACE}"


def test_a_usual_cup_is_seen_at_once_with_its_cautions(full_world):
    page = Client(full_world).get(PAGE)
    words = words_in(page)
    assert page.status_code == 200
    assert page.text.count("<figure") == 6
    assert "End of burst 3" in words
    assert "Stirred after burst 3" in words
    for said in (
        "Never leave a heating cup", "no metal in the running oven", "A pattern, no forecast",
        "nobody knows where its waves enter",
    ):  # fmt: skip
        assert said in words
    assert len(page.content) < 150_000


def test_the_numbers_are_those_of_the_calculation_in_the_units_of_the_bench(full_world):
    client = Client(full_world)
    moments = client.calc("cook.section", (
        b'{"cup_diameter_mm": 88.9, "bursts": [{"on_s": 180}, {"on_s": 120}, {"on_s": 90}]}'
    )).json()["moments"]  # fmt: skip
    text = client.get(PAGE).text
    shown = [int(t) for t in re.findall(rf'class="how-hot"[^>]*>(\d+){NBSP}°F', text)]
    expected = [
        round(m[key] * 1.8 + 32) for m in moments for key in ("face_c", "hottest_c", "bottom_c")
    ]
    assert shown == expected


def test_what_is_typed_changes_the_picture_and_another_pattern_the_hot_place(full_world):
    client = Client(full_world)
    fresh = form_in(client.get(PAGE))
    rings = set()
    for pattern in ("wall", "even", "top", "base"):
        page = client.send(PAGE, fresh | {"pattern": pattern, "@do": "try"})
        rings.update(re.findall(r'class="hot-ring" cx="([\d.]+)" cy="([\d.]+)"', page.text)[:1])
    assert len(rings) >= 3


def test_an_end_finds_a_power_and_says_what_it_is_not(full_world):
    client = Client(full_world)
    page = client.send(PAGE, form_in(client.get(PAGE)) | {"ends_c": "340", "@do": "try"})
    words = words_in(page)
    watts = re.search(r"Power found for that end: (\d+) W", words)
    assert watts
    assert 350 < int(watts[1]) < 600
    assert "not the watts on the label, and not the effective power of the plan" in words


def test_rows_are_added_and_empty_ones_are_no_bursts(full_world):
    client = Client(full_world)
    more = client.send(PAGE, form_in(client.get(PAGE)) | {"@do": "add:bursts"})
    assert form_in(more)["bursts#"] == "4"
    assert more.text.count("<figure") == 6
    typed = form_in(more) | {"bursts[3].on_s": "30", "bursts[3].rest_s": "5"}
    typed.pop("bursts[3].stir", None)
    assert client.send(PAGE, typed | {"@do": "try"}).text.count("<figure") == 7
    fewer = client.send(PAGE, typed | {"@do": "remove:bursts[0]"})
    assert fewer.text.count("<figure") == 5


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"plastic_g": "7"}, "Plastic in the cup: must lie between 50"),
        ({"plastic_g": "much"}, "is not a number"),
        ({"power_w": "2000", "plastic_g": "60"}, "shorten the bursts"),
        ({"ends_c": "60"}, "must lie between 86"),
        ({"ends_c": "95", "start_c": "96"}, "must be warmer than the plastic at the start"),
        ({"ends_c": "90"}, "no oven gives that"),
        ({"bursts[0].rest_s": "3600"}, "may last one hour"),
        ({f"bursts[{i}].on_s": "" for i in range(3)}, "Bursts, in order: "),
    ],
)
def test_what_cannot_be_is_said_in_place_of_the_picture(full_world, change, words):
    client = Client(full_world)
    page = client.send(PAGE, form_in(client.get(PAGE)) | change | {"@do": "try"})
    assert page.status_code == 200
    assert "<figure" not in page.text
    assert re.search(words, words_in(page))
    again = form_in(page)
    assert {k: again[k] for k in change} == change


def test_sheet_cup_plan_and_oven_lead_there_and_the_cup_is_the_sheets(full_world):
    client = Client(full_world)
    of_sheet = f"{PAGE}?sheet=1&cup=2"
    assert of_sheet in unescape(client.get("/sheets/1").text)
    assert of_sheet in unescape(client.get("/sheets/1/cups/2").text)
    for place in ("/workplace", "/records/microwave/demo-oven-small"):
        assert f'href="{PAGE}"' in client.get(place).text
    page = client.get(of_sheet)
    assert "Cup 2 of sheet 1, by its planned rounds" in words_in(page)
    assert form_in(page)["cup_g"] == "390"
    links = re.findall(rf'href="({PAGE}\?[^"]+)"', client.get("/plan").text)
    of_plan = client.get(unescape(links[0]))
    assert form_in(of_plan)["cup_g"] == "540"
    assert "<figure" in of_plan.text


def test_a_place_that_would_scorch_is_warned_of(full_world):
    client = Client(full_world)
    fresh = form_in(client.get(PAGE))
    for watts, warned in (("480", False), ("560", True)):
        words = words_in(client.send(PAGE, fresh | {"power_w": watts, "@do": "try"}))
        assert ("Scorching runs away up there" in words) is warned


@pytest.mark.parametrize("query", ["sheet=9&cup=1", "sheet=1&cup=9", "sheet=x&cup=1", "sheet=1"])
def test_a_sheet_or_cup_that_is_not_there_is_refused(full_world, query):
    assert Client(full_world).get(f"{PAGE}?{query}").status_code in {404, 422}


def test_markup_in_the_address_is_shown_not_run(full_world):
    planted = urlencode({"plastic_g": '"><b>'})
    page = Client(full_world).get(f"{PAGE}?{planted}")
    assert '"><b>' not in page.text


def test_an_empty_bench_may_look_too(empty_world):
    assert "<figure" in Client(empty_world).get(PAGE).text
