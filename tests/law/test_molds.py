"""Promises that a mold keeps for every bait family and on every route."""

from __future__ import annotations

import base64
import functools
import io
import itertools
import math
from dataclasses import replace

import manifold3d
import numpy as np
import pytest
import trimesh

from pourwright.body.families import FAMILIES
from pourwright.body.families.craw import Craw
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.mold.bolt import Bolt
from pourwright.body.mold.build import mold_solids
from pourwright.body.mold.layout import laid_out
from pourwright.body.mold.make import mold_make
from pourwright.body.mold.more import one_more
from pourwright.body.mold.request import MoldInput, Route
from pourwright.matter.mold_material import MoldMaterial

every = pytest.mark.parametrize("family", FAMILIES.values(), ids=FAMILIES)
CAPSULE = Stick(length_mm=60, middle_mm=8, end_mm=8, rings=0, sac_mm=0)
ROUTES = [
    (Route.OPEN, MoldMaterial.PRINTED_RESIN),
    (Route.HALVES_MASTER, MoldMaterial.SILICONE),
    (Route.OPEN_MASTER, MoldMaterial.PLASTER),
]
routed = pytest.mark.parametrize(("route", "material"), ROUTES, ids=[r.value for r, _ in ROUTES])


@functools.cache
def made(bait, cavities=1):
    return mold_make(MoldInput(family=bait, cavities=cavities))


def holds(part):
    """An independent reader of STL finds one closed solid of the size told."""
    data = io.BytesIO(base64.b64decode(part.stl_base64))
    read = trimesh.load_mesh(data, file_type="stl")
    assert read.is_watertight
    assert read.is_winding_consistent
    assert read.body_count == 1
    assert read.volume / 1000 == pytest.approx(part.volume_ml, rel=1e-6)
    assert read.bounds[0] == pytest.approx((0, 0, 0), abs=1e-4)
    assert read.extents == pytest.approx((part.length_mm, part.width_mm, part.height_mm), rel=1e-5)


@every
def test_every_family_gets_parts_that_read_back_closed(family):
    done = made(family())
    names = [part.name for part in done.parts]
    assert names == ["half with pins", "half with sockets", *["core pin"] * family.core_pin]
    for part in done.parts:
        holds(part)
    closed = [check for check in done.checks if check.name.startswith("closed")]
    assert len(closed) == 2 * len(names)
    assert {check.found for check in closed} == {"0 open edges"}


@routed
def test_every_route_gives_parts_that_read_back_closed(route, material):
    done = mold_make(MoldInput(family=CurlTailGrub(), cavities=1, route=route, material=material))
    for part in done.parts:
        holds(part)
    assert bool(done.castings) is route.cast


def test_halves_and_plastic_fill_the_block_and_share_nothing():
    # Exact booleans, beside the rays that the calculation itself goes by.
    mold = mold_solids(MoldInput(family=CAPSULE, bolt=Bolt.NONE, cavities=1, vents=False))
    shared, left = _books(mold, mold.size_mm)
    assert shared == pytest.approx(0, abs=0.05)
    # Left over are two pry notches and the play of the pins, cones of 6 mm: by closed forms.
    notches = 2 * 14 * 3.5 * 3
    play = 3 * (_cone(6.05, 6.1, 4.9) - _cone(6, 6, 4.8))
    assert left == pytest.approx(notches + play, rel=1e-3)


def test_two_castings_and_plastic_fill_the_box():
    mold = mold_solids(
        MoldInput(
            family=CAPSULE, route=Route.HALVES_MASTER, material=MoldMaterial.EPOXY, cavities=1,
            vents=False,
        )
    )  # fmt: skip
    shared, left = _books(mold, mold.size_mm)
    assert shared == pytest.approx(0, abs=0.05)
    # Left over is the play of three keys, caps of balls of 10 and 10.2 mm: pi h² (3 R - h) / 3.
    caps = [math.pi * h * h * (3 * r - h) / 3 for r, h in ((5.0, 3.5), (5.1, 3.6))]
    assert left == pytest.approx(3 * (caps[1] - caps[0]), rel=0.05)


def _books(mold, size_mm):
    """What the solids of a shut mold share pair by pair, and what they leave of its block, mm3."""
    solids = [*(solid for _, solid in mold.closed), mold.shot]
    shared = sum((a ^ b).volume() for a, b in itertools.combinations(solids, 2))
    return shared, math.prod(size_mm) - sum(solid.volume() for solid in solids)


def _cone(long, wide, top):
    return math.pi * long * (wide**2 + wide * top + top**2) / 12


@pytest.mark.parametrize("cavities", [1, 3])
def test_a_shot_is_its_cavities_and_its_feed(cavities):
    done = made(CAPSULE, cavities)
    assert done.shot_ml == pytest.approx(cavities * done.cavity_ml + done.feed_ml, rel=1e-9)
    assert done.waste_share == pytest.approx(done.feed_ml / done.shot_ml, rel=1e-9)
    # Its shadow: every cavity 8 mm by 52 and a circle, larger by the shrink; the mouth 14 mm long
    # from 12 to 8 mm wide, the sprue 12 by 8, the runner 6 wide, and the gates.
    cut = cavities * (8 * 52 + math.pi * 16) / (1 - 0.017) ** 2 + 140 + 96
    cut += 6 * (cavities - 1) * (8 + 8 / (1 - 0.017))
    assert cut < done.shadow_cm2 * 100 < cut + 80 * cavities
    # The feed as told, stretch by stretch, is the feed as cut, but for its joints.
    told = sum(s.copies * s.length_mm * s.width_mm * s.thick_mm * math.pi / 4 for s in done.feed)
    assert told / 1000 == pytest.approx(done.feed_ml, rel=0.25)


@pytest.mark.parametrize("bait", [CAPSULE, CurlTailGrub()], ids=["capsule", "grub"])
def test_one_more_cavity_is_what_one_more_cavity_gives(bait):
    one, two = (mold_solids(replace(_lone(bait), cavities=n)) for n in (1, 2))
    cavity, whole = (solid.volume() / 1000 for solid in (one.plastic, one.shot))
    foretold = one_more(laid_out(_lone(bait)), cavity_ml=cavity, feed_ml=whole - cavity)
    shot = two.shot.volume() / 1000
    assert foretold.cavities == 2
    assert foretold.shot_ml == pytest.approx(shot, rel=2e-3)
    assert foretold.waste_share == pytest.approx(1 - two.plastic.volume() / 1000 / shot, rel=0.01)


def _lone(bait):
    return MoldInput(family=bait, cavities=1, vents=False, runner_mm=5)


def test_vents_run_from_plastic_to_the_edge_through_mold_alone():
    layout = laid_out(MoldInput(family=Craw()))
    (x0, y0), (x1, y1) = layout.block.low, layout.block.high
    shadow = (layout.nest.plastic + layout.feed.solid).project()
    section = layout.nest.plastic.slice(0.0)
    assert layout.outlets.vents
    for vent in layout.outlets.vents:
        x, y = vent.end
        assert min(abs(x - x0), abs(x - x1), abs(y - y0), abs(y - y1)) == pytest.approx(0, abs=1e-6)
        assert (_strip(vent, 0.0) ^ section).area() > 0
        assert (_strip(vent, 4.5) ^ shadow).area() == pytest.approx(0, abs=0.05)


def _strip(vent, leave_mm):
    """A vent 4 mm wide seen along the pull, without so much of its beginning."""
    (x0, y0), (x1, y1) = vent.start, vent.end
    square = manifold3d.CrossSection.square((vent.length_mm - leave_mm, 4.0))
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0))
    return square.translate((leave_mm, -2.0)).rotate(turn).translate((x0, y0))


def test_the_same_input_gives_the_same_bytes():
    assert mold_make(MoldInput(family=CAPSULE, cavities=3)) == made(CAPSULE, 3)


def test_a_core_pin_draws_out_of_the_halves_and_the_bait():
    mold = mold_solids(MoldInput(family=Tube(), cavities=1))
    (lower, upper, pin) = (solid for _, solid in mold.closed)
    bore = pin.trim_by_plane((-1, 0, 0), -mold.plastic.bounding_box()[3])
    # However far the bait is pulled toward the nose, it meets no thicker pin.
    for way in (0.5, 5, 20, 60):
        assert (mold.plastic.translate((-way, 0, 0)) ^ bore).volume() == pytest.approx(0, abs=0.01)
    for half, lift in ((lower, -1), (upper, 1)):
        for far in (0.5, 3, 12):
            assert (half.translate((0, 0, lift * far)) ^ pin).volume() == pytest.approx(0, abs=0.01)
    # Shut in its seat it can neither be pushed out nor turn.
    both = lower + upper
    assert (both ^ pin.translate((2, 0, 0))).volume() > 20
    x, y, z = np.mean(np.reshape(pin.bounding_box(), (2, 3)), axis=0) * (0, 1, 0)
    turned = pin.translate((x, -y, z)).rotate((90, 0, 0)).translate((x, y, z))
    assert (both ^ turned).volume() > 1


def test_a_half_lifts_off_a_bait_without_undercut():
    mold = mold_solids(MoldInput(family=CAPSULE, cavities=1))
    for (_, solid), lift in zip(mold.closed, (-1, 1), strict=True):
        for far in (0.3, 2, 6):
            moved = solid.translate((0, 0, lift * far))
            assert (moved ^ mold.shot).volume() == pytest.approx(0, abs=0.01)


def test_halves_close_one_way_only():
    mold = mold_solids(MoldInput(family=CAPSULE, cavities=2, bolt=Bolt.NONE))
    (_, lower), (_, upper) = mold.closed
    x0, y0, _, x1, y1, _ = lower.bounding_box()
    turned = upper.rotate((0, 0, 180)).translate((x0 + x1, y0 + y1, 0))
    assert (lower ^ turned).volume() > 100
