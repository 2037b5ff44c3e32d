"""A look is seen as it is kept or as its forms stand, in any version; nothing holds the store."""

from __future__ import annotations

import html
import re
import struct
import time
from typing import Any

import pytest

from pourwright.actions.keep_record import change_record
from pourwright.body.division import Place
from pourwright.body.split import Split
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from pourwright.shop.mold import Bait
from pourwright.web.look_picture import png_of
from web.client import Client, words_in

LOOKS = ("demo-look-marsh", "demo-look-shad")
SHAD = "/looks/demo-look-shad"
SMALL = f"{SHAD}/picture.png?px=128"
BROWNER = {
    "rows": "1", "layer": "0", "light": "D65", "px": "128",
    "material-0": "demo-color-brown", "measure-0": "drops", "amount-0": "20",
}  # fmt: skip
LINES = {"split.line": "straight", "split.line_height": "0.5", "@units": "us"}


def size_of(png: bytes) -> tuple[int, int]:
    """Width and height in the head of a PNG file (ISO/IEC 15948:2004, 11.2.2)."""
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    wide, high = struct.unpack(">II", png[16:24])
    return wide, high


def look_on(world, key: str = "demo-look-shad") -> tuple[int, Look]:
    with world.reading() as bench:
        stored = bench.records.get(Look.key, key)
    assert isinstance(stored.noun, Look)
    return stored.version, stored.noun


def keep(world, look: Look, key: str = "demo-look-shad") -> None:
    change_record(world, look, id=key, expected_version=look_on(world, key)[0])


def browner(look: Look) -> Look:
    dose = Dose(material="demo-color-brown", per_100g=20, measure=Measure.DROPS)
    first = LookLayer(place=look.layers[0].place, share=look.layers[0].share, doses=(dose,))
    return Look(name=look.name, note=look.note, layers=(first, *look.layers[1:]))


@pytest.mark.parametrize("key", LOOKS)
def test_a_look_is_shown_with_its_layers_its_fish_and_its_first_version(full_world, key):
    page = Client(full_world).get(f"/looks/{key}")
    words = words_in(page)
    look = look_on(full_world, key)[1]
    assert page.status_code == 200
    for layer in look.layers:
        assert f"{layer.place.value.capitalize()} against the water" in words
    assert f"/looks/{key}/picture.png?" in page.text
    assert "largemouth bass, in clear water" in words
    assert "says nothing of whether the fish cares, or bites" in words
    assert "Version 1, as it is now" in words
    assert "350 °F (177 °C)" in words


def test_the_picture_on_the_page_is_there(full_world):
    client = Client(full_world)
    page = client.get(f"{SHAD}?where=under+water&water=green&depth_m=3&@units=metric")
    address = html.unescape(re.findall(r'class="look-image" src="([^"]+)"', page.text)[0])
    picture = client.get(address)
    assert picture.status_code == 200
    assert picture.headers["content-type"] == "image/png"
    assert size_of(picture.content) == (640, 256)


@pytest.mark.parametrize("pixels", [96, 250, 640])
def test_a_picture_is_as_wide_as_asked_and_known_again(full_world, pixels):
    client = Client(full_world)
    address = f"{SHAD}/picture.png?px={pixels}"
    first = client.get(address)
    assert size_of(first.content) == (pixels, round(0.4 * pixels))
    again = client.get(address, **{"if-none-match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("px=4000", "must lie between"),
        ("px=1e3", "must be the number of pixels"),
        ("where=on+the+moon", "must be one of"),
        ("depth_m=deep", "is not a number"),
        ("bait=demo-mold-worm", "no bait"),
        ("version=7", "has no version 7"),
    ],
)
def test_what_cannot_be_pictured_is_said(full_world, asked, words):
    answer = Client(full_world).get(f"{SHAD}/picture.png?{asked}", accept="application/json")
    assert answer.status_code in {404, 422}
    assert words in answer.json()["message"]


def test_every_way_of_looking_shows_something_else(full_world):
    client = Client(full_world)
    asked = [
        "where=in+the+hand", "side=back", "ground=black+card", "lamp=filament+lamp",
        "bait=demo-bait-worm", "where=held+to+the+light", "lamp=my+shed+light",
        *(f"where=under+water&water={w}" for w in ("clear", "green", "tea-stained", "muddy")),
        "where=under+water&water=clear&distance_m=6", "where=under+water&water=clear&depth_m=40",
    ]  # fmt: skip
    found = {client.get(f"{SMALL}&{query}").content for query in asked}
    assert len(found) == len(asked)


def test_my_water_is_the_one_of_workplace(full_world):
    client = Client(full_world)
    mine = client.get(f"{SMALL}&where=under+water&water=my+water").content
    assert mine == client.get(f"{SMALL}&where=under+water&water=clear").content
    with full_world.bench() as bench:
        stored = bench.records.get("workplace", "workplace")
        murky = type(stored.noun)(name="Murky", secchi_m=0.8, demo=True)
        bench.records.save("workplace", stored.id, murky, expected_version=stored.version)
        bench.commit()
    assert mine != client.get(f"{SMALL}&where=under+water&water=my+water").content
    assert "white disk gone at 2.6" in words_in(client.get(SHAD))


def test_sliders_show_a_look_before_it_is_kept(full_world):
    client = Client(full_world)
    plain = client.get(SMALL).content
    tried = client.send(f"{SHAD}/picture.png", BROWNER)
    assert tried.status_code == 200
    assert tried.content != plain
    assert client.get(SMALL).content == plain
    keep(full_world, browner(look_on(full_world)[1]))
    assert client.get(SMALL).content == tried.content


def test_a_slider_costs_little(full_world):
    """The processor's time alone, the best of several: a stall, five times the usual and more."""
    client, taken = Client(full_world), []
    for drops in range(1, 9):
        began = time.process_time()
        sent = BROWNER | {"amount-0": str(drops), "px": "256"}
        assert client.send(f"{SHAD}/picture.png", sent).status_code == 200
        taken.append(time.process_time() - began)
    assert min(taken) < 0.4


def test_lines_show_before_they_are_kept_and_then_are(full_world):
    client = Client(full_world)
    plain = client.get(SMALL).content
    tried = client.send(f"{SHAD}/picture.png", LINES | {"px": "128"}).content
    assert tried != plain
    version = {"@version": str(look_on(full_world)[0])}
    assert client.send(f"{SHAD}/split", LINES | version).headers["location"] == SHAD
    assert look_on(full_world)[1].split.line_height == 0.5
    assert client.get(SMALL).content == tried
    assert client.send(f"{SHAD}/split", LINES | version).status_code == 409


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({"split.line_height": "2"}, "must lie between"),
        ({"split.line_height": "0.4", "split.belly_height": "0.6"}, "must be under the line"),
        ({"split.line_height": "low"}, "is not a number"),
    ],
)
def test_lines_that_cannot_be_are_kept_on_the_form_alone(full_world, sent, words):
    client = Client(full_world)
    answer = client.send(f"{SHAD}/split", LINES | sent | {"@version": "1"})
    assert answer.status_code == 422
    assert words in words_in(answer)
    assert f'value="{sent["split.line_height"]}"' in answer.text
    assert look_on(full_world)[0] == 1


def test_a_slider_stands_where_the_shares_put_the_line(full_world):
    """Shares of 40 and 60 part a fish below its widest place: over half of its height."""
    page = Client(full_world).get(SHAD)
    rest = float(
        re.findall(r'name="split.line_height" value="" placeholder="([0-9.]+)"', page.text)[0]
    )
    assert 0.5 < rest < 0.7


@pytest.mark.parametrize(
    ("places", "measures"),
    [
        ("body", ()),
        ("belly back", ("line_height",)),
        ("belly body back", ("line_height", "belly_height")),
        ("body vein", ("vein_height", "vein_thick_mm", "vein_wide_mm")),
        ("back belly core", ("line_height", "core_share")),
    ],
)
def test_only_measures_that_mean_something_are_asked(full_world, places, measures):
    layers = [Place(place) for place in places.split()]
    look = Look(
        name="Split",
        layers=tuple(LookLayer(place=p, share=1 / len(layers), doses=()) for p in layers),
    )
    keep(full_world, look)
    page = Client(full_world).get(SHAD).text
    asked = set(re.findall('name="split.([a-z_]+)"', page)) - {"line", "wave_mm"}
    assert asked == set(measures)


@pytest.mark.parametrize(("split", "told"), [(Split(), True), (Split(line_height=0.5), False)])
def test_a_list_tells_shares_only_where_no_line_sets_them_aside(full_world, split, told):
    layers = tuple(
        LookLayer(place=p, share=s) for p, s in ((Place.BELLY, 0.37), (Place.BACK, 0.63))
    )
    keep(full_world, Look(name="Split", layers=layers, split=split))
    words = words_in(Client(full_world).get("/looks"))
    assert {"Belly", "Back"} <= set(re.findall(r"[A-Z][a-z]+", words))
    assert [f"{share} %" in words for share in (37, 63)] == [told, told]


def test_another_bait_is_shown_once_it_is_picked(full_world):
    page = Client(full_world).get(f"{SHAD}?bait=demo-bait-worm")
    assert "in Seven-inch marsh worm, in the hand" in words_in(page)
    assert '<option value="demo-bait-worm" selected>' in page.text


def test_in_tea_stained_water_a_pale_belly_shines_and_a_brown_back_is_dark(full_world):
    """Little of the light comes back up there, so that pale things outshine it; from memory."""
    words = words_in(Client(full_world).get(f"{SHAD}?water=tea-stained"))
    assert re.findall(r"(dark|bright) against the water", words) == ["dark", "bright"]


def test_an_earlier_version_is_seen_and_brought_back(full_world):
    client = Client(full_world)
    first, before = look_on(full_world)[1], client.get(SMALL).content
    keep(full_world, browner(first))
    assert client.get(SMALL).content != before
    assert client.get(f"{SMALL}&version=1").content == before
    words = words_in(client.get(SHAD))
    assert "Version 2, as it is now" in words
    assert client.send(f"{SHAD}/versions/1", {"@version": "1"}).status_code == 409
    assert client.send(f"{SHAD}/versions/9", {"@version": "2"}).status_code == 404
    assert client.send(f"{SHAD}/versions/1", {"@version": "2"}).status_code == 303
    assert look_on(full_world) == (3, first)
    assert client.get(SMALL).content == before


def test_the_store_is_free_while_a_picture_is_drawn(full_world, monkeypatch):
    def written_meanwhile(asked):
        keep(full_world, browner(look_on(full_world)[1]))
        return png_of(asked)

    monkeypatch.setattr("pourwright.web.pages.look_picture.png_of", written_meanwhile)
    assert Client(full_world).get(SMALL).status_code == 200
    assert look_on(full_world)[0] == 2


def test_the_finest_picture_comes_by_a_job(full_world, monkeypatch):
    client = Client(full_world)
    job = client.send(f"{SHAD}/picture/fine", BROWNER).json()["job"]
    state: dict[str, Any] = {"status": "running"}
    for _ in range(200):
        if state["status"] != "running":
            break
        time.sleep(0.1)
        state = client.get(f"/api/jobs/{job}").json()
    assert (state["status"], state["answer"]) == ("done", {})
    with monkeypatch.context() as patched:
        patched.setattr("pourwright.web.look_picture.look_picture", None)
        fine = client.send(f"{SHAD}/picture.png", BROWNER | {"px": "1280"})
        assert size_of(fine.content) == (1280, 512)
    assert client.send(f"{SHAD}/picture/fine", BROWNER).json()["job"] == job
    other = client.send(f"{SHAD}/picture/fine", BROWNER | {"bait": "demo-bait-worm"})
    assert other.json()["job"] != job


def test_a_fish_nobody_measured_is_refused_by_its_reason(full_world):
    words = words_in(Client(full_world).get(f"{SHAD}?fish=common+snook"))
    assert "Common snook has no cone peaks here: no measurement was found" in words
    assert "steps" not in words.split("To a fish")[1].split("Its versions")[0]


def test_night_is_said(full_world):
    words = words_in(Client(full_world).get(f"{SHAD}?water=muddy&depth_m=20&@units=metric"))
    assert "Night down there, even at noon" in words


def test_a_wish_that_cannot_be_keeps_the_page(full_world):
    page = Client(full_world).get(f"{SHAD}?depth_m=900")
    assert page.status_code == 422
    assert "Depth of the bait: must lie between" in words_in(page)
    assert 'value="900"' in page.text


def test_a_bench_without_shapes_says_how_to_get_one(empty_world):
    look = Look(name="Plain", layers=(LookLayer(place=Place.BODY, share=1.0, doses=()),))
    with empty_world.bench() as bench:
        bench.records.save(Look.key, "plain", look, expected_version=0)
        bench.records.save(Bait.key, "b", Bait(name="Weighed only", mass_g=9), expected_version=0)
        bench.commit()
    client = Client(empty_world)
    page = client.get("/looks/plain")
    assert page.status_code == 200
    assert "no bait on this bench has a shape" in words_in(page)
    assert 'href="/shapes"' in page.text
    assert client.get("/looks/plain/picture.png").status_code == 422
    assert client.get("/looks/nowhere").status_code == 404


def test_a_look_taken_off_shows_its_history(full_world):
    with full_world.bench() as bench:
        bench.records.retire(Look.key, "demo-look-shad", expected_version=1)
        bench.commit()
    answer = Client(full_world).get(SHAD)
    assert answer.headers["location"] == "/records/look/demo-look-shad/history"


def test_the_color_page_shows_the_whole_look(full_world):
    page = Client(full_world).get(f"{SHAD}/color?layer=1")
    assert f'data-picture="{SHAD}/picture.png"' in page.text
    assert f'href="{SHAD}"' in page.text


def test_a_list_of_twelve_looks_is_quick_once_warm(full_world):
    """Time of the processor alone, the best of several: its pictures come one by one after it."""
    look = look_on(full_world)[1]
    with full_world.bench() as bench:
        for n in range(10):
            bench.records.save(Look.key, f"more-{n}", look, expected_version=0)
        bench.commit()
    client, taken = Client(full_world), []
    for _ in range(4):
        began = time.process_time()
        assert client.get("/looks").status_code == 200
        taken.append(time.process_time() - began)
    assert min(taken) < 1
