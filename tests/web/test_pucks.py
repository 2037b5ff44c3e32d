"""The guide to pucks, the reading form and the photo page, without a browser."""

from __future__ import annotations

import dataclasses
import re

import pytest

from pourwright.actions.calibrate_shelf import calibrate_shelf
from web.client import BASE, Client, form_in, words_in

PAGES = ["/pucks", "/pucks/reading", "/photo", "/records/puck/new", "/records/card/new"]
LAB = {"l": "61.2", "a": "-3", "b": "4,5", "instrument": "color meter", "placing": "contact"}


def stored(world, sort):
    with world.bench() as bench:
        return bench.records.all(sort)


def puck(world, key):
    with world.bench() as bench:
        return bench.records.get("puck", key).noun


def upload(world, name, data):
    body = (
        f'--x\r\nContent-Disposition: form-data; name="spectra"; filename="{name}"\r\n\r\n{data}'
        "\r\n--x--\r\n"
    )
    headers = {
        "accept": "text/html", "origin": BASE, "sec-fetch-site": "same-origin",
        "content-type": "multipart/form-data; boundary=x",
    }  # fmt: skip
    return Client(world).ask("POST", "/pucks/spectra", content=body.encode(), headers=headers)


@pytest.mark.parametrize("path", PAGES)
def test_every_page_opens_on_an_empty_and_a_full_store(empty_world, full_world, path):
    for world in (empty_world, full_world):
        assert Client(world).get(path).status_code == 200


def test_an_empty_bench_starts_with_the_bare_cards(empty_world):
    words = words_in(Client(empty_world).get("/pucks"))
    assert "Read a bare white card." in words
    assert "Read a bare black card." in words
    assert "350 °F (177 °C)" in words


def test_a_bare_card_is_entered_and_no_longer_asked_for(empty_world):
    client = Client(empty_world)
    sent = LAB | {"puck": "", "name": "White card", "l": "94.6"}
    assert client.send("/pucks/reading", sent).status_code == 303
    words = words_in(client.get("/pucks"))
    assert "Read a bare white card." not in words
    assert "Read a bare black card." in words


def test_a_lesson_outlives_the_visit_that_asked_for_it(full_world):
    client = Client(full_world)
    assert "What the pucks taught" not in client.get("/pucks").text
    assert client.send("/pucks", {}).status_code == 303
    words = words_in(client.get("/pucks"))
    assert "One more puck here would help most" in words
    assert re.search(r"Check pucks, never used in the fit: [0-9.]+", words)
    assert "No puck contradicts the others" in words


def test_two_swapped_pucks_are_named_on_the_page(full_world):
    with full_world.bench() as bench:
        kept = [bench.records.get("puck", f"demo-puck-{n}") for n in (4, 7)]
        for one, other in (kept, kept[::-1]):
            changed = dataclasses.replace(one.noun, readings=other.noun.readings)
            bench.records.save("puck", one.id, changed, expected_version=one.version)
        bench.commit()
    calibrate_shelf(full_world)
    words = words_in(Client(full_world).get("/pucks"))
    assert "were the two swapped?" in words or "contradicts the other pucks" in words


def test_a_wanted_puck_is_poured_read_and_learned(full_world):
    client = Client(full_world)
    sent = {"material": "demo-color-rose", "key": "high"}
    assert client.send("/pucks/pour", sent).status_code == 303
    page = client.get("/pucks").text
    assert "Dawn rose, 8 drops: poured, not read yet." in page
    (key,) = set(re.findall(r"/pucks/reading\?puck=([0-9a-f]{32})", page))
    for card in ("demo-card-white", "demo-card-black"):
        answer = client.send("/pucks/reading", LAB | {"puck": key, "card": card})
        assert answer.status_code == 303
    assert puck(full_world, key).readings[1].read.lab.b == 4.5
    client.send("/pucks", {})
    known = {s.noun.material for s in stored(full_world, "calibration")}
    assert "demo-color-rose" in known


def test_the_puck_that_helps_most_can_be_poured_once(full_world):
    client = Client(full_world)
    client.send("/pucks", {})
    before = len(stored(full_world, "puck"))
    client.send("/pucks/pour", {"material": "lesson", "key": "next"})
    assert len(stored(full_world, "puck")) == before + 1
    assert "One more puck here would help most" not in client.get("/pucks").text


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"l": "x"}, "L*: is not a number"),
        ({"l": "130"}, "must lie between 0 and 100"),
        ({"card": ""}, "pick the card under the puck"),
        ({"placing": ""}, "must be one of contact, air gap"),
        ({"placing": "air gap"}, "was contact when Moss, 8 drops was read before"),
        ({"instrument": "photo"}, "was color meter when Moss, 8 drops was read before"),
        ({"puck": "", "name": " "}, "pick a puck, or name the bare card"),
        ({"card": "nowhere"}, "is not on the bench"),
    ],
)
def test_a_reading_that_does_not_fit_is_refused_and_kept_on_the_page(full_world, change, words):
    sent = LAB | {"puck": "demo-puck-4", "card": "demo-card-white", "name": ""} | change
    answer = Client(full_world).send("/pucks/reading", sent)
    assert answer.status_code == 422
    assert words in words_in(answer).replace("&#39;", "'")
    assert f'value="{sent["b"]}"' in answer.text
    assert len(puck(full_world, "demo-puck-4").readings) == 2


def test_a_photo_hands_its_color_to_the_reading_form(full_world):
    page = Client(full_world).get("/pucks/reading?l=47.2&a=23.8&b=29.7&instrument=photo")
    assert 'value="47.2"' in page.text
    assert re.search(r"<option selected>\s*photo", page.text)


def test_an_unknown_puck_is_not_poured(full_world):
    answer = Client(full_world).send("/pucks/pour", {"material": "gone", "key": "low"})
    assert answer.status_code == 404


def test_spectra_come_in_from_a_file_and_bad_ones_are_refused_by_line(full_world):
    rows = "\n".join(f"{nm},0.2" for nm in range(400, 701, 10))
    taken = upload(full_world, "a.csv", f"nm,White card\n{rows}\n")
    assert "White card: bare spectrum taken in, read as shares from 0 to 1" in words_in(taken)
    bad = upload(full_world, "a.csv", f"nm,White card\n{rows}\n710,oops\n")
    assert bad.status_code == 422
    assert "is no number (line 33) (got oops)" in words_in(bad).replace("&#39;", "")
    assert "choose a CSV file first" in upload(full_world, "", "").text


def test_markup_in_a_name_is_shown_not_run(full_world):
    client = Client(full_world)
    page = client.get("/pucks/reading?name=%3Cscript%3Ex%3C/script%3E&l=%22%3E%3Cb%3E")
    assert "<script>x" not in page.text
    assert '"><b>' not in page.text


def test_the_generated_puck_form_saves_untouched(full_world):
    client = Client(full_world)
    page = client.get("/records/puck/demo-puck-5")
    before = puck(full_world, "demo-puck-5")
    assert client.send("/records/puck/demo-puck-5", form_in(page)).status_code == 303
    assert puck(full_world, "demo-puck-5") == before
