"""Layers of a bait against closed forms: caps, segments, zones, Cavalieri, and another library."""

from __future__ import annotations

import dataclasses
import functools
import math

import manifold3d
import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.body.division import Division, Wave
from pourwright.body.division_of import Build, build_of, divided
from pourwright.body.families import FAMILIES
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.split_tail_minnow import SplitTailMinnow
from pourwright.body.families.tube import Tube
from pourwright.body.split import Line, Split
from pourwright.body.split_bars import Cut, volumes

LONG, WIDE, HIGH = 80.0, 12.0, 20.0

built = functools.cache(build_of)


@functools.cache
def egg(*, up: int = 2) -> manifold3d.Manifold:
    """An ellipsoid; `up` is the axis of its height."""
    halves = [LONG / 2, WIDE / 2, HIGH / 2] if up == 2 else [LONG / 2, HIGH / 2, WIDE / 2]
    ball = manifold3d.Manifold.sphere(1.0, 160)
    ball = ball.scale([ball.volume() ** (-1 / 3) * (4 / 3 * math.pi) ** (1 / 3)] * 3)
    return ball.scale(halves).translate((LONG / 2, 0.0, 0.0))


@functools.cache
def rod(thick: float = 10.0) -> manifold3d.Manifold:
    """A cylinder along the length."""
    lying = manifold3d.Manifold.cylinder(LONG, thick / 2, circular_segments=256)
    return lying.rotate((0.0, 90.0, 0.0))


@functools.cache
def box() -> manifold3d.Manifold:
    return manifold3d.Manifold.cube((LONG, WIDE, HIGH)).translate((0.0, -WIDE / 2, 0.0))


def shares(build: Build, division: Division) -> dict[str, float]:
    found = volumes(build.bars, division)
    return {place: volume / sum(found.values()) for place, volume in found.items()}


def split_of(solid: manifold3d.Manifold, up: int = 2, **split: object) -> dict[str, float]:
    build = built(solid, up)
    it = divided(build, ("belly", "back"), Split(**split), shares=(0.5, 0.5))  # type: ignore[arg-type]
    return shares(build, it)


@pytest.mark.parametrize("up", [1, 2])
@pytest.mark.parametrize("height", [0.1, 0.3, 0.5, 0.8])
def test_a_cap_of_an_ellipsoid(height, up):
    # Archimedes, On the Sphere and Cylinder II, prop. 2: cap π·h²·(3r - h)/3, stretched along
    # each axis: 3t² - 2t³ of the whole.
    found = split_of(egg(up=up), up, line_height=height)
    assert found["belly"] == pytest.approx(3 * height**2 - 2 * height**3, abs=2e-4)
    assert found["belly"] + found["back"] == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize("height", [0.1, 0.35, 0.5, 0.9])
def test_a_segment_of_a_rod(height):
    # Bronshtein et al., Handbook of Mathematics (2015), section 3.1.5: circular segment
    # r²·(φ - sin φ)/2 with cos(φ/2) = 1 - 2t.
    angle = 2 * math.acos(1 - 2 * height)
    found = split_of(rod(), line_height=height)
    assert found["belly"] == pytest.approx((angle - math.sin(angle)) / (2 * math.pi), abs=5e-4)


@pytest.mark.parametrize("share", [0.1, 0.35, 0.5, 0.8])
def test_a_share_gives_its_height_back(share):
    # The root of 3t² - 2t³ = s, Bronshtein et al. (2015), section 1.6.2.3: the cubic by its angle.
    height = 0.5 - math.sin(math.asin(1 - 2 * share) / 3)
    it = divided(built(egg(), 2), ("back", "belly"), Split(), shares=(1 - share, share))
    assert 3 * height**2 - 2 * height**3 == pytest.approx(share, abs=1e-12)
    assert (it.line_mm - it.low_mm) / HIGH == pytest.approx(height, abs=5e-4)


@pytest.mark.parametrize("family", FAMILIES.values(), ids=lambda f: f.key)
def test_another_library_cuts_the_same(family):
    solid, up = family().solid(), family.up()
    build = built(solid, up)
    it = divided(build, ("belly", "back"), Split(line_height=0.45), shares=(0.5, 0.5))
    normal = [0.0, 0.0, 0.0]
    normal[up] = -1.0
    below = solid.trim_by_plane(tuple(normal), -it.line_mm).volume() / solid.volume()
    assert shares(build, it)["belly"] == pytest.approx(below, abs=1e-3)


@pytest.mark.parametrize(
    "fish", [PaddleTail(height_mm=30, width_mm=12), SplitTailMinnow(height_mm=24)]
)
def test_a_fish_lies_on_its_side_with_its_belly_hanging_from_its_back(fish):
    # Its sections are higher than wide, and its middle under the nose's (y = 0).
    build = build_of(fish.solid(), fish.up())
    body = slice(10, 30)
    assert (build.profile.half_up_mm > 1.2 * build.profile.half_across_mm)[body].all()
    assert (build.profile.mid_up_mm < 0)[body].all()


def test_a_vein_is_a_zone_of_a_ball():
    # Archimedes: a zone between two heights is the difference of its caps.
    build = built(egg(), 2)
    split = Split(vein_height=0.5, vein_thick_mm=4, line_height=0.5)
    found = shares(build, divided(build, ("belly", "vein", "back"), split, shares=(0.4, 0.2, 0.4)))
    low, high = 0.5 - 2 / HIGH, 0.5 + 2 / HIGH
    zone = (3 * high**2 - 2 * high**3) - (3 * low**2 - 2 * low**3)
    assert found["vein"] == pytest.approx(zone, abs=3e-4)
    assert found["belly"] == pytest.approx((1 - zone) / 2, abs=3e-4)


def test_a_narrow_vein_in_a_box_takes_its_section():
    # Cavalieri: everywhere 3 × 5 of 12 × 20 mm.
    build = built(box(), 2)
    split = Split(vein_height=0.3, vein_thick_mm=3, vein_wide_mm=5, line_height=0.3)
    it = divided(build, ("back", "vein", "belly"), split, shares=(0.5, 0.1, 0.4))
    found = shares(build, it)
    assert found["vein"] == pytest.approx(15 / 240, abs=3e-4)
    assert found["belly"] == pytest.approx(0.3 - 7.5 / 240, abs=3e-4)


@pytest.mark.parametrize("size", [0.3, 0.6, 0.9])
def test_a_core_is_its_square_of_an_ellipsoid(size):
    # Cavalieri: every section of the core is the square of its size of the section around it.
    build = built(egg(), 2)
    it = divided(build, ("body", "core"), Split(core_share=size), shares=(0.5, 0.5))
    assert shares(build, it)["core"] == pytest.approx(size**2, rel=0.02)
    back = divided(build, ("body", "core"), Split(), shares=(1 - size**2, size**2))
    assert back.core_share == pytest.approx(size, rel=0.01)


def test_a_core_leaves_legs_and_claws_alone():
    # A rod of 10 mm with a fin of 1 mm on either side: the middle is the rod's.
    fin = manifold3d.Manifold.cube((20.0, 40.0, 1.0), center=True).translate((40.0, 0.0, 0.0))
    it = divided(built(rod() + fin, 2), ("body", "core"), Split(core_share=0.5), shares=(0.5, 0.5))
    at = np.abs(it.profile.station_mm - 40) < 9
    assert it.profile.half_across_mm[at] == pytest.approx(5, abs=0.3)
    assert it.profile.half_up_mm[at] == pytest.approx(5, abs=0.1)


def test_three_layers_and_a_vein_and_a_core_get_what_was_asked():
    wanted = {"core": 0.12, "belly": 0.3, "vein": 0.08, "body": 0.2, "back": 0.3}
    build = built(egg(up=1), 1)
    it = divided(build, tuple(wanted), Split(), shares=tuple(wanted.values()))
    assert shares(build, it) == pytest.approx(wanted, abs=2e-4)
    assert it.low_line_mm < it.line_mm


def test_a_measured_vein_leaves_the_rest_in_proportion():
    build = built(egg(), 2)
    places = ("belly", "vein", "back")
    found = shares(build, divided(build, places, Split(vein_thick_mm=3), shares=(0.6, 0.2, 0.2)))
    assert found["belly"] / found["back"] == pytest.approx(3, abs=0.005)
    assert found["vein"] > 0.15


@pytest.mark.parametrize("line", [Line.WAVY, Line.POURED])
def test_whole_waves_move_no_plastic_of_a_box(line):
    # The mean of a sine over whole periods is 0: Cavalieri again.
    straight = split_of(box(), line_height=0.4)
    swinging = split_of(box(), line=line, line_height=0.4, wave_mm=2.0)
    assert swinging["belly"] == pytest.approx(straight["belly"], abs=5e-4)


@pytest.mark.parametrize("line", [Line.WAVY, Line.POURED])
def test_a_line_swings_as_far_as_it_is_told(line):
    it = divided(
        built(box(), 2),
        ("belly", "back"),
        Split(line=line, wave_mm=1.2),
        shares=(0.5, 0.5),
        seed=7,
    )
    x = np.linspace(0, LONG, 4001)
    swing = it.swing_mm(x, np.zeros_like(x))
    # The mean square of a sine is half the square of its amplitude.
    assert math.sqrt(2) * swing.std() == pytest.approx(1.2, rel=0.01)
    other = divided(
        built(box(), 2),
        ("belly", "back"),
        Split(line=line, wave_mm=1.2),
        shares=(0.5, 0.5),
        seed=8,
    )
    assert np.abs(other.swing_mm(x, 0 * x) - swing).max() > 0.2


@pytest.mark.parametrize("up", [1, 2])
def test_points_strewn_in_a_bait_count_its_layers(up):
    # Monte Carlo: the mean weight of points strewn evenly is the share, within 3/√n.
    wanted = {"belly": 0.35, "body": 0.2, "back": 0.25, "vein": 0.08, "core": 0.12}
    split = Split(line=Line.POURED, wave_mm=3, vein_wide_mm=7, vein_height=0.5)
    it = divided(built(egg(up=up), up), tuple(wanted), split, shares=tuple(wanted.values()))
    chance = np.random.default_rng(3)
    points = chance.normal(size=(40_000, 3))
    points *= (chance.random(40_000) ** (1 / 3) / np.linalg.norm(points, axis=1))[:, None]
    halves = [LONG / 2, HIGH / 2, WIDE / 2] if up == 1 else [LONG / 2, WIDE / 2, HIGH / 2]
    weights = it.weights(points * halves + [LONG / 2, 0, 0])
    assert weights.sum(axis=1) == pytest.approx(1, abs=1e-12)
    assert weights.min() >= 0
    mean = dict(zip(it.places, weights.mean(axis=0), strict=True))
    assert mean == pytest.approx(wanted, abs=0.008)


def test_back_is_up_and_the_core_lies_over_the_vein():
    it = divided(built(egg(), 2), ("belly", "back", "vein", "core"),
        Split(line_height=0.5, vein_thick_mm=3, core_share=0.4), shares=(0.4, 0.4, 0.1, 0.1),
    )  # fmt: skip
    middle = LONG / 2
    points = np.array(
        [[middle, 0, -8], [middle, 0, 8], [middle, 5, 0], [middle, 0, 0], [middle, 0, 0.2 * HIGH]]
    )
    sharp = it.weights(points).round().tolist()
    assert sharp[:4] == [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]]
    # On the edge of the core, which reaches 0.4 of the half height, it is half core.
    assert it.weights(points)[4, 3] == pytest.approx(0.5, abs=0.05)


def test_waves_run_along_the_bait_and_lean_across_it():
    # By hand: sin(π/2) at a quarter of a wave, a half of -1 where it leans a quarter turn back.
    it = divided(built(box(), 2), ("belly", "back"), Split(), shares=(0.5, 0.5))
    waves = (Wave(2.0, 40.0, 0.0, math.pi / 8), Wave(0.5, 20.0, math.pi / 2, 0.0))
    swinging = dataclasses.replace(it, waves=waves)
    found = swinging.swing_mm(np.array([10.0, 0.0, 0.0]), np.array([0.0, -4.0, 0.0]))
    assert found == pytest.approx([2.0 - 0.5, -2.0 + 0.5, 0.5], abs=1e-12)
    up = it.line_mm + 1.0
    assert swinging.weights(np.array([[10.0, 0.0, up], [0.0, -4.0, up]]))[
        :, 1
    ].round().tolist() == [0, 1]


def test_a_line_blends_over_its_softness():
    it = divided(built(box(), 2), ("belly", "back"), Split(line_height=0.5), shares=(0.5, 0.5))
    rows = it.weights(np.array([[40, 0, it.line_mm + s * it.soft_mm] for s in (-2.0, 0.0, 2.0)]))
    # The logistic function at -2, 0 and 2.
    assert rows[:, 1] == pytest.approx([1 / (1 + math.e**2), 0.5, 1 / (1 + math.e**-2)], abs=1e-9)


def test_a_vein_swings_with_the_line():
    split = Split(line=Line.WAVY, wave_mm=3, vein_thick_mm=1)
    it = divided(built(box(), 2), ("belly", "vein", "back"), split, shares=(0.4, 0.1, 0.5))
    x = np.linspace(2, LONG - 2, 50)
    up = it.vein_mm + it.swing_mm(x, 0 * x)
    assert it.weights(np.column_stack([x, 0 * x, up]))[:, 1].min() > 0.95
    assert np.ptp(up) > 5


def test_the_face_of_a_line_is_the_section():
    # Ellipse at half height, π·a·b.
    build = built(egg(), 2)
    it = divided(build, ("belly", "back"), Split(line_height=0.5), shares=(0.5, 0.5))
    face = Cut(build.bars, it).line_area(it.line_mm)
    assert face == pytest.approx(math.pi * LONG * WIDE / 4, rel=2e-3)


def test_one_layer_fills_the_bait_whatever_it_is_called():
    for place in ("body", "back", "vein"):
        it = divided(built(egg(), 2), (place,), Split(), shares=(1.0,))
        assert it.weights(np.array([[40.0, 0, 0], [40, 0, 9]])).tolist() == [[1], [1]]


@pytest.mark.parametrize(
    ("places", "split", "wanted", "error", "words"),
    [
        (("body",), Split(line_height=0.4), (1.0,), BadInput, r"^split\.line_height: a line"),
        (("belly", "back"), Split(belly_height=0.4), (0.5, 0.5), BadInput, "height: a second"),
        (("vein", "core"), Split(), (0.5, 0.5), BadInput, "layers: a core needs"),
        (("body", "core"), Split(), (0.05, 0.95), NoAnswer, "core of this bait takes at most 0.9"),
        (
            ("body", "vein"), Split(vein_wide_mm=1), (0.5, 0.5), NoAnswer,
            "vein of this bait takes at most 0.1",
        ),
        (
            ("belly", "body", "back"), Split(line_height=0.2), (0.6, 0.2, 0.2), NoAnswer,
            "belly would end over",
        ),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_refused(places, split, wanted, error, words):
    with pytest.raises(error, match=words):
        divided(built(egg(), 2), places, split, shares=wanted)


@pytest.mark.parametrize("split", [Split(), Split(core_share=0.5)])
@pytest.mark.parametrize("tube", [Tube(), Tube(nose_mm=40, wall_mm=5.5)])
def test_a_hollow_bait_holds_no_core(tube, split):
    with pytest.raises(NoAnswer, match="this bait is hollow"):
        divided(built(tube.solid(), tube.up()), ("body", "core"), split, shares=(0.9, 0.1))


@pytest.mark.parametrize("family", [it for it in FAMILIES.values() if not it.core_pin])
def test_every_bait_that_is_not_hollow_holds_one(family):
    bait = family()
    build = built(bait.solid(), bait.up())
    assert divided(build, ("body", "core"), Split(), shares=(0.95, 0.05)).core_share > 0.1


def test_a_belly_over_the_back_is_refused():
    with pytest.raises(BadInput, match=r"belly_height: must be under the line of the back at 0\.4"):
        Split(line_height=0.4, belly_height=0.5)
