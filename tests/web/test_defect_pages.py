"""The defect guide's pages: every defect opens, and its calculations open with its numbers."""

from __future__ import annotations

import html
import re

import pytest

import mesh_files
from pourwright.actions.import_shape import keep_shape
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.placing import Placing
from pourwright.plan.defect.known import DEFECTS
from pourwright.shop.mold import Mold
from ready_store import demo_bench
from web.client import Client, words_in

FORM = re.compile(
    r'<form method="post" action="(/questions/[^"]+)#check-answer">.*?value="([^"]*)"'
)


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    """A demo bench that nothing here writes to, so that one does for all."""
    return Client(demo_bench(tmp_path_factory.mktemp("demo")))


def forms(text: str) -> list[tuple[str, str]]:
    return [(path, html.unescape(inputs)) for path, inputs in FORM.findall(text)]


def test_baits_and_the_lot_lead_to_the_guide(client):
    assert 'href="/defects"' in client.get("/baits").text
    assert 'href="/defects?for=lot-1"' in client.get("/lots/1").text


def test_the_guide_opens_on_an_empty_bench_and_says_whose_numbers(empty_world):
    client = Client(empty_world)
    assert "there is no mold on this bench yet" in words_in(client.get("/defects"))
    for defect in DEFECTS:
        page = client.get(f"/defects/{defect.key}")
        assert page.status_code == 200
        assert "there is no mold on this bench yet" in words_in(page)


def test_every_defect_of_the_lot_opens_with_a_verdict_for_each_cause(client):
    listed = client.get("/defects?for=lot-1").text
    for defect in DEFECTS:
        assert f'href="/defects/{defect.key}?for=lot-1"' in listed
        page = client.get(f"/defects/{defect.key}?for=lot-1")
        assert page.status_code == 200
        words = words_in(page)
        assert all(cause.says in words for cause in defect.causes)
        assert page.text.count('class="likelihood"') == len(defect.causes)
        assert "lot P2601170001K; mold, injector, plastic and timed shots as their records" in words


@pytest.mark.parametrize("key", ["flash", "dent", "salt", "sinking", "tip"])
@pytest.mark.parametrize("whose", ["lot-1", "mold-demo-mold-worm"])
def test_a_calculation_opens_with_the_numbers_of_the_verdict(client, key, whose):
    found = forms(client.get(f"/defects/{key}?for={whose}").text)
    assert found or (key, whose) == ("salt", "lot-1")
    for path, inputs in found:
        opened = client.send(path, {"inputs": inputs})
        assert opened.status_code == 200
        assert "No answer yet" not in words_in(opened)


def test_the_heat_budget_opens_with_the_same_share(client):
    page = client.get("/defects/yellow?for=lot-1")
    share = re.search(r"Heat budget used.*?<strong>([^<]+)</strong>", page.text, re.DOTALL)
    door = re.search(r'href="(/heat-budget\?[^"]+)"', page.text)
    assert share
    assert door
    told = words_in(client.get(html.unescape(door[1])))
    assert "Used at the hottest place" in told
    first = share[1].split("\N{NO-BREAK SPACE}")[0]
    used = re.search(r"Used at the hottest place: ([0-9.]+)", told)
    assert used
    assert round(float(used[1])) == int(first)


def test_what_was_counted_is_named_as_it_was_counted(client):
    assert "In this lot 2 of 36 were counted as flash." in words_in(
        client.get("/defects/flash?for=lot-1")
    )
    assert "were counted as other or torn." in words_in(
        client.get("/defects/undercooked?for=lot-1")
    )


def test_an_answer_moves_the_suspects_and_is_taken_back_by_the_same_link(client):
    link = "/defects/dent?for=lot-1&amp;held=3#suspects"
    assert link in client.get("/defects/dent?for=lot-1").text
    picked = client.get("/defects/dent?for=lot-1&held=3")
    assert 'href="/defects/dent?for=lot-1#suspects" aria-current="true"' in picked.text
    assert "Your answers speak against it" in words_in(picked)


@pytest.mark.parametrize(
    ("address", "status"),
    [
        ("/defects/nothing", 404),
        ("/defects?for=lot-99", 404),
        ("/defects?for=mold-none", 404),
        ("/defects?for=everything", 422),
        ("/defects?for=lot-one", 422),
        ("/defects/dent?held=9", 422),
        ("/defects/dent?held=-1", 422),
    ],
)
def test_what_does_not_exist_is_refused(client, address, status):
    assert client.get(address).status_code == status


def test_yellowed_plastic_is_never_reheated(client):
    words = words_in(client.get("/defects/yellow?for=lot-1"))
    assert "discarded, never reheated" in words
    assert "hydrogen chloride" in words
    assert "local codes" in words


def test_every_defect_of_a_bait_from_a_file_opens(empty_world):
    points, faces = mesh_files.BALL
    drawn_out = Mesh(points * (3, 0.8, 0.6), faces, LengthUnit.MM)
    bait = keep_shape(
        empty_world, drawn_out, unit=None, placing=Placing(), name="Own", source="own.stl"
    )
    with empty_world.bench() as bench:
        mold = Mold(name="Its mold", bait=bait.id, cavities=2)
        bench.records.save(Mold.key, "own", mold, expected_version=0)
        bench.commit()
    pages = [Client(empty_world).get(f"/defects/{d.key}?for=mold-own") for d in DEFECTS]
    assert {page.status_code for page in pages} == {200}
    assert any(f'href="/baits/{bait.id}"' in page.text for page in pages)
