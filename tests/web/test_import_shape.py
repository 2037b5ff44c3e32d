"""A shape comes in from a file by its page and by the program's door; a bad one harms nothing."""

from __future__ import annotations

import base64
import re

import numpy as np
import pytest

import mesh_files as m
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape
from pourwright.web.guard import MOST_BODY
from web.client import Client, words_in

PAGE = "/baits/import"
# A ball drawn out to a body of about 120 x 24 x 16 steps, thicker toward the file's upper end.
THICKER = 1 + 0.2 * m.BALL[0][:, :1] / 10
BODY = (m.BALL[0] * (6, 1.2, 0.8) * np.hstack([np.ones_like(THICKER), THICKER, THICKER]), m.BALL[1])

# A rod of 50 x 0.1 x 0.1 steps.
HAIR = (m.BOX[0] * ((50, 0.1, 0.1) / np.ptp(m.BOX[0], axis=0)), m.BOX[1])


@pytest.fixture
def client(empty_world) -> Client:
    return Client(empty_world)


def posted(client: Client, fields: dict[str, str], *, file: tuple[str, bytes] | None = None):
    headers = {"accept": "text/html", "origin": client.base, "sec-fetch-site": "same-origin"}
    files = {"file": file} if file else {"nothing": ("", b"")}
    return client.ask("POST", PAGE, headers=headers, data=fields, files=files)


def hidden(page) -> dict[str, str]:
    found = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', page.text))
    return {name: value.replace("&#34;", '"') for name, value in found.items()}


def outline_in(page) -> str:
    found = re.search(r'<svg class="outline"[^>]*><path d="([^"]+)"', page.text)
    assert found
    return found[1]


def baits(world) -> dict[str, Bait]:
    with world.bench() as bench:
        return {s.id: s.noun for s in bench.records.all(Bait.key)}


def test_the_list_of_baits_leads_to_the_page(client):
    assert f'href="{PAGE}"' in client.get("/baits").text
    page = client.get(PAGE)
    assert page.status_code == 200
    assert "Read the file" in page.text


def test_a_file_without_a_unit_asks_with_weights_and_is_kept(client, empty_world):
    before = baits(empty_world)
    page = posted(client, {"do": "look"}, file=("minnow.stl", m.stl(BODY)))
    assert page.status_code == 200
    words = words_in(page)
    assert "minnow.stl" in words
    assert "only you can tell" in words
    for unit in ("Millimeters", "Centimeters", "Inches"):
        assert unit in words
    assert words.count("in plain plastic") == 3
    assert words.count("No bait is that size") == 2
    held = hidden(page)
    missing = posted(client, held | {"do": "keep", "name": "Own minnow"})
    assert missing.status_code == 422
    assert "Unit: is needed" in words_in(missing)
    assert baits(empty_world) == before
    kept = posted(
        client, hidden(missing) | {"do": "keep", "name": "Own minnow", "unit": "mm", "side": "1"}
    )
    assert kept.status_code == 303
    (fresh,) = set(baits(empty_world)) - set(before)
    assert kept.headers["location"] == f"/baits/{fresh}"
    bait = baits(empty_world)[fresh]
    with empty_world.bench() as bench:
        shape = bench.records.get(OwnShape.key, bait.own_shape).noun
    assert (shape.source, shape.unit, shape.on_side) == ("minnow.stl", "mm", True)
    assert shape.measures.length_mm == pytest.approx(120, rel=1e-3)
    assert shape.measures.volume_ml == pytest.approx(m.BALL_VOLUME * 6 * 1.2 * 0.8 / 1000, rel=0.02)
    assert shape.measures.thickest_mm == pytest.approx(16, rel=0.04)
    listed = client.get("/baits")
    assert "Own minnow" in listed.text
    assert re.search(r"Own minnow.*?<svg class=\"outline\"", listed.text, re.DOTALL)


def test_the_nose_can_be_put_at_the_other_end(client):
    page = posted(client, {"do": "look"}, file=("a.obj", m.obj_of(BODY)))
    turned = posted(client, hidden(page) | {"do": "look", "nose": "1"})
    first, other = (outline_in(p) for p in (page, turned))
    assert first != other
    assert 'name="nose" value="1" checked' in turned.text
    wrong = posted(client, hidden(page) | {"do": "look", "length": "x", "pull": "x"})
    assert wrong.status_code == 422
    assert "must be another axis" in words_in(wrong)


def test_a_3mf_file_needs_no_answer(client):
    page = posted(client, {"do": "look"}, file=("b.3mf", m.threemf(BODY)))
    assert "only you can tell" not in page.text
    assert "The file is drawn in millimeters" in words_in(page)
    assert posted(client, hidden(page) | {"do": "keep", "name": "By 3MF"}).status_code == 303


def test_bad_files_are_refused_in_words_and_the_bench_goes_on(client, empty_world):
    before = baits(empty_world)
    apart = m.both(BODY, m.moved(BODY, (0, 90, 0)))
    hollow = m.both(BODY, m.inside_out(m.moved(BODY, (0, 0, 0), scale=0.5)))
    bad = {
        "apart.stl": (m.stl(apart), "one bait in one piece"),
        "hollow.3mf": (m.threemf(hollow), "must be solid"),
        "hole.stl": (m.stl((BODY[0], BODY[1][:900])), "is open"),
        "lying.stl": (m.stl(BODY, promised=10**9), "says 1,000,000,000 triangles"),
        "bomb.3mf": (
            m.package(m.one_item(m.BOX), more=[("x", bytes(90_000_000))]), "100 times its size"
        ),
    }  # fmt: skip
    for name, (data, why) in bad.items():
        page = posted(client, {"do": "look"}, file=(name, data))
        assert page.status_code == 422
        assert why in words_in(page)
        assert "Read the file" in page.text
    assert posted(client, {"do": "look"}).status_code == 422
    assert client.get("/baits").status_code == 200
    assert baits(empty_world) == before


@pytest.mark.parametrize(
    "change",
    [{"packed": "AAAA"}, {"packed": ""}, {"remarks": "{"}, {"remarks": "[1]"}, {"said": "ell"},
     {"unit": "ell"}, {"length": "w"}, {"name": ""}, {"name": "n" * 61}],
)  # fmt: skip
def test_a_page_that_was_tampered_with_is_refused(client, empty_world, change):
    before = baits(empty_world)
    page = posted(client, {"do": "look"}, file=("a.stl", m.stl(BODY)))
    sent = hidden(page) | {"do": "keep", "name": "Own", "unit": "mm"} | change
    answer = posted(client, sent)
    assert answer.status_code == 422
    assert baits(empty_world) == before


def test_a_program_asks_about_a_body_from_a_file(client):
    file = base64.b64encode(m.stl(BODY)).decode()
    answer = client.calc("body.measure", as_json({"file": file, "unit": "mm"}))
    assert answer.status_code == 200
    assert answer.json()["length_mm"] == pytest.approx(120, rel=1e-3)
    asked = client.calc("body.measure", as_json({"file": file}))
    assert asked.status_code == 422
    assert asked.json()["field"] == "unit"
    assert "as mm 120 mm long" in asked.json()["why"]
    no_text = client.calc("body.measure", as_json({"file": "***", "unit": "mm"}))
    assert no_text.json()["field"] == "file"
    assert "is not base64 text" in no_text.json()["why"]
    holed = base64.b64encode(m.stl((BODY[0], BODY[1][:900]))).decode()
    refused = client.calc("body.measure", as_json({"file": holed, "unit": "mm"}))
    assert refused.status_code == 422
    assert refused.json()["field"] == "file"


def test_only_what_takes_files_takes_large_bodies(client):
    large = as_json({"note": "x" * (MOST_BODY + 1)})
    assert client.calc("shop.check_code", large).status_code == 413
    assert client.calc("body.measure", large).status_code == 422
    assert posted(client, {}, file=("a.stl", bytes(MOST_BODY + 1))).status_code == 422


def as_json(values: dict[str, str]) -> bytes:
    inside = ",".join(f'"{name}":"{value}"' for name, value in values.items())
    return f"{{{inside}}}".encode()


def test_a_body_as_thin_as_a_hair_is_refused_in_words(client, empty_world):
    page = posted(client, {"do": "look"}, file=("hair.obj", m.obj_of(HAIR)))
    assert page.status_code == 200
    before = baits(empty_world)
    refused = posted(client, hidden(page) | {"do": "keep", "name": "Hair", "unit": "mm"})
    assert refused.status_code == 422
    assert "nothing fills it" in words_in(refused)
    assert baits(empty_world) == before
