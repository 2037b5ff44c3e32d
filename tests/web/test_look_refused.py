"""A look that a bait cannot have is said in words, and its papers print without a picture."""

from __future__ import annotations

import dataclasses
from html import unescape

import pytest

from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.body.division import Place
from pourwright.body.split import Split
from pourwright.shop.look import Look, LookLayer
from pourwright.shop.mold import Bait
from printed_page import pictures_of, words_of
from web.client import Client, words_in

MARSH, SHAD = "demo-look-marsh", "demo-look-shad"
WORM, PADDLE = "demo-bait-worm", "demo-bait-paddle"
FAT_CORE = ((Place.BODY, 0.05), (Place.CORE, 0.95))
TWO = ((Place.BELLY, 0.5), (Place.BACK, 0.5))


def change(world, sort, key, **more):
    with world.bench() as bench:
        stored = bench.records.get(sort, key)
        noun = dataclasses.replace(stored.noun, **more)
        bench.records.save(sort, key, noun, expected_version=stored.version)
        bench.commit()


def layered(world, layers, split=None):
    made = tuple(LookLayer(place=place, share=share) for place, share in layers)
    change(world, Look.key, MARSH, layers=made, split=split or Split())


@pytest.fixture
def client(full_world) -> Client:
    layered(full_world, FAT_CORE)
    return Client(full_world)


def test_a_sheet_and_its_card_print_without_the_picture(client, full_world):
    number = freeze_sheet(full_world, DEMO_DRAFT).number
    printed = client.get(f"/sheets/{number}/sheet.pdf")
    assert printed.status_code == 200
    assert pictures_of(printed.content) == []
    for query in (f"lot={number}", f"bait={WORM}"):
        card = client.get(f"/looks/{MARSH}/card.pdf?{query}")
        assert card.status_code == 200
        assert "takes at most" in " ".join(words_of(card.content).split())


def test_the_page_says_why_there_is_no_picture(client):
    page = client.get(f"/looks/{MARSH}?bait={WORM}")
    assert page.status_code == 200
    assert "takes at most" in words_in(page)
    assert "picture.png?" not in page.text


def test_beside_others_only_the_refused_one_lacks_its_picture(client):
    page = client.get(f"/looks/compare?look={MARSH}&look={SHAD}&bait={WORM}")
    assert f"/looks/{SHAD}/picture.png?" in page.text
    assert f"/looks/{MARSH}/picture.png?" not in page.text
    assert words_in(page).count("takes at most") == 4


@pytest.mark.parametrize(("layers", "split"), [(FAT_CORE, None), (TWO, Split(line_height=0.02))])
def test_no_list_shows_a_picture_that_cannot_be_had(full_world, layers, split):
    if split is None:
        layered(full_world, layers)
        number = freeze_sheet(full_world, DEMO_DRAFT).number
        assert f"/lots/{number}/picture.png" not in Client(full_world).get("/book").text
    layered(full_world, layers, split)
    change(full_world, Bait.key, PADDLE, shape=None, mass_g=9.0)
    client = Client(full_world)
    assert client.get(f"/looks/{MARSH}/picture.png?bait={WORM}").status_code == 422
    for path in ("/looks", "/plan"):
        assert f"/looks/{MARSH}/picture.png" not in client.get(path).text


def test_without_a_pick_the_first_bait_that_fits_is_shown(full_world):
    client = Client(full_world)
    layered(full_world, ((Place.BODY, 0.105), (Place.CORE, 0.895)))
    address = f"/looks/{MARSH}/picture.png?px=96"
    assert client.get(f"{address}&bait={PADDLE}").status_code == 422
    assert client.get(address).status_code == 200
    pages = (f"/looks/{MARSH}", f"/looks/{MARSH}/color", "/looks", f"/looks/compare?look={MARSH}")
    for path in pages:
        assert f"/looks/{MARSH}/picture.png?bait={WORM}&" in unescape(client.get(path).text)
    card = client.get(f"/looks/{MARSH}/card.pdf").content
    assert len(pictures_of(card)) == 1


def test_limits_are_told_in_few_figures_and_hold(full_world):
    """0.1 to 20 m at 0.3048 m to the foot (international foot, 1959)."""
    client, address = Client(full_world), f"/looks/{SHAD}/picture.png?px=96&@units=us"
    said = words_in(client.get(f"{address}&depth_m=90"))
    assert "Depth of the bait: must lie between 0.329 and 65.6" in said
    refused = client.get(f"{address}&depth_m=90", accept="application/json").json()
    assert refused["field"] == "depth_m"
    assert refused["message"].startswith("Depth of the bait: ")
    for told in ("0.329", "65.6"):
        assert client.get(f"{address}&depth_m={told}").status_code == 200


def test_a_picked_bait_reads_no_shape_of_another(full_world):
    """The shape of the other one is gone, so that reading it would be refused."""
    with full_world.bench() as bench:
        bench.records.save(Bait.key, "own", Bait(name="A", own_shape="gone"), expected_version=0)
        bench.commit()
    client = Client(full_world)
    for path in (f"/looks/{SHAD}", f"/looks/{SHAD}/picture.png"):
        assert client.get(f"{path}?bait={WORM}&px=96").status_code == 200


def test_a_refused_line_is_told_by_its_label_and_what_was_sent(full_world):
    sent = {"split.line": "straight", "split.line_height": "2", "@units": "us"}
    answer = Client(full_world).send(f"/looks/{SHAD}/picture.png", sent)
    words = words_in(answer)
    assert answer.status_code == 422
    assert "got None" not in words
    assert "line_height" not in words
    assert "2" in words.split("got")[1]


def test_a_swing_out_of_sight_goes_with_the_line_that_swung(full_world):
    client, address = Client(full_world), f"/looks/{SHAD}/picture.png?px=96"
    straight, wavy = (
        client.send(address, {"split.line": line, "split.wave_mm": swing, "@units": "metric"})
        for line, swing in (("straight", "3"), ("wavy", "3"))
    )
    assert (straight.status_code, wavy.status_code) == (200, 200)
    assert straight.content != wavy.content


def test_what_cannot_be_compared_is_said(full_world):
    client = Client(full_world)
    odd = client.get(f"/looks/compare?look={SHAD}&waters=lava")
    assert "One of the waters" in words_in(odd)
    for bait in (WORM, PADDLE):
        change(full_world, Bait.key, bait, shape=None, mass_g=9.0)
    assert "no bait on this bench has a shape" in words_in(
        client.get(f"/looks/compare?look={SHAD}")
    )
