"""Every bait family against a closed form, its details turned off."""

from __future__ import annotations

import itertools
import math

import manifold3d
import numpy as np
import pytest

from pourwright.body.families.craw import Craw
from pourwright.body.families.creature import Creature
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.double_tail_grub import DoubleTailGrub
from pourwright.body.families.lizard import Lizard
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.ribbon_tail_worm import RibbonTailWorm
from pourwright.body.families.split_tail_minnow import SplitTailMinnow
from pourwright.body.families.stick import Stick
from pourwright.body.families.worm import Worm
from pourwright.body.part.claw import claw
from pourwright.body.part.tail import Blade, curl, tightest_mm, wave

VOLUME = 5e-4
# Means of f and f squared over a cubic step f = 3 s^2 - 2 s^3, closed forms: 1/2 and 13/35.
STEP, STEP2 = 1 / 2, 13 / 35


def between(solid, first_mm, last_mm):
    """The volume between two places along the bait."""
    behind = solid.trim_by_plane((1.0, 0.0, 0.0), first_mm)
    return behind.trim_by_plane((-1.0, 0.0, 0.0), -last_mm).volume()


def across(solid, at_mm):
    """Area of the section at a distance from the nose."""
    return solid.translate((-at_mm, 0, 0)).rotate((0, 90, 0)).slice(0).area()


def half_ellipsoid(long, thick_y, thick_z):
    return 2 / 3 * math.pi * long * thick_y * thick_z / 4


def cylinder(long, thick_y, thick_z):
    return math.pi / 4 * long * thick_y * thick_z


def stepped(long, first, last, step=STEP, step2=STEP2):
    """Elliptic sections whose axes go from one pair to another by a cubic step."""
    (y, z), (dy, dz) = first, np.subtract(last, first)
    return math.pi / 4 * long * (y * z + (y * dz + z * dy) * step + dy * dz * step2)


def frustum(long, first, last):
    """Closed form: pi L / 12 (D^2 + D d + d^2)."""
    return math.pi * long / 12 * (first**2 + first * last + last**2)


def capsule(long, thick):
    return math.pi / 4 * thick**2 * (long - thick) + math.pi / 6 * thick**3


def test_a_stick_without_a_swell_is_a_capsule():
    stick = Stick(length_mm=110, middle_mm=9, end_mm=9, rings=0, sac_mm=0)
    assert stick.solid().volume() == pytest.approx(capsule(110, 9), rel=VOLUME)


@pytest.mark.parametrize("count", [1, 12, 70])
def test_rings_take_what_frusta_leave(count):
    # Closed form: a groove of depth d runs over five sections, the inner three at
    # cos(0.55 pi / 2), 1 and cos(0.55 pi / 2) of it, a frustum between each two. The grooves
    # share the straight part between the round ends and take 0.3 of their pitch to either side.
    thick, deep, ringed = 10.0, 0.6, 150.0
    plain = Worm(length_mm=160, diameter_mm=thick, tail_diameter_mm=thick, rings=0, sac_mm=0)
    ringy = Worm(
        length_mm=160, diameter_mm=thick, tail_diameter_mm=thick, rings=count,
        ring_depth_mm=deep, sac_mm=0,
    )  # fmt: skip
    reach = 0.3 * ringed / count
    at = reach * np.array([-1, -0.55, 0, 0.55, 1])
    left = thick - 2 * deep * np.array([0, 0.6494480, 1, 0.6494480, 0])
    groove = sum(
        frustum(b - a, first, last)
        for (a, b), (first, last) in zip(
            itertools.pairwise(at), itertools.pairwise(left), strict=True
        )
    )
    taken = plain.solid().volume() - ringy.solid().volume()
    frusta = count * (cylinder(2 * reach, thick, thick) - groove)
    # Sections of the body between those of a groove come nearer to the cosine, whose closed
    # form is 8 R d h - pi d^2 h.
    cosine = count * reach * (8 * thick / 2 * deep - math.pi * deep**2)
    assert 0.999 * frusta < taken < 1.001 * cosine
    assert frusta == pytest.approx(cosine, rel=0.06)


def test_an_egg_sac_band_is_a_collar():
    # Closed form: between slopes of a squared sine, 0.3 of the band's half length each, lies a
    # cylinder; over a slope the mean of sin^2 is 1/2 and of sin^4 3/8 (five sections miss 1 %).
    plain = Worm(length_mm=200, diameter_mm=10, tail_diameter_mm=10, rings=0, sac_mm=0)
    collared = Worm(length_mm=200, diameter_mm=10, tail_diameter_mm=10, rings=0, sac_mm=12)
    long, slope = 13.0, 0.3 * 13 / 2
    added = cylinder(long - 2 * slope, 12, 12) - cylinder(long - 2 * slope, 10, 10)
    added += 2 * slope * math.pi / 4 * (2 * 10 * 2 * 1 / 2 + 2**2 * 3 / 8)
    assert collared.solid().volume() - plain.solid().volume() == pytest.approx(added, rel=0.01)


def test_rings_leave_the_band_smooth_and_go_on_behind_it():
    # A caliper on the band, and in a groove on either side of it. The band lies about 0.29 of
    # the length, a tenth of it at most.
    worm = Worm(
        length_mm=200, diameter_mm=10, tail_diameter_mm=10, rings=40, ring_depth_mm=1, sac_mm=10
    ).solid()

    def least(first_mm, last_mm):
        return min(across(worm, x) for x in np.arange(first_mm, last_mm, 0.25))

    full, groove = math.pi * 25, math.pi * 16
    assert least(51.7, 64.3) == pytest.approx(full, rel=1e-3)
    for first, last in [(20, 45), (70, 95), (150, 175)]:
        assert groove * 0.999 < least(first, last) < 1.1 * groove


def test_the_body_of_a_ribbon_tail_worm_is_a_cylinder_and_a_frustum():
    # Closed form; the taper starts at 0.55 of the body, the ribbon 0.8 of the root inside it.
    worm = RibbonTailWorm(
        length_mm=250, body_length_mm=120, diameter_mm=11, root_mm=6, rings=0, sac_mm=0
    )
    end = 120 - 0.8 * 6
    there = 11 - 5 * (end - 66) / 54
    want = half_ellipsoid(5.5, 11, 11) + cylinder(66 - 5.5, 11, 11) + frustum(end - 66, 11, there)
    assert between(worm.solid(), 0, end) == pytest.approx(want, rel=VOLUME)


def test_a_straight_ribbon_reaches_its_width_and_thickness():
    # A caliper across the ribbon where it is broadest, 0.55 along it; it thins by a quarter.
    worm = RibbonTailWorm(
        length_mm=250, body_length_mm=120, ribbon_width_mm=9, ribbon_thick_mm=1.6, bends=0
    )
    start = 120 - 0.8 * 5
    near = worm.solid().trim_by_plane((1.0, 0.0, 0.0), start + 0.55 * (250 - start))
    _, low_y, low_z, _, high_y, high_z = near.bounding_box()
    assert high_y - low_y == pytest.approx(9, rel=0.01)
    assert high_z - low_z == pytest.approx(1.6 * (1 - 0.25 * 0.55), rel=0.01)


BLADE = Blade(root_mm=6, width_mm=7, thick_mm=1.5)


@pytest.mark.parametrize("degrees", [90, 200, 270])
def test_a_curled_tail_weighs_what_a_straight_one_does(degrees):
    # Pappus of Alexandria, Collection VII: section times the path of its middle, and a tail as
    # long as the arc has the same sections. First bend as tight as the last: a plain arc.
    long = math.radians(degrees) * 12
    curled = BLADE.along(curl(degrees, 12, first=1.0), broadest=0.5)
    straight = BLADE.along(wave(long, 0.0, 0), broadest=0.5)
    assert curled.volume() == pytest.approx(straight.volume(), rel=VOLUME)


def test_a_waving_ribbon_weighs_what_its_path_is_long():
    # Goldin's theorem (Goodman and Goodman, The American Mathematical Monthly 76 (1969) 355):
    # section times path also holds along any plane curve through the middles of the sections.
    path = wave(90.0, 12.0, 4)
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    unrolled = np.column_stack([walked, np.zeros_like(walked)])
    waved, flat = (BLADE.along(p, broadest=0.5) for p in (path, unrolled))
    assert walked[-1] > 1.1 * 90
    assert waved.volume() == pytest.approx(flat.volume(), rel=2e-3)


@pytest.mark.parametrize("bends", [1, 3, 6])
def test_a_ribbon_swings_as_far_and_bends_as_tight_as_stated(bends):
    # Closed form: behind its first bend the path is a sine of half the swing, whose bends have
    # the radius 1 / (a w^2); it leaves its root straight and ends at a crest.
    path = wave(100.0, 12.0, bends)
    slope = np.diff(path[:, 1]) / np.diff(path[:, 0])
    assert path[-1] == pytest.approx((100, 6 * (-1) ** (bends - 1)))
    assert abs(path[:, 1]).max() == pytest.approx(6, rel=1e-3)
    assert abs(slope[-1]) < 0.15 * abs(slope).max()
    assert abs(slope[0]) < 0.15 * abs(slope).max()
    per_mm = math.pi / 2 * (2 * bends - 1) / 100
    assert tightest_mm(100.0, 12.0, bends) == pytest.approx(1 / (6 * per_mm**2))


@pytest.mark.parametrize("degrees", [90, 215, 270])
def test_a_tail_curls_as_far_and_as_tight_as_stated(degrees):
    # Closed form: the path turns by the stated angle; its last bend has the stated radius.
    path = curl(degrees, 11, first=0.4)
    step = np.diff(path, axis=0)
    heading = np.unwrap(np.arctan2(step[:, 1], step[:, 0]))
    # Between the middles of the first and the last step lies one step less than the whole turn.
    assert heading[-1] == pytest.approx(math.radians(degrees), rel=0.01)
    walked = np.hypot(*step[-1])
    assert walked / (heading[-1] - heading[-2]) == pytest.approx(11, rel=0.015)


@pytest.mark.parametrize("family", [CurlTailGrub, DoubleTailGrub])
def test_the_front_half_of_a_grub_is_a_round_nose_and_a_cylinder(family):
    grub = family(body_length_mm=50, body_mm=13, rings=0)
    want = half_ellipsoid(6.5, 13, 13) + cylinder(25 - 6.5, 13, 13)
    assert between(grub.solid(), 0, 25) == pytest.approx(want, rel=VOLUME)
    # Halfway through its second half it has gone a quarter of the way to its root.
    there = 13 + (grub.root_mm - 13) / 4
    assert across(grub.solid(), 37.5) == pytest.approx(math.pi / 4 * there**2, rel=2e-3)


def test_the_body_of_a_paddle_tail():
    # Closed form, section by section: half an ellipsoid over a fifth of the length, a cylinder
    # to 0.3 of it, a cubic step to the stem at 0.8, the stem up to the paddle. A belly that
    # hangs shears the sections and keeps their volume (Cavalieri).
    bait = PaddleTail(
        length_mm=110, height_mm=22, width_mm=15, stem_mm=5, paddle_thick_mm=3, eye_mm=0, gill_mm=0
    )
    want = half_ellipsoid(22, 22, 15) + cylinder(11, 22, 15)
    want += stepped(55, (22, 15), (5, 5)) + cylinder(110 - 3 - 88, 5, 5)
    assert between(bait.solid(), 0, 107) == pytest.approx(want, rel=VOLUME)


def test_the_paddle_is_a_lens():
    # Closed form: sections grow as sqrt(u (2 - u)), whose mean is pi / 4.
    bait = PaddleTail(stem_mm=1.5, paddle_height_mm=18, paddle_width_mm=12, paddle_thick_mm=4)
    lens = math.pi / 4 * cylinder(4, 18, 12)
    stem = math.pi / 4 * 1.5**2
    # It hangs below its stem by 0.4 of what the stem leaves of half its height.
    _, low_y, _, _, high_y, _ = bait.solid().trim_by_plane((1.0, 0.0, 0.0), 98).bounding_box()
    assert (low_y + high_y) / 2 == pytest.approx(-0.4 * (18 - 1.5) / 2, rel=0.01)
    # In front of its middle the stem runs within the lens, but for a sliver at its rim.
    assert between(bait.solid(), 96, 100) == pytest.approx(lens, abs=0.1 * stem)


def test_the_body_of_a_split_tail_minnow():
    # Closed form, as above; the cubic step is followed to its middle, where the means of f and
    # f squared over the half are 3/16 and 33/560.
    bait = SplitTailMinnow(
        length_mm=120, height_mm=20, width_mm=14, stem_mm=5, fork_mm=20, span_mm=24,
        eye_mm=0, gill_mm=0,
    )  # fmt: skip
    deepest = 0.36 * 120
    long = 120 - 20 - 2.5 * 5 - deepest
    want = half_ellipsoid(36, 20, 14) + cylinder(deepest - 36, 20, 14)
    want += stepped(long / 2, (20, 14), (5, 5), 3 / 16, 33 / 560)
    assert between(bait.solid(), 0, deepest + long / 2) == pytest.approx(want, rel=VOLUME)


@pytest.mark.parametrize(("fork_mm", "span_mm"), [(16, 20), (24, 30), (30, 18)])
def test_a_fork_is_as_deep_and_as_wide_as_stated(fork_mm, span_mm):
    # A ruler along the middle of the bait, and one across the tips of its tail.
    bait = SplitTailMinnow(length_mm=110, fork_mm=fork_mm, span_mm=span_mm, height_mm=15).solid()
    tail = bait.trim_by_plane((1.0, 0.0, 0.0), 110 - 0.5 * fork_mm)
    _, low_y, _, high_x, high_y, _ = tail.bounding_box()
    assert high_y - low_y == pytest.approx(span_mm, rel=0.01)
    assert high_x == pytest.approx(110, rel=1e-5)
    middle = bait.slice(0.0).to_polygons()
    crossed = [
        x0 + (x1 - x0) * y0 / (y0 - y1)
        for ring in middle
        for (x0, y0), (x1, y1) in zip(ring, np.roll(ring, -1, axis=0), strict=True)
        if (y0 < 0) != (y1 < 0)
    ]
    assert max(crossed) == pytest.approx(110 - fork_mm, abs=0.03 * fork_mm)


def test_the_body_of_a_craw_without_limbs():
    # Closed form: the claws point straight back, so the body ends 0.45 of its thickness behind
    # their roots. Nose, slim tail to 0.52, a cubic step over 0.12, the back as far as the head.
    craw = Craw(
        length_mm=90, body_mm=12, claw_length_mm=34, splay_degrees=0, leg_pairs=0, feeler_mm=0,
        rings=0,
    )  # fmt: skip
    end = 90 - 34 + 0.45 * 12
    tail, back = (0.76 * 12, 0.76 * 0.85 * 12), (12, 0.85 * 12)
    want = half_ellipsoid(4.8, *tail) + cylinder(0.52 * end - 4.8, *tail)
    want += stepped(0.12 * end, tail, back) + cylinder(end - 12 - 0.64 * end, *back)
    assert between(craw.solid(), 0, end - 12) == pytest.approx(want, rel=VOLUME)


@pytest.mark.parametrize("size", [(30, 12, 5), (50, 20, 3)])
def test_a_claw_fills_its_box_and_no_more(size):
    # A caliper along, across and through a claw; its notch opens between two fingers.
    solid = claw(*size)
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    assert high - low == pytest.approx(np.array(size), rel=1e-4)
    assert low[0] == pytest.approx(0, abs=1e-4)
    palm = solid.trim_by_plane((-1.0, 0.0, 0.0), -0.45 * size[0])
    assert palm.bounding_box()[5] > 0.9 * size[2] / 2
    fingers = solid.trim_by_plane((1.0, 0.0, 0.0), 0.8 * size[0])
    assert len(fingers.decompose()) == 2
    strong, weak = sorted(fingers.decompose(), key=lambda f: -f.bounding_box()[4])
    assert strong.volume() > 1.2 * weak.volume()


def test_the_front_of_a_creature_without_limbs():
    # Closed form: half an ellipsoid 0.55 of the width long, then an elliptic cylinder.
    bait = Creature(
        body_length_mm=70, body_width_mm=14, body_thick_mm=10, wing_mm=0, feeler_mm=0, rings=0
    )
    want = half_ellipsoid(7.7, 14, 10) + cylinder(24.5 - 7.7, 14, 10)
    assert between(bait.solid(), 0, 24.5) == pytest.approx(want, rel=VOLUME)


def test_the_trunk_and_the_tail_of_a_lizard_without_legs():
    # Closed form: cubic steps from cheeks to neck, belly and hips, then a frustum to 0.28 of
    # the tail's root; the tail lies straight.
    bait = Lizard(
        length_mm=160, trunk_mm=70, body_mm=14, thick_mm=11, head_mm=16, tail_mm=8,
        tail_swing_mm=0, leg_mm=0, rings=0, eye_mm=0,
    )  # fmt: skip
    at = [0.17 * 70, 0.32 * 70, 0.6 * 70, 70]
    sections = [(16, 0.85 * 11), (0.68 * 14, 0.68 * 11), (14, 11), (8, 8)]
    want = sum(
        stepped(b - a, first, last)
        for (a, b), (first, last) in zip(
            itertools.pairwise(at), itertools.pairwise(sections), strict=True
        )
    )
    last = 150
    there = 8 * (1 - 0.72 * (last - 70) / 90)
    want += frustum(last - 70, 8, there)
    assert between(bait.solid(), at[0], last) == pytest.approx(want, rel=VOLUME)


def test_a_lizard_reaches_forward_with_its_forelegs_and_back_with_its_hind_legs():
    # Common practice, no source: seen from above, four feet apart from the trunk.
    bait = Lizard(trunk_mm=68, leg_mm=27, tail_swing_mm=0)
    feet = bait.solid().trim_by_plane((0.0, 1.0, 0.0), 17).decompose()
    fore, hind = sorted(feet, key=lambda foot: foot.bounding_box()[0])
    assert fore.bounding_box()[0] < 0.38 * 68 - 10
    assert hind.bounding_box()[3] > 0.9 * 68 + 10
    assert fore.bounding_box()[3] < 0.38 * 68 + 5
    assert hind.bounding_box()[0] > 0.9 * 68 - 5


def test_an_eye_socket_is_round_with_a_flat_floor():
    # A caliper across the socket; between its floor and the lowest skin around it the cut is a
    # whole disk, below its floor nothing is gone.
    bare, eyed = (PaddleTail(eye_mm=mm, gill_mm=0).solid() for mm in (0, 4))
    cuts = [bare.slice(z) - eyed.slice(z) for z in np.arange(3, 7, 0.05)]
    areas = [cut.area() for cut in cuts]
    assert max(areas) == pytest.approx(math.pi * 4, rel=0.01)
    disk = manifold3d.CrossSection.circle(2.02, circular_segments=80).translate((11.5, 2.1))
    assert (cuts[int(np.argmax(areas))] - disk).area() < 0.03
    below = areas[: int(np.argmax(np.array(areas) > 6))]
    assert len(below) > 10
    assert max(below) < 0.02
    assert min(areas[len(below) : len(below) + 8]) == pytest.approx(math.pi * 4, rel=0.01)


def test_a_gill_line_is_as_deep_as_stated():
    # A caliper in the groove, where it bows tailward most: 0.21 and 0.035 of the length behind
    # the nose, on the middle of the flank. There the plain body has its full width.
    bare, gilled = (PaddleTail(width_mm=14, gill_mm=mm, eye_mm=0).solid() for mm in (0, 1.2))
    middle_y = -0.05 * 21 * math.sin(math.pi * 0.21 / 0.8)
    pin = manifold3d.Manifold.cube((0.05, 0.05, 40.0), center=True).translate((24.5, middle_y, 0))
    assert (bare ^ pin).bounding_box()[5] == pytest.approx(7, rel=5e-3)
    assert (gilled ^ pin).bounding_box()[5] == pytest.approx(5.8, rel=0.01)
    # It fades: back and belly stay where they were.
    assert gilled.project().area() == pytest.approx(bare.project().area(), rel=1e-3)


def test_a_hook_slot_takes_its_own_box():
    # Closed form: the slot's area seen along the pull times its width, 0.13 of the body's.
    whole, slit = (PaddleTail(slot_mm=mm).solid() for mm in (0, 6))
    gone = max((whole - slit).decompose(), key=lambda piece: piece.volume())
    wide = 0.13 * 14
    assert gone.volume() == pytest.approx(gone.slice(0.0).area() * wide, rel=0.015)
    # Deepest in its middle, by as much as stated.
    _, low_y, _, _, high_y, _ = gone.trim_by_plane((1.0, 0.0, 0.0), 45.9).bounding_box()
    assert high_y - low_y == pytest.approx(6, rel=0.01)
