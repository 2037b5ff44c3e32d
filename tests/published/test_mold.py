"""Molds and their files against closed forms, published formats, and independent readers."""

from __future__ import annotations

import io
import math
import struct
import zipfile
from xml.etree import ElementTree as ET

import manifold3d
import numpy as np
import pytest
import trimesh

from pourwright.body.families.stick import Stick
from pourwright.body.loft import joined
from pourwright.body.mold.archive import member, zipped
from pourwright.body.mold.bolt import SIZES, Bolt
from pourwright.body.mold.facet import facets_of, loose_edges, welded
from pourwright.body.mold.feed import FeedSize, feed_of
from pourwright.body.mold.make import mold_make
from pourwright.body.mold.nudge import NUDGES
from pourwright.body.mold.overlap import common_rays, shared_mm3
from pourwright.body.mold.request import MoldInput, Route
from pourwright.body.mold.rod import ball, box, rod_x, rod_y, rod_z
from pourwright.body.mold.stl import stl_bytes, stl_soup
from pourwright.body.mold.threemf import threemf_bytes, threemf_facets
from pourwright.body.mold.vent import Vent, VentSize, vent_cutter
from pourwright.body.mold.wall import fin_mm2, steep_share
from pourwright.body.mold.words import touch_c
from pourwright.matter.mold_material import MoldMaterial

CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"


def xml(data):
    return ET.fromstring(data)  # noqa: S314  our own bytes


def frustum_mm3(long, wide, end_wide):
    """Closed form of a cone cut off."""
    a, b = wide / 2, end_wide / 2
    return math.pi * long * (a * a + a * b + b * b) / 3


@pytest.mark.parametrize("make", [rod_x, rod_y, rod_z])
def test_a_rod_has_the_volume_of_a_cylinder(make):
    # Closed form.
    assert make(-3, 17, 6).volume() == pytest.approx(math.pi * 9 * 20, rel=1e-9)


@pytest.mark.parametrize("facets", [31, 32])
def test_a_cone_has_the_volume_of_a_frustum(facets):
    # Closed form.
    cone = rod_x(2, 14, 6, 3, facets=facets, turned_degrees=7.3)
    assert cone.volume() == pytest.approx(frustum_mm3(12, 6, 3), rel=1e-6)
    assert cone.bounding_box()[0] == pytest.approx(2)
    assert cone.bounding_box()[3] == pytest.approx(14)
    mean_x = trimesh.Trimesh(*_arrays(cone)).center_mass[0] - 2
    # Center of a frustum from its wide end: h (R² + 2Rr + 3r²) / 4 (R² + Rr + r²).
    assert mean_x == pytest.approx(12 * (9 + 2 * 4.5 + 3 * 2.25) / (4 * (9 + 4.5 + 2.25)), rel=1e-6)


def test_the_feed_of_one_nose_is_its_mouth_its_sprue_and_its_gate():
    # Closed forms: a frustum, a rod, half a ball less the cone that starts in its middle.
    size = FeedSize(gate_mm=4, runner_mm=8, sprue_mm=8, mouth_mm=12)
    feed = feed_of((0.0,), size, NUDGES[0])
    long = -feed.runner_x
    slope = (8 - 4) / long
    cone = frustum_mm3(long, 8, 4)
    reach = NUDGES[0].reach_mm
    tip = frustum_mm3(reach, 4, 4 - slope * reach)
    mouth, sprue = frustum_mm3(14, 12, 8), math.pi * 16 * 12
    # The part of the end ball that stands out of the cone: R(x) of the ball above that of the cone.
    x = np.linspace(0, 4, 20001)
    ring = np.maximum(16 - x**2, 0) - (4 - slope * x / 2) ** 2
    bulge = math.pi * float(np.trapezoid(np.maximum(ring, 0), x))
    assert feed.inside_ml * 1000 == pytest.approx(mouth + sprue + cone + tip + bulge, rel=2e-3)
    assert feed.edge_x == pytest.approx(-(long + 26))


def test_a_runner_joins_its_noses():
    # Closed form: what two noses 30 mm farther apart take more is 30 mm of rod.
    size = FeedSize(gate_mm=4, runner_mm=6, sprue_mm=8, mouth_mm=12)
    near, far = (feed_of((-y, y), size, NUDGES[0]).inside_ml * 1000 for y in (20, 35))
    assert far - near == pytest.approx(math.pi * 9 * 30, rel=1e-3)


def test_a_vent_is_a_land_and_a_relief():
    # Closed form: two boxes above the parting plane, 30 mm and past the edge.
    cutter = vent_cutter(Vent((5.0, 2.0), (5.0, 32.0)), VentSize(4, 0.1))
    above = cutter.trim_by_plane((0, 0, 1), 0.0)
    assert above.volume() == pytest.approx(4 * (6 * 0.1 + (31 - 6) * 0.6), rel=1e-6)
    assert above.bounding_box()[:3] == pytest.approx((3, 2, 0), abs=1e-6)
    assert above.bounding_box()[3:] == pytest.approx((7, 33, 0.6), abs=1e-6)


def test_an_stl_file_is_read_by_hand():
    # 80 bytes of head, a count, then normal, three corners and two bytes to a triangle: the layout
    # 3D Systems published for stereolithography (from memory).
    block = box((0, 0, 0), (10, 20, 30))
    data = stl_bytes(facets_of(block))
    (count,) = struct.unpack_from("<I", data, 80)
    assert (count, len(data)) == (12, 84 + 12 * 50)
    six_volumes = 0.0
    for k in range(count):
        numbers = struct.unpack_from("<12fH", data, 84 + 50 * k)
        normal, a, b, c = (np.array(numbers[i : i + 3]) for i in (0, 3, 6, 9))
        six_volumes += float(a @ np.cross(b, c))
        assert numbers[12] == 0
        assert np.linalg.norm(normal) == pytest.approx(1)
        assert normal @ np.cross(b - a, c - a) > 0
    assert six_volumes / 6 == pytest.approx(6000)


def test_a_3mf_file_is_read_by_standard_readers():
    # 3MF Consortium, Core Specification: package parts, relationship, unit, object and build item.
    facets = facets_of(joined(ball(20), rod_x(0, 30, 6)))
    data = threemf_bytes(facets, "a part")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"]
        relations = xml(archive.read("_rels/.rels"))
        types = archive.read("[Content_Types].xml")
        model = xml(archive.read("3D/3dmodel.model"))
    assert relations[0].get("Target") == "/3D/3dmodel.model"
    assert (
        relations[0].get("Type") == "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
    )
    assert {e.get("Extension") for e in xml(types)} == {"rels", "model"}
    assert (model.tag, model.get("unit")) == (f"{CORE}model", "millimeter")
    item, shape = model.find(f"{CORE}build/{CORE}item"), model.find(f"{CORE}resources/{CORE}object")
    assert item.get("objectid") == shape.get("id")
    points = [[float(v.get(k)) for k in "xyz"] for v in model.iter(f"{CORE}vertex")]
    corners = [[int(t.get(k)) for k in ("v1", "v2", "v3")] for t in model.iter(f"{CORE}triangle")]
    skin = trimesh.Trimesh(points, corners, process=False)
    assert skin.is_watertight
    assert skin.volume == pytest.approx(facets.volume_mm3, rel=1e-6)
    assert np.array_equal(np.array(points, dtype=np.float32), facets.points)
    assert np.array_equal(threemf_facets(data).corners, np.array(corners))


def test_an_archive_is_what_the_standard_library_reads():
    # PKWARE .ZIP File Format Specification, as Python's zipfile reads it.
    members = {"a/b.txt": b"plastic " * 500, "empty": b"", "c": bytes(range(256))}
    data = zipped(members)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert archive.testzip() is None
        assert {i.filename: archive.read(i) for i in archive.infolist()} == members
        assert {i.date_time for i in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert {name: member(data, name) for name in members} == members
    with pytest.raises(KeyError, match="nothing"):
        member(data, "nothing")


def test_a_closed_skin_has_no_open_edge():
    # A cube has 12 triangles and 8 corners; without one triangle, three edges are open.
    whole = facets_of(box((0, 0, 0), (1, 1, 1)))
    again = welded(stl_soup(stl_bytes(whole)))
    assert (len(again.points), len(again.corners), loose_edges(again)) == (8, 12, 0)
    soup = whole.points[whole.corners]
    # An open edge is missed from both sides of the books: once ahead, once back.
    assert loose_edges(welded(soup[1:])) == 6
    turned = soup.copy()
    turned[0] = turned[0][::-1]
    assert loose_edges(welded(turned)) > 0
    assert not trimesh.Trimesh(*_soup(turned)).is_winding_consistent


def test_two_boxes_that_share_an_edge_do_not_read_back_closed():
    # Four triangles meet at the shared edge: no solid, though each box is.
    a, b = box((0, 0, 0), (1, 1, 1)), box((1, 1, 0), (2, 2, 1))
    soup = np.concatenate([f.points[f.corners] for f in map(facets_of, (a, b))])
    assert loose_edges(welded(soup)) > 0
    assert not trimesh.Trimesh(*_soup(soup)).is_watertight


def test_rays_find_what_two_solids_share():
    # Closed form: two boxes that overlap in 2 x 6 x 8 mm; two that touch; two cylinders apart.
    a = box((0, 0, 0), (10, 10, 10))
    assert shared_mm3(*common_rays((a, box((8, 4, 2), (20, 20, 20))))) == pytest.approx(96, rel=0.1)
    assert shared_mm3(*common_rays((a, box((0, 0, 10), (10, 10, 20))))) == 0
    assert shared_mm3(*common_rays((a, box((10, 0, 0), (20, 10, 10))))) == 0


def test_steep_walls_and_thin_fins_by_closed_forms():
    # An upright rod 10 mm thick and 10 mm tall: its side is 2/3 of its skin.
    assert steep_share(rod_z(0, 10, 10)) == pytest.approx(2 / 3, rel=0.01)
    assert steep_share(rod_z(0, 10, 10, 9)) == 0
    # Two boxes 10 mm long, 1.5 mm apart: the fin between them is 15 mm2; 2.5 mm apart: none.
    low = box((0, 0, -1), (10, 5, 1))
    near, far = (joined(low, low.translate((0, 5 + gap, 0))) for gap in (1.5, 2.5))
    assert fin_mm2(near) == pytest.approx(15, rel=0.1)
    assert fin_mm2(far) == pytest.approx(0, abs=0.1)


@pytest.mark.parametrize(
    ("bolt", "hole", "across"),
    [(Bolt.M4, 4.5, 7), (Bolt.M5, 5.5, 8), (Bolt.M6, 6.6, 10), (Bolt.QUARTER_INCH, 7.14, 11.11)],
)
def test_bolts_fit_their_standards(bolt, hole, across):
    # ISO 273:1979, medium; ISO 4032:2012, across flats; 9/32 in and 7/16 in of ASME B18.2.8 and
    # B18.2.2; all from memory.
    size = SIZES[bolt]
    assert size.hole_mm == pytest.approx(hole, abs=0.01)
    assert size.nut_across_mm == pytest.approx(across, abs=0.02)


def test_contact_with_a_printed_mold_is_beyond_filament():
    # Incropera and DeWitt, 6th ed., eq. 5.63, by hand: plastic 0.14 W/(m·K) at 0.075 mm²/s gives
    # 511 W·s½/(m²·K); resin √(0.2 · 1180 · 1400) = 575; 175 °C on 30 °C meet at 98.3 °C.
    assert touch_c(MoldMaterial.PRINTED_RESIN) == pytest.approx(98.3, abs=0.2)
    assert touch_c(MoldMaterial.ALUMINUM) == pytest.approx(33.6, abs=0.3)


@pytest.mark.parametrize("shrink", [0.0, 0.017, 0.1])
def test_a_cavity_is_larger_by_the_shrink(shrink):
    # Closed form: a capsule 80 mm long and 8 mm thick, each length over 1 - shrink.
    capsule = Stick(length_mm=80, middle_mm=8, end_mm=8, rings=0, sac_mm=0)
    done = mold_make(MoldInput(family=capsule, cavities=1, shrink_share=shrink))
    volume = math.pi * 16 * 72 + 4 / 3 * math.pi * 64
    assert done.cavity_ml * 1000 == pytest.approx(volume / (1 - shrink) ** 3, rel=1e-3)
    assert done.bait_length_mm.typical == pytest.approx(80, rel=1e-4)
    assert done.bait_length_mm.low == pytest.approx(done.bait_length_mm.high)


def test_the_bait_is_as_unsure_as_the_shrink():
    # A cavity cut for 1.7 %, a plastic that shrinks 0.7 to 3.4 %: 160 mm ends between
    # 160 (1 - 0.034) / (1 - 0.017) = 157.2 and 160 (1 - 0.007) / (1 - 0.017) = 161.6 mm.
    length = mold_make(
        MoldInput(family=Stick(length_mm=160), cavities=1, vents=False)
    ).bait_length_mm
    assert (length.low, length.typical, length.high) == pytest.approx((157.2, 160, 161.6), abs=0.25)


def test_an_open_mold_pours_half_a_capsule_and_its_rise():
    # Closed form: half a capsule, and the rise over its outline (walls lean out with the facets,
    # so a little less).
    capsule = Stick(length_mm=80, middle_mm=8, end_mm=8, rings=0, sac_mm=0)
    done = mold_make(
        MoldInput(family=capsule, route=Route.OPEN, cavities=3, shrink_share=0.0, rise_mm=2)
    )
    half = (math.pi * 16 * 72 + 4 / 3 * math.pi * 64) / 2
    outline = 8 * 72 + math.pi * 16
    assert done.cavity_ml * 1000 == pytest.approx(half + 2 * outline, rel=5e-3)
    assert done.shadow_cm2 * 100 == pytest.approx(3 * outline, rel=5e-3)
    assert done.feed_ml == 0
    (block,) = done.parts
    size = done.block_length_mm * done.block_width_mm * done.block_height_mm / 1000
    assert block.volume_ml == pytest.approx(size - 3 * done.cavity_ml, rel=1e-6)
    assert done.block_height_mm == pytest.approx(8 + 4 + 2, rel=2e-3)
    assert done.block_width_mm == pytest.approx(3 * 8 + 2 * 8 + 2 * 10, rel=2e-3)


def _arrays(solid: manifold3d.Manifold):
    mesh = solid.to_mesh64()
    return np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts)


def _soup(soup):
    facets = welded(soup)
    return facets.points, facets.corners
