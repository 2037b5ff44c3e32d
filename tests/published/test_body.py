"""Bodies against closed forms, and weighing against Archimedes and printed water densities."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest

from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import NOSE_ROUND, Tube
from pourwright.body.families.worm import Worm
from pourwright.body.loft import domed, loft, section, solid_of, stations, straight
from pourwright.body.measure import MeasureInput, Thick, measure
from pourwright.body.thickest import distance, thickest_place
from pourwright.body.weigh import WeighInput, weigh

# Volumes within 0.05 %, surface and shadow within 0.3 %, thickest place within 0.5 %.
VOLUME, AREA, THICK = 5e-4, 3e-3, 5e-3


def ellipsoid(long, high, wide):
    x = stations(2 * long, long, long)
    share = domed(x, 2 * long, long, long)
    return straight(x, high * share, wide * share)


def frustum(length, nose_mm, tail_mm):
    x = stations(length, 0, 0, middle=2)
    half = np.interp(x, [0, length], [nose_mm / 2, tail_mm / 2])
    return straight(x, half, half)


def bent_rod(radius, bend, turn):
    """A rod of that radius bent around a circle."""
    angle = np.linspace(0, turn, 120)
    out = np.stack([np.cos(angle), np.sin(angle), 0 * angle], axis=1)
    half = np.full_like(angle, radius)
    return loft(bend * out, out, half, half, points=48)


@pytest.mark.parametrize(("length", "thick"), [(60, 12), (160, 9.5), (500, 2), (25, 12.5)])
def test_worm_without_taper_is_a_capsule(length, thick):
    # Closed form: cylinder and two half balls.
    worm = Worm(length_mm=length, diameter_mm=thick, tail_diameter_mm=thick, rings=0, sac_mm=0)
    done = measure(MeasureInput(family=worm))
    r = thick / 2
    straight_mm = length - thick
    assert done.volume_ml * 1000 == pytest.approx(
        math.pi * r**2 * straight_mm + 4 / 3 * math.pi * r**3, rel=VOLUME
    )
    assert done.surface_cm2 * 100 == pytest.approx(2 * math.pi * r * length, rel=AREA)
    assert done.shadow_cm2 * 100 == pytest.approx(thick * straight_mm + math.pi * r**2, rel=AREA)
    assert done.thickest_mm == pytest.approx(thick, rel=THICK)
    assert done.thickest_shape is Thick.ROUND
    assert done.length_mm == pytest.approx(length, rel=1e-6)
    assert done.width_mm == pytest.approx(thick, rel=THICK)


def test_tapered_worm_is_a_cylinder_and_a_frustum():
    # Closed form. A very short tail end, so that its dome weighs nothing.
    worm = Worm(
        length_mm=400, diameter_mm=10, tail_diameter_mm=1, taper_share=0.5, rings=0, sac_mm=0
    )
    nose = 2 / 3 * math.pi * 5**3 + math.pi * 5**2 * 195
    cone = math.pi * 200 / 3 * (5**2 + 5 * 0.5 + 0.5**2)
    assert worm.solid().volume() == pytest.approx(nose + cone, rel=VOLUME)


def test_frustum():
    # Closed form: pi L / 3 (R^2 + R r + r^2); rings of true area make it exact.
    want = math.pi * 80 / 3 * (6**2 + 6 * 2 + 2**2)
    assert frustum(80, 12, 4).volume() == pytest.approx(want, rel=1e-6)


def test_cone_and_the_ball_inside_it():
    # Closed form: pi R^2 h / 3; the ball in a cone has radius R h / (R + sqrt(R^2 + h^2)).
    cone = frustum(24, 0, 20)
    assert cone.volume() == pytest.approx(math.pi * 100 * 24 / 3, rel=1e-6)
    ball = 2 * 10 * 24 / (10 + 26)
    assert thickest_place(cone).diameter_mm == pytest.approx(ball, rel=THICK)


@pytest.mark.parametrize("halves", [(25, 6, 4), (8, 8, 8), (60, 3, 7)])
def test_ellipsoid(halves):
    # Closed form: 4/3 pi a b c; shadow pi a b; the ball inside has the smallest axis.
    solid = ellipsoid(*halves)
    assert solid.volume() == pytest.approx(4 / 3 * math.pi * math.prod(halves), rel=VOLUME)
    shadow = math.pi * halves[0] * halves[1]
    assert solid.project().area() == pytest.approx(shadow, rel=AREA)
    assert thickest_place(solid).diameter_mm == pytest.approx(2 * min(halves), rel=THICK)


def test_ball_surface():
    # Archimedes, On the Sphere and Cylinder, I.33: four great circles.
    assert ellipsoid(8, 8, 8).surface_area() == pytest.approx(4 * math.pi * 64, rel=AREA)


def test_prolate_spheroid_surface():
    # Closed form: 2 pi b^2 (1 + a / (b e) asin e), e^2 = 1 - b^2/a^2.
    a, b = 25, 5
    e = math.sqrt(1 - b**2 / a**2)
    want = 2 * math.pi * b**2 * (1 + a / (b * e) * math.asin(e))
    assert ellipsoid(a, b, b).surface_area() == pytest.approx(want, rel=AREA)


def test_bent_rod_after_pappus():
    # Pappus of Alexandria, Collection VII: section times the path of its middle.
    rod = bent_rod(4, 30, 1.2 * math.pi)
    assert rod.volume() == pytest.approx(math.pi * 16 * 30 * 1.2 * math.pi, rel=VOLUME)
    skin = 2 * math.pi * 4 * 30 * 1.2 * math.pi + 2 * math.pi * 16
    assert rod.surface_area() == pytest.approx(skin, rel=AREA)


def test_barrel_with_parabolic_staves():
    # Harris and Stocker, Handbook of Mathematics and Computational Science (1998), barrel:
    # pi h / 60 (3 d^2 + 4 d D + 8 D^2) (from memory; re-derived).
    x = stations(120, 0, 0, middle=81)
    half = (7.5 + 2.5 * (1 - (x / 60 - 1) ** 2)) / 2
    want = math.pi * 120 / 60 * (3 * 7.5**2 + 4 * 7.5 * 10 + 8 * 10**2)
    assert straight(x, half, half).volume() == pytest.approx(want, rel=VOLUME)


def test_section_of_a_squircle():
    # Area of x^4 + y^4 = 1: 8 Gamma(5/4)^2 / sqrt(pi) = 3.708149354602743 (OEIS A175574).
    y, z = section(48, 4).T
    area = 0.5 * float(np.sum(y * np.roll(z, -1) - z * np.roll(y, -1)))
    assert area == pytest.approx(3.708149354602743, rel=1e-12)


def test_tube_is_an_annulus_with_a_nose():
    # Closed form: cylinder with half an ellipsoid in front, less cylinder and half a ball.
    tube = Tube(length_mm=90, diameter_mm=15, wall_mm=2.5, nose_mm=14, skirt_mm=0)
    dome = NOSE_ROUND * 15
    outside = math.pi * 7.5**2 * (2 / 3 * dome + 90 - dome)
    bore = math.pi * 5**2 * (76 - 5) + 2 / 3 * math.pi * 5**3
    assert tube.solid().volume() == pytest.approx(outside - bore, rel=VOLUME)


def test_slits_take_their_width_from_the_wall():
    # Closed form: twelve cuts of 0.5 mm through a wall between radii 5 and 7.5, 36 mm long; a cut
    # of parallel faces takes sqrt(R^2 - s^2/4) - sqrt(r^2 - s^2/4) of wall within 0.2 %.
    measures = {"length_mm": 90, "diameter_mm": 15, "wall_mm": 2.5, "nose_mm": 14, "skirt_mm": 36}
    whole, slit = Tube(**measures, slits=0), Tube(**measures, slits=12, slit_mm=0.5)
    taken = whole.solid().volume() - slit.solid().volume()
    assert taken == pytest.approx(12 * 0.5 * 2.5 * 36, rel=6e-3)


def across(solid, at_mm):
    """Area of the section at a distance from the nose."""
    return solid.translate((-at_mm, 0, 0)).rotate((0, 90, 0)).slice(0).area()


@pytest.mark.parametrize(("share", "thick"), [(0.5, 10), (0.25, 9.375), (0.75, 9.375)])
def test_a_stick_swells_as_a_parabola(share, thick):
    # Closed form: 7.5 at the ends, 10 in the middle, three quarters of the swell halfway.
    stick = Stick(length_mm=120, middle_mm=10, end_mm=7.5, rings=0, sac_mm=0).solid()
    assert across(stick, 120 * share) == pytest.approx(math.pi / 4 * thick**2, rel=1e-3)


@pytest.mark.parametrize(("at_mm", "high", "wide"), [(30, 21, 14), (55, 13, 9.5), (90, 5, 5)])
def test_a_paddle_tail_narrows_from_its_body_to_its_stem(at_mm, high, wide):
    # Closed form: ellipses; halfway from deepest to stem, half of the way.
    bait = PaddleTail(length_mm=100, height_mm=21, width_mm=14, stem_mm=5).solid()
    assert across(bait, at_mm) == pytest.approx(math.pi / 4 * high * wide, rel=2e-3)


def test_ball_inside_a_box():
    # Closed form: the least side.
    box = manifold3d.Manifold.cube((30.0, 20.0, 10.0), center=True)
    assert thickest_place(box).diameter_mm == pytest.approx(10, rel=THICK)


def test_ball_inside_a_tetrahedron():
    # Closed form: a regular tetrahedron of edge a holds a ball of radius a / (2 sqrt 6).
    corners = 5.0 * np.array([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]])
    solid = solid_of(corners, np.array([[0, 1, 2], [0, 3, 1], [0, 2, 3], [1, 3, 2]]))
    edge = 10 * math.sqrt(2)
    assert thickest_place(solid).diameter_mm == pytest.approx(edge / math.sqrt(6), rel=THICK)


def test_ball_inside_a_hollow_body_lies_in_its_wall():
    # Closed form: a box with a box cut out; the ball fills the thickest wall, a corner beats it.
    box, hole = (manifold3d.Manifold.cube(s, center=True) for s in ((30.0,) * 3, (22.0,) * 3))
    # In the corner, x = y = z = c from outside: c = distance to the hole's corner.
    corner = 4 * math.sqrt(3) / (1 + math.sqrt(3))
    assert thickest_place(box - hole).diameter_mm == pytest.approx(2 * corner, rel=THICK)


def test_a_plate_is_flat_and_a_rod_is_round():
    plate = manifold3d.Manifold.cube((60.0, 30.0, 3.0), center=True)
    assert thickest_place(plate).flat
    assert not thickest_place(bent_rod(4, 30, 1.0)).flat


@pytest.mark.parametrize(
    ("point", "want"),
    [
        # Closed forms on the triangle (0,0,0), (3,0,0), (0,4,0): over its inside, past an edge,
        # past a corner, past the long edge 4 x + 3 y = 12.
        ((1, 1, 2), 2.0),
        ((1, -3, 4), 5.0),
        ((-2, -2, 1), 3.0),
        ((3, 4, 0), 12 / 5),
        ((1.5, 2, 0), 0.0),
    ],
)
def test_distance_to_a_triangle(point, want):
    triangle = np.array([[[0, 0, 0], [3, 0, 0], [0, 4, 0]]], dtype=float)
    assert distance(triangle, np.array(point, dtype=float)) == pytest.approx(want, abs=1e-12)


def test_volume_of_a_tetrahedron():
    # Closed form: |det| / 6, whichever way its faces turn.
    corners = np.array([[0, 0, 0], [12, 0, 0], [0, 9, 0], [0, 0, 6]], dtype=float)
    faces = np.array([[0, 1, 2], [0, 3, 1], [1, 3, 2], [0, 2, 3]])
    for turned in (faces, faces[:, ::-1]):
        assert solid_of(corners, turned).volume() == pytest.approx(108, rel=1e-6)


def weighed(**known):
    """A weighing without bubbles."""
    return weigh(WeighInput(**({"clinging_air_share": 0, "scale_step_g": 0.01} | known)))


@pytest.mark.parametrize(
    ("water_c", "water_g_ml"),
    [
        # UNESCO Technical Papers in Marine Science 36 (1981), fresh-water check values.
        (5, 0.99996675),
        (25, 0.99704796),
    ],
)
def test_ten_milliliters_push_their_water_aside(water_c, water_g_ml):
    # Archimedes, On Floating Bodies, I.7.
    done = weighed(air_g=11, gained_g=10 * water_g_ml, water_c=water_c)
    assert done.volume_ml.typical == pytest.approx(10, rel=1e-6)
    assert done.density_g_ml.typical == pytest.approx(1.1, rel=1e-6)


def test_density_by_immersion():
    # ISO 1183-1 (2019), method A: weight in air times the water's density over the weight lost.
    # A body of 23.40 g that weighs 2.60 g in water of 20 °C (0.99821 g/mL, CRC Handbook).
    done = weighed(air_g=23.40, gained_g=23.40 - 2.60, water_c=20)
    assert done.density_g_ml.typical == pytest.approx(23.40 * 0.99821 / 20.80, rel=1e-5)


def test_a_floating_bait_weighs_what_it_pushes_aside_once_held_under():
    # Archimedes, On Floating Bodies, I.5: half as heavy as water, so the glass gains twice its
    # weight when it is held under.
    done = weighed(air_g=5, gained_g=10, water_c=4)
    # CRC Handbook: water of 4 °C is 0.999975 g/mL.
    assert done.density_g_ml.typical == pytest.approx(0.5 * 0.999975, rel=1e-5)


def test_a_tenth_gram_scale_gives_a_ten_milliliter_bait_within_two_percent():
    # Estimate: rounding 0.045 g and repeat 0.1 g over 10 g, so 1.1 %; bubbles pull one way.
    done = weigh(WeighInput(air_g=10.5, gained_g=10, water_c=21))
    assert 0.008 < done.volume_ml.half_width / done.volume_ml.typical < 0.015
    assert done.density_g_ml.half_width < 0.02
