"""The page that makes a mold for a bait: what it refuses, its picture, and its files."""

from __future__ import annotations

import io
import itertools
import re
import time
import zipfile
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from urllib.parse import urlencode

import numpy as np
import pytest

from pourwright.actions import make_mold
from pourwright.actions.draw_mold import DrawnMold, Face, draw_mold
from pourwright.actions.make_mold import file_name
from pourwright.body.families.craw import Craw
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.mold.bolt import Bolt
from pourwright.body.mold.request import MoldInput, Route
from pourwright.matter.mold_material import MoldMaterial
from pourwright.shop.mold import Bait
from web.client import Client, form_in, words_in

SHORT = Stick(length_mm=60, rings=0, sac_mm=0)
ASKED = {
    "@units": "metric", "route": "two halves", "material": "aluminum", "cavities": "1",
    "shrink_share": "0.02", "vents": "on", "bolt": "none",
}  # fmt: skip
SAME = MoldInput(family=SHORT, cavities=1, shrink_share=0.02, bolt=Bolt.NONE)
HALVES = 2


@pytest.fixture
def bench(empty_world):
    with empty_world.bench() as opened:
        for key, noun in {
            "short": Bait(name="Grüner №1 / short", shape=SHORT),
            "tube": Bait(name="Hollow", shape=Tube()),
            "lump": Bait(name="By weight", mass_g=9.0),
        }.items():
            opened.records.save(Bait.key, key, noun, expected_version=0)
        opened.commit()
    return Client(empty_world)


def asked(client: Client, bait: str = "short", **more: str):
    return client.get(f"/baits/{bait}/mold?{urlencode(ASKED | more)}")


def files(page) -> list[str]:
    return [unescape(a) for a in re.findall(r'href="(/baits/[^"]*/mold/files/[^"]*)"', page.text)]


def corners_of(stl: bytes) -> np.ndarray:
    """The triangles of a binary STL: 80 bytes, a count, 50 bytes each (from memory)."""
    count = int.from_bytes(stl[80:84], "little")
    assert len(stl) == 84 + 50 * count
    kind = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
    return np.frombuffer(stl, kind, offset=84)["corners"].astype(float)


def volume_ml(triangles: np.ndarray) -> float:
    """Gauss, divergence theorem: a sixth of the triple products."""
    a, b, c = (triangles[:, k] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6000


def feed_ml(words: str) -> float:
    return told(words, "Plastic in mouth, sprue, runner and gates", "mL")


def told(words: str, label: str, unit: str) -> float:
    found = re.search(rf"{label} ([0-9.]+) {unit}", words)
    assert found, label
    return float(found[1])


def test_nothing_is_made_before_somebody_asks(bench):
    page = bench.get("/baits/short/mold")
    assert page.status_code == 200
    assert files(page) == []
    form = form_in(page)
    assert form["route"] == "two halves"
    assert form["cavities"] == "2"
    assert form["vents"] == "on"
    assert "seed" not in form
    assert 'href="/baits/short/mold"' in bench.get("/baits/short").text


def test_the_halves_arrive_as_files_and_their_address_keeps_them(bench):
    page = asked(bench)
    assert page.status_code == 200
    links = files(page)
    assert [link.partition("?")[0].rpartition("/")[2] for link in links] == [
        "1.stl", "1.3mf", "2.stl", "2.3mf",
    ]  # fmt: skip
    stl, packed = bench.get(links[0]), bench.get(links[1])
    assert stl.headers["content-type"] == "model/stl"
    assert packed.headers["content-type"] == "model/3mf"
    names = [x.headers["content-disposition"].partition("filename=")[2] for x in (stl, packed)]
    assert names == [f'"gruner-no1-short-half-with-pins.{sort}"' for sort in ("stl", "3mf")]
    # 3MF Core Specification, ch. 2: a zip with the content types and a model part.
    members = zipfile.ZipFile(io.BytesIO(packed.content)).namelist()
    assert {"[Content_Types].xml", "3D/3dmodel.model"} <= set(members)
    assert bench.get(links[0]).content == stl.content
    assert bench.get(links[2]).content != stl.content
    both = sum(volume_ml(corners_of(bench.get(links[k]).content)) for k in (0, 2))
    long, wide, _ = np.ptp(corners_of(stl.content).reshape(-1, 3), axis=0)
    bait = SHORT.solid().volume() / 1000 / 0.98**3
    words = words_in(page).replace("\xa0", " ")
    high = 25.4 * told(words, "Height of the mold, shut", "in")
    assert both == pytest.approx(long * wide * high / 1000 - bait - feed_ml(words), rel=0.005)
    assert f"Plastic in one cavity {bait:.2f} mL" in words
    assert "checks passed" in words
    assert "Chips, dust and blades" in words


def test_what_was_asked_stays_in_the_form(bench):
    form = form_in(asked(bench, cavities="1", wall_mm="14"))
    assert (form["cavities"], form["wall_mm"], form["shrink_share"]) == ("1", "14", "0.02")
    assert "vents" in form
    without = {k: v for k, v in ASKED.items() if k != "vents"} | {"cavities": "x"}
    refused = bench.get(f"/baits/short/mold?{urlencode(without)}")
    assert refused.status_code == 422
    assert "vents" not in form_in(refused)


@pytest.mark.parametrize(
    ("bait", "more", "path", "words"),
    [
        ("tube", {"route": "open pour"}, "route", "cannot shape a bore"),
        ("short", {"material": "silicone"}, "material", "is cast"),
        ("short", {"cavities": "13"}, "cavities", "must lie between 1 and 12"),
        ("short", {"sprue_mm": "14"}, "injector_nose_mm", "narrower than the sprue"),
    ],
)
def test_what_does_not_fit_is_said_at_its_box(bench, bait, more, path, words):
    page = asked(bench, bait, **more)
    assert page.status_code == 422
    assert files(page) == []
    said = re.search(rf'id="f-{path}-problem">.*?</p>', page.text, re.DOTALL)
    assert said
    assert words in said[0]


def test_what_is_not_there_is_said(bench):
    query = urlencode(ASKED)
    for path in (
        "nowhere/mold", f"lump/mold?{query}", f"short/mold/files/3.stl?{query}",
        f"short/mold/files/0.stl?{query}", f"short/mold/files/1.obj?{query}", "lump/mold",
    ):  # fmt: skip
        assert bench.get(f"/baits/{path}").status_code == 404, path
    bad = urlencode(ASKED | {"cavities": "13"})
    for path in (f"solid?{bad}", f"files/1.stl?{bad}", f"files/one.stl?{query}"):
        assert bench.get(f"/baits/short/mold/{path}").status_code == 422, path


def test_the_mold_can_be_kept_among_the_molds(bench):
    page = asked(bench, cavities="2")
    keep = re.search(
        r'<form method="post" action="/records/mold/new".*?</form>', page.text, re.DOTALL
    )
    assert keep
    sent = {
        unescape(n): unescape(v)
        for n, v in re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)"', keep[0])
    }
    shown = form_in(bench.send("/records/mold/new", sent | {"@do": "look"}))
    assert shown["bait"] == "short"
    assert shown["cavities"] == "2"
    assert shown["air"] == "vents"
    words = words_in(page).replace("\xa0", " ")
    assert float(shown["feed_ml"]) == pytest.approx(feed_ml(words), rel=0.01)
    # The feed as it was asked for, read in inches: mouth and sprue are 14 and 12 mm long, gates as
    # wide as the page says, cavities a bait and 8 mm of mold apart.
    wide = np.ptp(SHORT.solid().bounding_box()[1::3]) / 0.98
    gate = told(words, "Gate at the nose", "in")
    meant = {
        "sprue_mm": 8 / 25.4, "sprue_length_mm": 26 / 25.4, "runner_mm": 6 / 25.4,
        "gate_width_mm": gate, "gate_thick_mm": gate, "pitch_mm": (wide + 8) / 25.4,
    }  # fmt: skip
    kept_feed = {name: float(shown[f"feed.{name}"]) for name in meant}
    assert kept_feed == pytest.approx(meant, rel=0.02)
    halves = [corners_of(bench.get(link).content) for link in files(page)[::2]]
    # Aluminum 6061: 2.70 g/mL (ASM handbook, from memory); a US bench reads ounces of 28.35 g.
    grams = 2.70 * sum(map(volume_ml, halves))
    assert grams in (
        pytest.approx(float(shown["mass_g"]), rel=0.02),
        pytest.approx(float(shown["mass_g"]) * 28.3495, rel=0.02),
    )
    kept = bench.send("/records/mold/new", shown | {"@do": "save"})
    assert kept.status_code == 303


def test_two_who_ask_at_once_wait_for_one_mold(bench, monkeypatch):
    answer, cut = make_mold.made(SAME), []

    def slow(inputs):
        cut.append(inputs)
        time.sleep(0.3)
        return answer

    make_mold.made.cache_clear()
    monkeypatch.setattr(make_mold, "mold_make", slow)
    address = f"/baits/short/mold/files/1.stl?{urlencode(ASKED)}"
    with ThreadPoolExecutor(2) as pool:
        one, other = pool.map(bench.get, (address, address))
    assert one.status_code == 200
    assert one.content == other.content
    assert len(cut) == 1


def areas_cm2(solid) -> dict[Face, float]:
    corners = solid.points[solid.triangles].astype(float)
    crossed = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    each = np.linalg.norm(crossed, axis=1) / 200
    face = np.round(solid.order[solid.triangles[:, 0]] * max(Face)).astype(int)
    return {f: float(each[face == f].sum()) for f in Face}


def test_the_picture_colors_what_plastic_touches():
    """Similar bodies: skin goes with the square of the length (Euclid), volume with its cube."""
    drawn = draw_mold(SAME)
    areas = areas_cm2(drawn.solid)
    skin = SHORT.solid().surface_area() / 100 / 0.98**2
    assert areas[Face.CAVITY] == pytest.approx(skin, rel=0.02)
    # Mouth, sprue and gate of one cavity: rods of 12 to 4 mm, some 30 mm long in all.
    assert 4 < areas[Face.FEED] < 12
    assert areas[Face.BLOCK] > 3 * skin
    sorts = drawn.solid.order[drawn.solid.triangles]
    assert (np.ptp(sorts, axis=1) == 0).all()
    assert np.linalg.norm(drawn.solid.normals, axis=1) == pytest.approx(1, abs=1e-4)
    assert drawn.solid.points[:, 2].min() == pytest.approx(0, abs=1e-3)
    assert [name.words for name in drawn.names] == ["half with pins", "half with sockets"]


def test_a_tail_that_curls_to_one_side_is_colored_in_both_halves():
    grub = CurlTailGrub(rings=0)
    areas = areas_cm2(draw_mold(MoldInput(family=grub, cavities=1, shrink_share=0.0)).solid)
    assert areas[Face.CAVITY] == pytest.approx(grub.solid().surface_area() / 100, rel=0.04)


def test_parts_lie_apart_with_their_working_faces_up():
    drawn = draw_mold(MoldInput(family=Tube(), cavities=1))
    assert [n.words for n in drawn.names] == ["half with pins", "half with sockets", "core pin"]
    points, across = drawn.solid.points, [n.at_mm[1] for n in drawn.names]
    assert across == sorted(across, reverse=True)
    bounds = [(a + b) / 2 for a, b in itertools.pairwise(across)]
    assert len(bounds) == HALVES
    assert np.ptp(points[points[:, 1] < bounds[1]][:, 2]) < 25
    # Cavities open upward: their skin looks up more than down.
    face = drawn.solid.order * max(Face)
    halves = points[:, 1] > bounds[1]
    for face_sort in (Face.CAVITY, Face.FEED):
        up = drawn.solid.normals[halves & (np.round(face) == face_sort)][:, 2]
        assert up.mean() > 0.2


def test_a_master_stands_on_its_plate():
    asked_for = MoldInput(
        family=SHORT, shrink_share=0.0, cavities=1, route=Route.OPEN_MASTER,
        material=MoldMaterial.PLASTER,
    )  # fmt: skip
    areas = areas_cm2(draw_mold(asked_for).solid)
    # The upper half of the bait, and a straight wall of a millimeter around its shadow.
    half = SHORT.solid().surface_area() / 200
    # A straight wall of a millimeter around some 130 mm of outline; the lip of the plate is not it.
    assert half < areas[Face.CAVITY] < half + 2.5
    assert areas[Face.FEED] == 0


def test_an_end_without_a_vent_is_marked_where_a_cavity_ends():
    drawn = draw_mold(MoldInput(family=Craw(), cavities=2, spacing_mm=2))
    assert drawn.shut_mm
    colored = np.round(drawn.solid.order * max(Face)) == Face.CAVITY
    sockets = drawn.solid.points[colored & _near(drawn, "half with sockets")]
    for place in drawn.shut_mm:
        assert np.linalg.norm(sockets - np.array(place), axis=1).min() < 2


def _near(drawn: DrawnMold, part: str) -> np.ndarray:
    """Which corners lie nearer to the middle of that part than to the middle of the others."""
    ways = np.stack([
        np.linalg.norm(drawn.solid.points[:, :2] - np.array(n.at_mm[:2]), axis=1)
        for n in drawn.names
    ])  # fmt: skip
    return np.asarray(ways.argmin(axis=0) == [n.words for n in drawn.names].index(part))


def test_the_land_between_open_cavities_is_no_cavity():
    """Seen from above, what is colored is what the bait covers: its shadow, twice."""
    wish = MoldInput(family=SHORT, shrink_share=0.0, cavities=2, route=Route.OPEN)
    solid = draw_mold(wish).solid
    corners = solid.points[solid.triangles].astype(float)
    crossed = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])[:, 2] / 200
    colored = np.round(solid.order[solid.triangles[:, 0]] * max(Face)) == Face.CAVITY
    assert crossed[colored].sum() == pytest.approx(
        2 * SHORT.solid().project().area() / 100, rel=0.01
    )


def test_a_file_name_is_safe_anywhere():
    wild = Bait(name='../..\\"quoted"; rm -rf ~ éà' + "x" * 20, mass_g=9)
    name = file_name(wild, "half with pins", "stl")
    assert re.fullmatch(r"[a-z0-9][a-z0-9-]{0,59}\.stl", name)
    assert name.startswith("quoted-rm-rf-ea")
    assert file_name(Bait(name="鯉", mass_g=9), "core pin", "3mf") == "core-pin.3mf"


def test_files_and_record_of_a_long_name_tell_the_halves_apart(empty_world):
    long = Bait(name="The " + "very " * 10 + "long", shape=SHORT)
    with empty_world.bench() as opened:
        opened.records.save(Bait.key, "long", long, expected_version=0)
        opened.commit()
    assert file_name(long, "half with pins", "stl") != file_name(long, "half with sockets", "stl")
    page = asked(Client(empty_world), "long")
    assert page.status_code == 200
    assert re.search(r'name="name" value="The very [^"]*, 1 up"', page.text)


def test_a_mold_larger_than_the_bench_keeps_is_not_offered_to_it(bench):
    """Five baits 60 mm apart in 60 mm of aluminum: some 8 L, and over 20 kg at 2.7 g/mL."""
    bare = {k: v for k, v in ASKED.items() if k != "vents"}
    large = bare | {"wall_mm": "60", "base_mm": "60", "cavities": "5", "spacing_mm": "60"}
    page = bench.get(f"/baits/short/mold?{urlencode(large)}")
    assert page.status_code == 200
    assert len(files(page)) == 2 * HALVES
    assert "keeps no mold of that size" in words_in(page)
    assert "Keep as a mold" not in page.text
