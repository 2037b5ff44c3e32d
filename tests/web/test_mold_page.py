"""The page of a mold answers a push, keeps and undoes timed shots, opens its calculations."""

from __future__ import annotations

import html
import re

import httpx
import pytest

from pourwright.actions.mold_case import mold_case
from pourwright.actions.port import World
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.timed_shot import TimedShot
from pourwright.web.mold_picture import mold_picture
from pourwright.web.solid_scale import FILLED
from web.client import Client, form_in, words_in

WORM = "/molds/demo-mold-worm"
DOOR = re.compile(
    r'action="(/questions/[a-z_.]+)"[^>]*><input type="hidden" name="inputs" value="([^"]*)"'
)
UNDO = re.compile(r'action="([^"]*/undo)"><input type="hidden" name="@version" value="(\d+)"')


def share(page) -> float:
    found = re.search(r'class="mold-odds"><strong>(\d+)', page.text)
    assert found, words_in(page)[:800]
    return int(found[1])


@pytest.fixture
def client(full_world) -> Client:
    return Client(full_world)


def test_the_card_of_a_mold_leads_to_its_page_and_the_page_to_its_bait(client):
    assert f'href="{WORM}"' in client.get("/baits").text
    page = client.get(WORM)
    assert page.status_code == 200
    assert 'href="/baits/demo-bait-worm"' in page.text
    words = words_in(page).replace("\xa0", " ")
    for told in (
        "this share of shots comes out full", "Several molds from one load", "Keep pushing",
        "Your clamps press with", "One more cavity?", "1 timed shot: known within",
        "Odds here without them", "Hot plastic under pressure",
    ):  # fmt: skip
        assert told in words, told
    assert client.get("/molds/nobody").status_code == 404


def test_every_calculation_of_the_page_opens_with_its_numbers(client):
    doors = dict(DOOR.findall(client.get(WORM).text))
    assert set(doors) == {
        f"/questions/{name}"
        for name in ("fill.odds", "fill.load", "fill.hold", "fill.clamp", "mold.cavities")
    }
    for address in ("/questions/fill.hold", "/questions/fill.clamp", "/questions/mold.cavities"):
        opened = client.send(address, {"inputs": html.unescape(doors[address])})
        assert opened.status_code == 200, address
        assert "No answer yet" not in opened.text, address


def test_a_colder_push_is_answered_as_it_is_typed(client):
    form = form_in(client.get(WORM))
    cold = client.send(WORM, form | {"melt_c": "290", "@do": "try", "molds": "1"})
    warm = client.send(WORM, form | {"melt_c": "345", "@do": "try", "molds": "1"})
    assert share(cold) < share(warm)
    assert "Several molds" not in words_in(warm)
    wrong = client.send(WORM, form | {"melt_c": "9000", "@do": "try"})
    assert "must lie between" in words_in(wrong)
    hot_mold = client.send(WORM, form | {"melt_c": "215", "mold_c": "230", "@do": "try"})
    assert "must be below the plastic" in html.unescape(words_in(hot_mold))


def test_a_push_is_tried_while_somebody_else_keeps_something(client, full_world):
    form = form_in(client.get(WORM)) | {"molds": "1", "@do": "try"}
    with full_world.bench() as busy:
        busy.records.save(Bait.key, "b", Bait(name="Other", mass_g=9), expected_version=0)
        assert client.send(WORM, form).status_code == 200


def test_a_stopwatch_is_kept_and_undone(client, full_world):
    form = form_in(client.get(WORM)) | {"molds": "1"}
    nothing = client.send(WORM, form | {"@do": "time"})
    assert nothing.status_code == 422
    assert "stopwatch showed" in words_in(nothing)
    kept = client.send(WORM, form | {"@do": "time", "fill_s": "2.4"})
    assert kept.status_code == 303, words_in(kept)[:500]
    page = client.get(kept.headers["location"])
    assert "2 timed shots: known within" in words_in(page)
    assert 'name="fill_s" value=""' in page.text
    assert len(UNDO.findall(page.text)) == 2
    for address, version in UNDO.findall(page.text):
        assert client.send(address, {"@version": version}).status_code == 303
    assert "None yet." in words_in(client.get(WORM))
    with full_world.bench() as bench:
        assert len(bench.records.all(TimedShot.key, retired=True)) == 2
        assert bench.records.all(TimedShot.key) == ()


def test_plan_and_sheet_lead_to_the_mold_with_their_push(client):
    plan = client.get("/plan")
    links = re.findall(r'href="(/molds/[^"]+)"', plan.text)
    assert len(links) == 1
    page = client.get(html.unescape(links[0]))
    assert page.status_code == 200
    assert 'name="melt_c" value="329"' in page.text
    sheet = client.send("/plan", form_in(plan) | plan_form(plan.text) | {"@do": "freeze"})
    assert sheet.status_code == 303
    assert f'href="{WORM}"' in client.get(sheet.headers["location"]).text


def plan_form(text: str) -> dict[str, str]:
    """The plan's form has another id than a record's."""
    return form_in(httpx.Response(200, text=text.replace('id="plan-form"', 'id="record"')))


def put(world: World, key: str, noun: Bait | Mold) -> None:
    with world.bench() as bench:
        bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()


def test_a_mold_of_a_weighed_bait_says_what_is_missing(empty_world):
    put(empty_world, "b", Bait(name="Weighed", mass_g=9))
    put(empty_world, "m", Mold(name="Its mold", bait="b", cavities=2))
    words = words_in(Client(empty_world).get("/molds/m"))
    assert "known by weight only" in words
    assert "thickest place" in words
    assert "Will it fill?" not in words


def test_the_picture_covers_the_bait_and_its_feed_in_true_size(full_world):
    """The colored cells cover the shadow that a mesh library projects."""
    with full_world.bench() as bench:
        case = mold_case(bench, "demo-mold-worm")
    assert case.bait.shape is not None
    drawn = mold_picture(case.known, case.known_feed, 4)
    runs = [int(w) for _, d in drawn.paths for w in re.findall(r"h(\d+)v1", d)]
    shadow_mm2 = case.bait.shape.solid().project().area()
    assert sum(runs) * drawn.pitch**2 == pytest.approx(shadow_mm2, rel=0.02)
    starts = [int(x) for _, d in drawn.paths for x in re.findall(r"M(-?\d+)", d)]
    assert -2 <= min(starts) <= 0
    assert len(drawn.paths) == len(FILLED)
    left, top, wide, high = (float(v) for v in drawn.view_box.split())
    assert wide == pytest.approx(3 + 38 + 6 + 4 + 178 + 3, abs=1.5)
    assert high > 3 * case.known_feed.pitch_mm
    assert len(drawn.places) == 4
    x, y = drawn.rings[0]
    assert 170 < x < left + wide
    assert abs(y) < 3
    assert top < 0
