"""Looks and lots show their picture wherever they are listed: as they are, or as poured."""

from __future__ import annotations

import dataclasses
import io
import re
from html import unescape

import pytest
from PIL import Image

from pour_player import SetClock
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.base.units import System
from pourwright.body.division import Place
from pourwright.shop.draft import Draft
from pourwright.shop.look import Look, LookLayer
from pourwright.shop.mold import Bait
from pourwright.web.form import texts_of
from printed_page import page_of, pictures_of, words_of
from web.client import Client, words_in

MARSH, SHAD, WORM = "demo-look-marsh", "demo-look-shad", "demo-bait-worm"
IMAGE = re.compile(r'<img class="thumb[^"]*"([^>]*)>')


def change(world, sort, key, **more):
    with world.bench() as bench:
        stored = bench.records.get(sort, key)
        noun = dataclasses.replace(stored.noun, **more)
        bench.records.save(sort, key, noun, expected_version=stored.version)
        bench.commit()


def thumbs(page) -> list[dict[str, str]]:
    """The small pictures of a page, by what is said of each."""
    found = IMAGE.findall(page.text)
    return [{k: unescape(v) for k, v in re.findall(r'(\w+)="([^"]*)"', it)} for it in found]


@pytest.fixture
def client(full_world) -> Client:
    return Client(full_world)


@pytest.fixture
def sheet(full_world) -> int:
    """Frozen before any record was changed."""
    before = dataclasses.replace(full_world, clock=SetClock("2001-01-01T00:00:00Z"))
    return freeze_sheet(before, DEMO_DRAFT).number


def test_every_list_shows_a_picture_that_can_be_had(client, sheet):
    shown = {"/looks": 2, "/book": 2, "/": 2, f"/sheets/{sheet}": 1, f"/lots/{sheet}": 1}
    sources = set()
    for path, number in shown.items():
        found = thumbs(client.get(path))
        assert len(found) == number, path
        for it in found:
            assert it["loading"] == "lazy"
            assert len(it["alt"].split()) > 4
            sources.add((it["src"], it["width"], it["height"]))
    for source, wide, high in sources:
        answer = client.get(source)
        assert answer.headers["content-type"] == "image/png"
        assert Image.open(io.BytesIO(answer.content)).size == (int(wide), int(high))


def test_a_plan_shows_its_look_in_its_bait(client):
    page = client.get("/plan")
    (found,) = thumbs(page)
    assert f"bait={WORM}" in found["src"]
    assert found["alt"].startswith("Marsh green, copper flake in Seven-inch marsh worm")
    typed = texts_of(Draft, DEMO_DRAFT, System.US)
    without = client.send("/plan/preview", typed | {"look": ""})
    assert "Plastic" in words_in(without)
    assert thumbs(without) == []
    other = client.send("/plan/preview", typed | {"look": SHAD})
    assert SHAD in thumbs(other)[0]["src"]


def test_a_plan_poured_again_shows_its_picture(client):
    again = client.send("/sheets/1/again", {})
    (found,) = thumbs(client.get(again.headers["location"]))
    assert SHAD in found["src"]


def test_a_lot_keeps_the_picture_it_was_poured_with(client, full_world, sheet):
    before = client.get(f"/lots/{sheet}/picture.png?px=96").content
    look = f"/looks/{MARSH}/picture.png?bait={WORM}&px=96"
    assert client.get(look).content == before
    change(full_world, Look.key, MARSH, layers=(LookLayer(),))
    assert client.get(f"/lots/{sheet}/picture.png?px=96").content == before
    assert client.get(look).content != before


def test_without_a_shape_swatches_stand_in(client, full_world):
    for bait in ("demo-bait-paddle", WORM):
        change(full_world, Bait.key, bait, shape=None, mass_g=9.0)
    page = client.get("/looks")
    assert thumbs(page) == []
    assert "over white left" in page.text
    draft = dataclasses.replace(DEMO_DRAFT, mold="", bait_g=8.0, cavities=2)
    number = freeze_sheet(full_world, draft).number
    book = client.get("/book")
    assert [it["src"].split("?")[0] for it in thumbs(book)] == ["/lots/1/picture.png"]
    assert book.text.count("over white left") == 1
    refused = client.get(f"/lots/{number}/picture.png")
    assert refused.status_code == 422
    assert "needs one" in words_in(refused)


def test_a_look_whose_layers_no_bait_can_have_shows_swatches(client, full_world):
    odd = tuple(LookLayer(place=p, share=s) for p, s in ((Place.BODY, 0.02), (Place.CORE, 0.98)))
    change(full_world, Look.key, MARSH, layers=odd)
    assert [SHAD in it["src"] for it in thumbs(client.get("/looks"))] == [True]


@pytest.mark.parametrize("px", ["95", "1281", "x"])
def test_a_picture_of_odd_size_is_refused(client, px):
    assert client.get(f"/lots/1/picture.png?px={px}").status_code == 422


def test_a_lot_without_a_look_is_pictured_plain_and_has_no_card(client, full_world):
    number = freeze_sheet(full_world, dataclasses.replace(DEMO_DRAFT, look="")).number
    page = client.get(f"/lots/{number}")
    (found,) = thumbs(page)
    assert client.get(found["src"]).headers["content-type"] == "image/png"
    assert "card.pdf" not in page.text
    refused = client.get(f"/looks/{MARSH}/card.pdf?lot={number}")
    assert "not poured in this look" in words_in(refused)


def test_the_printed_sheet_shows_its_bait(client, sheet):
    assert len(pictures_of(client.get(f"/sheets/{sheet}/sheet.pdf").content)) == 1


def test_the_color_card_is_led_to_and_is_of_the_lot(client):
    (address,) = re.findall(r'href="(/looks/[^"]+card\.pdf[^"]*)"', client.get("/lots/1").text)
    answer = client.get(address)
    assert answer.headers["content-type"] == "application/pdf"
    assert f"color-card-{SHAD}" in answer.headers["content-disposition"]
    words = words_of(answer.content)
    assert "Slough shad: brown back, pearl belly" in words
    assert "lot P2601170001K" in words
    assert "Invented demo data" in words


def test_the_page_of_a_look_leads_to_its_card_in_the_bait_it_shows(client):
    page = client.get(f"/looks/{MARSH}?bait={WORM}")
    assert f'href="/looks/{MARSH}/card.pdf?bait={WORM}"' in page.text


@pytest.mark.parametrize(
    ("query", "status", "why"),
    [
        ("lot=99", 404, "no sheet 99"),
        ("lot=x", 422, "number of a sheet"),
        ("version=9", 404, "no version 9"),
        ("paper=a5", 422, "must be one of"),
        ("bait=nowhere", 404, "nowhere"),
    ],
)
def test_a_card_of_what_is_not_there_is_refused_in_words(client, query, status, why):
    answer = client.get(f"/looks/{SHAD}/card.pdf?{query}")
    assert answer.status_code == status
    assert why in words_in(answer)


def test_the_card_comes_on_the_paper_that_is_asked_for(client):
    pdf = client.get(f"/looks/{MARSH}/card.pdf?paper=a4&bait={WORM}").content
    # ISO 216:2007: 210 by 297 mm.
    size = [points / 72 * 25.4 for points in page_of(pdf).get_size()]
    assert size == pytest.approx([210, 297], abs=0.1)
    assert "Seven-inch marsh worm" in words_of(pdf)
