"""The page of a bait tells what it comes to, and sends its solid as the script expects it."""

from __future__ import annotations

import gzip
import re
from dataclasses import replace

import colour
import numpy as np
import pytest
from starlette.requests import Request

from pourwright.actions.import_shape import keep_shape
from pourwright.actions.port import World
from pourwright.actions.see_solid import DrawnSolid, see_family, see_solid
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.base.units import System
from pourwright.body.families import FAMILIES
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.measure import MeasureInput, measure
from pourwright.body.placing import Placing
from pourwright.body.shell import arrays
from pourwright.shop.mold import Bait, Mold, Weighing
from pourwright.web.solid_bytes import packed, sent
from pourwright.web.solid_scale import FILLED, THICK, thick_scale
from web.client import Client, form_in, words_in

HEAD_BYTES = 16
PLAIN = Stick(rings=0, sac_mm=0)
# Hollow, ringed and branched, thin-tailed; the browser draws every family.
DRAWN = [FAMILIES[key] for key in ("tube", "creature", "ribbon_tail_worm")]
# A picture of forty thousand triangles may not weigh more than this on the way to a phone.
MOST_BYTES = 1_000_000


def put(world: World, noun: Bait | Mold, key: str) -> None:
    with world.bench() as bench:
        bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()


def read(body: bytes) -> DrawnSolid:
    """The layout as the script reads it."""
    assert body[:4] == b"PWS1"
    corners, faces, _ = (int(v) for v in np.frombuffer(body, "<u4", 3, 4))
    floats = np.frombuffer(body, "<f4", corners * 8, HEAD_BYTES)
    points, normals, thick, order = np.split(floats, np.cumsum([3, 3, 1]) * corners)
    triangles = np.frombuffer(body, "<u4", faces * 3, HEAD_BYTES + floats.nbytes)
    assert HEAD_BYTES + floats.nbytes + triangles.nbytes == len(body)
    return DrawnSolid(
        points.reshape(-1, 3), normals.reshape(-1, 3), thick, order, triangles.reshape(-1, 3)
    )


@pytest.fixture
def stick(empty_world):
    put(empty_world, Bait(name="Plain stick", shape=PLAIN), "stick")
    return empty_world


def test_the_solid_arrives_closed_and_right_side_out(stick):
    solid = read(Client(stick).get("/baits/stick/solid").content)
    a, b, c = (solid.points[solid.triangles[:, k]].astype(float) for k in range(3))
    # Gauss, divergence theorem: a sixth of the triple products is the volume; negative inside out.
    volume = float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6000
    assert volume == pytest.approx(PLAIN.solid().volume() / 1000, rel=1e-4)
    assert np.linalg.norm(solid.normals, axis=1) == pytest.approx(1, abs=1e-5)
    outward = np.cross(b - a, c - a)
    mean = sum(solid.normals[solid.triangles[:, k]] for k in range(3))
    assert (np.einsum("ij,ij->i", outward, mean) >= 0).mean() > 0.999


def test_thick_and_late_places_are_where_the_measures_say(empty_world):
    for family in DRAWN:
        solid = see_of(empty_world, family)
        thickest = measure(MeasureInput(family=family())).thickest_mm
        assert solid.thick_mm.min() > 0
        assert solid.thick_mm.max() == pytest.approx(thickest, rel=0.06), family.key
        assert solid.order.min() >= 0
        assert solid.order.max() <= 1
        corners = solid.points[solid.triangles]
        longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max()
        assert longest < np.ptp(solid.points[:, 0]) / 14, family.key
        front = solid.points[:, 0] < solid.points[:, 0].max() * 0.04
        assert solid.order[front].max() < 0.2, family.key
        assert solid.order.max() > 0.95, family.key


def test_a_ring_keeps_its_edge_and_a_rod_its_roundness(stick):
    """A corner on a crease stands there once for each side; smooth skin has one normal."""
    tube = see_family("tube")
    assert len(np.unique(tube.points, axis=0)) < len(tube.points)
    with stick.bench() as bench:
        rod = see_solid(bench, "stick")
    middle = np.abs(rod.points[:, 0] - 60) < 20
    across = rod.points[middle][:, 1:] / np.linalg.norm(rod.points[middle][:, 1:], axis=1)[:, None]
    turned = np.einsum("ij,ij->i", across, rod.normals[middle][:, 1:])
    assert np.median(turned) > 0.99


def test_the_heaviest_solid_is_light_enough(empty_world):
    heaviest = max((packed(see_of(empty_world, family)) for family in DRAWN), key=len)
    assert len(gzip.compress(heaviest, 5)) < MOST_BYTES


def see_of(world: World, family) -> DrawnSolid:
    put(world, Bait(name=family.label, shape=family()), family.key)
    with world.bench() as bench:
        return see_solid(bench, family.key)


def test_the_solid_is_sent_once_and_pressed(stick):
    client = Client(stick)
    plain = client.get("/baits/stick/solid", **{"accept-encoding": "identity"})
    pressed = client.get("/baits/stick/solid", **{"accept-encoding": "gzip"})
    assert "content-encoding" not in plain.headers
    assert pressed.headers["content-encoding"] == "gzip"
    assert pressed.content == plain.content
    assert int(pressed.headers["content-length"]) < int(plain.headers["content-length"]) / 2
    mark = plain.headers["etag"]
    again = client.get("/baits/stick/solid", **{"if-none-match": mark})
    assert (again.status_code, again.content) == (304, b"")
    changed = replace(read(plain.content), thick_mm=np.zeros_like(read(plain.content).thick_mm))
    headers = [(b"if-none-match", mark.encode())]
    other = sent(changed, Request({"type": "http", "headers": headers}))
    assert other.status_code == 200
    assert other.headers["etag"] != mark


def number_after(words: str, text: str) -> float:
    found = re.search(rf"{words} ([0-9.]+)", text)
    assert found, words
    return float(found[1])


def test_the_page_weighs_the_bait(empty_world):
    """Archimedes: 10.0 g gained by the glass at 20 °C are 10.02 mL (water 0.99821 g/mL, CRC
    Handbook); at 1.052 g/mL cold, of which a cavity packs 0.97, that is 10.22 g.
    """
    weighed = Weighing(air_g=10.5, gained_g=10.0, water_c=20, resolution_g=0.01)
    put(empty_world, Bait(name="Weighed", shape=Stick(), weighing=weighed), "b")
    put(empty_world, Mold(name="Its mold", bait="b", cavities=2), "m")
    page = Client(empty_world).get("/baits/b")
    assert 'href="/molds/m"' in page.text
    words = words_in(page).replace("\xa0", " ")
    volume = number_after("Volume", words)
    assert volume == pytest.approx(10.02, abs=0.02)
    assert "On the scale 10.5 g" in words
    grams = number_after("in plain plastic", words)
    assert grams == pytest.approx(10.22, abs=0.06)
    assert "Made by Its mold" in words
    assert "Nine times in ten between" in words
    assert "cold density of the plastic" in words


def test_every_bait_of_the_bench_opens_its_page(full_world):
    client = Client(full_world)
    with full_world.bench() as bench:
        baits = bench.records.all(Bait.key)
    assert len(baits) == 2
    for stored in baits:
        page = client.get(f"/baits/{stored.id}")
        assert page.status_code == 200
        assert stored.noun.name in page.text
        assert "<canvas" in page.text
        assert " style=" not in page.text
        assert f'href="/baits/{stored.id}"' in client.get("/baits").text


def test_a_bait_from_a_file_has_its_picture_and_its_numbers(empty_world):
    mesh = Mesh(*arrays(PLAIN.solid()))
    lies = Placing(as_it_lies=True)
    stored = keep_shape(
        empty_world, mesh, unit=LengthUnit.MM, placing=lies, name="Mine", source="mine.stl"
    )
    client = Client(empty_world)
    words = words_in(client.get(f"/baits/{stored.id}")).replace("\xa0", " ")
    assert "From mine.stl" in words
    assert "the closed solid of its file" in words
    assert "a ruler" not in words
    volume = PLAIN.solid().volume() / 1000
    assert number_after("Volume", words) == pytest.approx(volume, rel=0.005)
    assert number_after("Middle of mass, from the nose", words) == pytest.approx(
        60 / 25.4, abs=0.02
    )
    solid = read(client.get(f"/baits/{stored.id}/solid").content)
    assert solid.points[:, 0].max() == pytest.approx(120, abs=0.1)


def test_a_bait_without_a_shape_is_asked_for_one(empty_world):
    put(empty_world, Bait(name="By weight", mass_g=9.0, note="From the old box"), "w")
    client = Client(empty_world)
    words = words_in(client.get("/baits/w")).replace("\xa0", " ")
    assert "known by weight only" in words
    assert "From the old box" in words
    assert "Weight of one 9 g" in words
    assert client.get("/baits/w/solid").status_code == 404


@pytest.mark.parametrize("path", ["/baits/nowhere", "/baits/nowhere/solid", "/shapes/x/solid"])
def test_what_is_not_there_is_said(empty_world, path):
    assert Client(empty_world).get(path).status_code == 404


def test_a_bait_taken_off_shows_its_history(stick):
    with stick.bench() as bench:
        bench.records.retire(Bait.key, "stick", expected_version=1)
        bench.commit()
    answer = Client(stick).get("/baits/stick")
    assert answer.headers["location"] == "/records/bait/stick/history"


def test_the_shapes_lead_to_a_form_with_their_fields(empty_world):
    client = Client(empty_world)
    page = client.get("/shapes")
    for key, family in FAMILIES.items():
        assert family.label in page.text
        assert f'href="/records/bait/new?shape.kind={key}"' in page.text
        assert client.get(f"/shapes/{key}/solid").status_code == 200
    assert "needs a core pin" in words_in(page)
    typed = form_in(client.get("/records/bait/new?shape.kind=tube"))
    assert typed["shape.kind"] == "tube"
    assert client.send("/records/bait/new", typed | {"name": "Mine"}).status_code == 303
    with empty_world.bench() as bench:
        (kept,) = bench.records.all(Bait.key)
    assert isinstance(kept.noun.shape, Tube)
    assert kept.noun.shape.length_mm == pytest.approx(Tube().length_mm, abs=0.01)


@pytest.mark.parametrize("query", ["shape.kind=nothing", "name=x", "shape.kind=", "a.kind=tube"])
def test_an_address_that_names_no_shape_is_an_empty_form(empty_world, query):
    page = Client(empty_world).get(f"/records/bait/new?{query}")
    assert page.status_code == 200
    typed = form_in(page)
    assert (typed["name"], typed["shape.kind"]) == ("", "")


@pytest.mark.parametrize("colors", [THICK, FILLED])
def test_each_color_of_a_scale_is_lighter_by_the_same_step(colors):
    """CIE 15:2004, L*: equal steps of it look equally large; by an independent library."""
    rgb = np.array([[int(c[i : i + 2], 16) / 255 for i in (1, 3, 5)] for c in colors])
    lightness = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(rgb))[:, 0]
    steps = np.diff(lightness)
    assert steps.min() > 8
    assert steps.max() - steps.min() < 1.5


@pytest.mark.parametrize(
    ("system", "thickest", "first", "below"),
    [(System.METRIC, 12.5, "5 mm", "0.20 in"), (System.US, 12.7, "0.2 in", "5.1 mm")],
)
def test_a_scale_is_read_in_both_systems(system, thickest, first, below):
    """An inch is 25.4 mm by definition: NIST SP 811 (2008), appendix B.8."""
    scale = thick_scale(thickest, system)
    assert (scale.ticks[1].words, scale.ticks[1].below) == (first, below)
    assert 3 <= len(scale.ticks) <= 5
    assert scale.ticks[0].share == 0
    assert scale.lines[0] == pytest.approx(5 / 12.5 if system is System.METRIC else 5.08 / 12.7)
