"""Measures, maps, order of filling and chain of a body against closed forms and another library."""

from __future__ import annotations

import base64
import math

import manifold3d
import numpy as np
import pytest
import trimesh

from pourwright.body.center import center_mm
from pourwright.body.chain import chain
from pourwright.body.columns import Grid, crossings, triangles
from pourwright.body.families.craw import Craw
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.tube import Tube
from pourwright.body.filling import filling_map, nose_xy
from pourwright.body.loft import domed, stations, straight
from pourwright.body.measure import MeasureInput, measure, measured
from pourwright.body.skin_ball import skin_balls
from pourwright.body.thickest import thickest_place
from pourwright.body.thickness_map import Direction, ThicknessMapInput, seen, thickness_map
from pourwright.body.undercut import Caught, undercut

Solid = manifold3d.Manifold
# A grid of cells, eight directions and the knight's moves: ways are right within 3 %.
WAY = 0.03


def box(*size, at=(0, 0, 0)):
    return Solid.cube(tuple(float(v) for v in size), center=True).translate(
        tuple(float(v) for v in at)
    )


def ball(radius, at=(0, 0, 0)):
    return Solid.sphere(radius, 200).translate(tuple(float(v) for v in at))


def ellipsoid(long, high, wide):
    x = stations(2 * long, long, long)
    share = domed(x, 2 * long, long, long)
    return straight(x, high * share, wide * share)


def frustum(length, nose_mm, tail_mm):
    x = stations(length, 0, 0, middle=2)
    half = np.interp(x, [0, length], [nose_mm / 2, tail_mm / 2])
    return straight(x, half, half)


def torus(ring, pipe):
    """About the pull; its pipe drawn as a polygon of the same area."""
    circle = manifold3d.CrossSection.circle(1.0, 96)
    true = math.sqrt(math.pi / circle.area())
    return circle.scale((pipe * true,) * 2).translate((ring, 0.0)).revolve(256)


# Thickness seen along rays.


def test_a_box_is_as_thick_everywhere():
    # Closed form.
    for direction, thick in ((Direction.SIDE, 20), (Direction.PULL, 10), (Direction.NOSE, 30)):
        chord = seen(box(30, 20, 10), direction, 64).thick_mm
        assert np.allclose(chord[2:-2, 2:-2], thick, rtol=1e-6)


def test_a_ball_is_a_chord_thick():
    # Closed form: 2 sqrt(R^2 - rho^2).
    rays = crossings(triangles(ball(8)), Grid((-8.0, -8.0), 0.2, (80, 80)))
    x, z = np.meshgrid(rays.grid.middles(0), rays.grid.middles(1), indexing="ij")
    inside = np.hypot(x, z) < 7.5
    want = 2 * np.sqrt(64 - x**2 - z**2, where=inside, out=np.zeros_like(x))
    assert np.allclose(rays.chord()[inside], want[inside], atol=0.02)
    assert not rays.balance().any()


@pytest.mark.parametrize("direction", list(Direction))
def test_a_ring_has_its_hole_and_its_volume_from_all_sides(direction):
    # Pappus of Alexandria, Collection VII: 2 pi R · pi r^2.
    view = seen(torus(12, 3), direction, 256)
    assert view.volume_mm3 == pytest.approx(2 * math.pi * 12 * math.pi * 9, rel=5e-3)
    # Closed form: along its axis nothing in the middle, from the side the pipe twice.
    middle = view.thick_mm[128, view.grid.count[1] // 2]
    assert middle == pytest.approx(0 if direction is Direction.PULL else 12, abs=0.05)


def test_an_open_mesh_leaves_its_rays_unbalanced():
    # Closed form: a box of 10 by 10 columns without its lid.
    corners = triangles(box(10, 10, 4))
    lid = corners[:, :, 2].min(axis=1) > 1.9
    assert lid.sum() == 2
    rays = crossings(corners[~lid], Grid((-6.0, -6.0), 1.0, (12, 12)))
    assert np.count_nonzero(rays.balance()) == 100
    assert not crossings(corners, Grid((-6.0, -6.0), 1.0, (12, 12))).balance().any()


def test_rays_through_edges_and_corners_count_once():
    # Closed form: columns right on the diagonals and edges of the faces of a box.
    rays = crossings(triangles(box(10, 10, 4)), Grid((-5.5, -5.5), 1.0, (11, 11)))
    assert not rays.balance().any()
    assert set(np.round(rays.chord().ravel(), 9)) == {0.0, 4.0}
    # Each edge belongs to one side only: 10 of 11 columns along either axis.
    assert rays.chord().sum() == pytest.approx(4 * 10 * 10)


def test_the_map_of_a_bait_unpacks_to_its_rows():
    # Closed form: a slab of a tube without a skirt; at its middle twice the wall.
    inputs = ThicknessMapInput(
        family=Tube(diameter_mm=15, wall_mm=2.5, skirt_mm=0, slits=0), pixels=256
    )
    done = thickness_map(inputs)
    packed = np.frombuffer(base64.b64decode(done.thickness_base64), dtype="<f4")
    rows = packed.reshape(done.rows, done.columns)
    assert rows[done.rows // 2, done.columns // 2] == pytest.approx(5, rel=5e-3)
    assert done.volume_ml == pytest.approx(inputs.solid().volume() / 1000, rel=5e-3)
    assert rows.sum() * done.pixel_mm**2 / 1000 == pytest.approx(done.volume_ml, rel=1e-5)
    assert done.top_mm == pytest.approx(done.rows * done.pixel_mm / 2, rel=1e-6)
    assert done.left_mm == pytest.approx(0, abs=0.01)


def test_a_map_has_its_top_on_top_and_its_nose_on_the_left():
    # Closed form: a small box in front and above a large one.
    solid = box(20, 10, 10) + box(4, 4, 4, at=(-12, 0, 3))
    chord = seen(solid, Direction.SIDE, 240).thick_mm
    front = chord[5]
    assert front[front > 0] == pytest.approx(np.full((front > 0).sum(), 4), rel=1e-6)
    assert np.flatnonzero(front).mean() > 60


# Middle of mass.


def test_middle_of_a_cone():
    # Archimedes, The Method, lemmas (from memory); closed form: three quarters from the tip.
    x, y, z = center_mm(frustum(24, 0, 20))
    assert x == pytest.approx(18, rel=1e-4)
    assert abs(y) + abs(z) < 1e-6


def test_middle_of_half_a_ball():
    # Archimedes, The Method, proposition 6 (from memory); closed form: 3/8 r from the flat.
    half = ellipsoid(8, 8, 8).trim_by_plane((1.0, 0.0, 0.0), 8.0)
    assert center_mm(half)[0] - 8 == pytest.approx(3, rel=1e-3)


def test_middle_of_two_boxes():
    # Closed form: volumes 1000 and 3000, middles at (5, 0, 0) and (25, 6, -2).
    solid = box(10, 10, 10, at=(5, 0, 0)) + box(30, 10, 10, at=(25, 6, -2))
    assert center_mm(solid) == pytest.approx((20, 4.5, -1.5), rel=1e-5)


@pytest.mark.parametrize("family", [Craw(), PaddleTail(), Tube()])
def test_another_library_measures_the_same(family):
    # The trimesh library on the same triangles.
    mesh = family.solid().to_mesh()
    other = trimesh.Trimesh(
        np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts), process=False
    )
    done = measure(MeasureInput(family=family))
    assert done.volume_ml * 1000 == pytest.approx(other.volume, rel=1e-5)
    assert done.surface_cm2 * 100 == pytest.approx(other.area, rel=1e-5)
    ours = (done.center_x_mm, done.center_y_mm, done.center_z_mm)
    assert ours == pytest.approx(tuple(other.center_mass), abs=1e-3)


# Thickest place.


def test_a_fine_mesh_is_no_thicker_than_its_body():
    # Closed form: the least axis; the thicker of two bodies wins, wherever it lies.
    fine = Solid.sphere(8.0, 256).scale((4.0, 1.0, 0.8))
    pair = fine + fine.scale((1.0, 1.0, 0.9)).translate((90.0, 0.0, 0.0))
    place = thickest_place(pair.refine_to_length(0.8))
    assert place.diameter_mm == pytest.approx(12.8, rel=5e-3)
    assert abs(place.center_mm[0]) < 4


def test_a_ball_above_a_plate_is_the_thickest_place():
    # Closed form: the ball's own diameter; rays through it have met the plate before.
    place = thickest_place(box(40, 40, 2, at=(0, 0, -12)) + ball(8))
    assert place.diameter_mm == pytest.approx(16, rel=5e-3)


@pytest.mark.parametrize("halves", [(25, 6, 4), (100, 20, 8), (30, 29, 28)])
def test_a_ball_moves_to_where_it_grows_largest(halves):
    # Closed form: the least axis, however slowly the body swells toward its middle.
    place = thickest_place(ellipsoid(*halves))
    assert place.diameter_mm == pytest.approx(2 * min(halves), rel=1e-3)


# Undercuts.


@pytest.mark.parametrize(("radius", "apart"), [(9, 5), (10, 3), (8, 6)])
def test_two_balls_on_top_of_each_other(radius, apart):
    # Closed form: middles at z = ±a. A column is hollow beside the neck, whose radius is
    # sqrt(R^2 - a^2), so a^2 / R^2 of the shadow is; it reaches R - sqrt(R^2 - a^2) in.
    held = undercut(ball(radius, (0, 0, apart)) + ball(radius, (0, 0, -apart)))
    neck = math.sqrt(radius**2 - apart**2)
    assert held.share == pytest.approx(apart**2 / radius**2, abs=0.02)
    assert held.depth_mm == pytest.approx(radius - neck, abs=0.3)


def test_a_lid_on_a_post_holds_the_upper_half():
    # Closed form: 1 - a^2/b^2 of the shadow, b - a deep.
    post = Solid.cylinder(20.0, 5.0, circular_segments=128, center=True)
    lid = Solid.cylinder(3.0, 12.0, circular_segments=128).translate((0.0, 0.0, 8.0))
    held = undercut(post + lid)
    assert held.share == pytest.approx(1 - 25 / 144, abs=0.02)
    assert held.depth_mm == pytest.approx(7, abs=0.3)
    assert (held.caught, held.harmless) == (Caught.OVERHANG, False)
    # Turned over, the lower half is held instead.
    turned = undercut((post + lid).mirror((0.0, 0.0, 1.0)))
    assert turned.depth_mm == pytest.approx(held.depth_mm, abs=0.3)


def test_a_hollow_within_one_half_is_an_overhang_and_no_slot():
    # Closed form: a shelf 8 mm wide, its hollow above the parting plane, no blade could lie there.
    body = (
        box(40, 24, 10, at=(0, 0, -3)) + box(40, 8, 4, at=(0, -8, 4)) + box(40, 24, 4, at=(0, 0, 8))
    )
    held = undercut(body)
    assert held.caught is Caught.OVERHANG
    assert held.share == pytest.approx(16 / 24, abs=0.02)


def test_a_body_that_tapers_both_ways_is_free():
    assert undercut(ellipsoid(25, 6, 4)).caught is Caught.NOTHING
    assert undercut(box(30, 20, 10)).caught is Caught.NOTHING


def test_a_hole_along_the_pull_is_no_undercut():
    assert undercut(torus(12, 3)).caught is Caught.NOTHING


def test_a_bore_is_told_from_a_slot():
    body = box(60, 20, 16)
    bore = body - box(50, 10, 8, at=(10, 0, 0))
    slot = body - box(40, 10, 2, at=(0, 8, 0))
    assert undercut(bore).caught is Caught.BORE
    assert undercut(slot).caught is Caught.SLOT
    # Closed form: the slot is 7 mm deep, the bore reaches to the middle of the body.
    assert undercut(slot).depth_mm == pytest.approx(7, abs=0.4)
    assert undercut(bore).depth_mm == pytest.approx(10, abs=0.4)


# The order of filling.


def test_the_way_around_a_corner():
    # Closed form: two arms 50 long and 10 wide; straight to the inner corner, then straight on.
    slab = box(50, 10, 2, at=(25, 5, 0)) + box(10, 50, 2, at=(45, 25, 0))
    filled = filling_map(slab, (0.0, 0.0), pitch_mm=0.5)
    want = math.hypot(40, 10) + math.hypot(10, 40)
    assert filled.path_mm[filled.at((50.0, 50.0))] == pytest.approx(want, rel=WAY)
    assert filled.path_mm[filled.at((40.0, 0.0))] == pytest.approx(40, rel=WAY)


def test_the_cost_of_a_rod_and_of_a_taper():
    # White, Viscous Fluid Flow, 3rd ed. (2006), section 3-3: speed goes with gap squared.
    # Closed form: L / D^2; for a straight taper the integral is L / (D1 D2).
    rod, taper = frustum(100, 8, 8), frustum(80, 12, 4)
    for solid, end, want in ((rod, 100.0, 100 / 64), (taper, 80.0, 80 / 48)):
        filled = filling_map(solid, (0.0, 0.0), pitch_mm=0.15)
        assert filled.cost[filled.at((end, 0.0))] == pytest.approx(want, rel=0.05)


def test_the_cost_of_a_step():
    # Closed form: 30 / 4^2 + 20 / 1^2.
    step = box(30, 16, 4, at=(15, 0, 0)) + box(20, 16, 1, at=(40, 0, 0))
    filled = filling_map(step, (0.0, 0.0), pitch_mm=0.4)
    end = filled.cost[filled.at((50.0, 0.0))]
    assert end == pytest.approx(30 / 16 + 20, rel=0.04)
    assert filled.gap_mm[filled.at((15.0, 0.0))] == pytest.approx(4, rel=1e-6)
    assert filled.gap_mm[filled.at((40.0, 7.0))] == pytest.approx(1, rel=1e-6)


def test_an_upright_fin_is_as_thin_as_it_is_and_a_rim_as_thick_as_its_rod():
    # Closed form: 3 mm, however tall; 8 mm up to the rim.
    fin = filling_map(box(40, 3, 12), (-20.0, 0.0), pitch_mm=0.25)
    assert np.median(fin.gap_mm) == pytest.approx(3, abs=0.15)
    rod = filling_map(frustum(60, 8, 8), (0.0, 0.0), pitch_mm=0.25)
    within = (rod.xy[:, 0] > 8) & (rod.xy[:, 0] < 52)
    assert rod.gap_mm[within].min() == pytest.approx(8, rel=0.05)
    assert rod.gap_mm.max() == pytest.approx(8, rel=0.03)


def test_walls_above_each_other_are_as_thin_as_each():
    # Closed form: two plates of 2 mm; cubes over plain give 2, their sum would be 4.
    pair = box(40, 20, 2, at=(0, 0, 4)) + box(40, 20, 2, at=(0, 0, -4))
    filled = filling_map(pair, (-20.0, 0.0))
    assert np.median(filled.gap_mm) == pytest.approx(2, rel=1e-6)
    assert filled.volume_mm3 == pytest.approx(2 * 40 * 20 * 2, rel=0.01)


def test_half_of_a_rod_is_filled_at_half_its_length():
    # Closed form.
    filled = filling_map(frustum(100, 8, 8), (0.0, 0.0))
    places = np.array([[25.0, 0.0], [50.0, 0.0], [90.0, 0.0]])
    assert filled.order_at(places) == pytest.approx([0.25, 0.5, 0.9], abs=0.02)


def test_a_thin_arm_fills_after_a_thick_one_as_long():
    # Closed form: 20 / 1^2 against 20 / 5^2.
    thick, thin = box(20, 10, 5, at=(-10, 0, 0)), box(20, 10, 1, at=(10, 0, 0))
    filled = filling_map(thick + thin, (0.0, 0.0), pitch_mm=0.4)
    left, right = filled.order_at(np.array([[-19.9, 0.0], [19.9, 0.0]]))
    # The thick arm holds five sixths of the volume.
    assert left < right
    assert right == pytest.approx(1, abs=0.03)
    assert left < 5 / 6 + 0.1


def test_a_cross_ends_in_its_other_arms():
    # Closed form: arms of 30 by 6 mm; 60 mm straight on, 30 + 30 around an inner corner.
    cross = box(60, 6, 3) + box(6, 60, 3)
    filled = filling_map(cross, (-30.0, 0.0), pitch_mm=0.4)
    ends = filled.dead_ends(least_mm=8)
    assert len(ends) == 3
    far = {(round(e.x_mm / 30), round(e.y_mm / 30)): e for e in ends}
    assert set(far) == {(1, 0), (0, 1), (0, -1)}
    assert far[1, 0].path_mm == pytest.approx(60, rel=WAY)
    side = math.hypot(27, 3) + math.hypot(6, 27)
    assert far[0, 1].path_mm == pytest.approx(side, rel=WAY)
    assert far[0, 1].least_thick_mm == pytest.approx(3, abs=0.4)
    shorter = sorted(e.branch_mm for e in ends)[:2]
    assert shorter == pytest.approx([27, 27], abs=4)


def test_a_ring_ends_opposite_its_gate():
    # Closed form: around the hole, half a turn along its inner edge and two tangents.
    ring = torus(12, 3)
    filled = filling_map(ring, (-15.0, 0.0), pitch_mm=0.25)
    (end,) = filled.dead_ends()
    assert (end.x_mm, end.y_mm) == pytest.approx((15, 0), abs=0.6)
    tangent = math.sqrt(15**2 - 9**2)
    turn = math.pi - 2 * math.acos(9 / 15)
    assert end.path_mm == pytest.approx(2 * tangent + 9 * turn, rel=WAY)


def test_pieces_that_do_not_touch_are_not_reached():
    # Closed form: half of the volume.
    apart = box(10, 10, 4) + box(10, 10, 4, at=(30, 0, 0))
    filled = filling_map(apart, (0.0, 0.0))
    assert filled.unreached_share == pytest.approx(0.5, abs=0.01)
    assert filled.order[filled.at((30.0, 0.0))] == 1
    assert len(filled.dead_ends()) >= 1


def test_a_neck_thinner_than_the_grid_is_looked_at_more_closely():
    # Closed form: one piece, so all of it is reached; the neck lies between two rows of cells.
    pads = box(60, 60, 4) + box(60, 60, 4, at=(80, 0, 0)) + box(30, 0.5, 4, at=(40, 0.22, 0))
    coarse = filling_map(pads, (-30.0, 0.0), pitch_mm=0.775134)
    assert coarse.unreached_share == pytest.approx(0.5, abs=0.01)
    assert filling_map(pads, (-30.0, 0.0)).unreached_share < 1e-3


def test_a_disk_filled_from_its_middle_has_no_tips():
    # Closed form: the front meets the whole rim at once; the grid alone makes corners of it.
    disk = Solid.cylinder(3.0, 20.0, circular_segments=256, center=True)
    filled = filling_map(disk, (0.0, 0.0))
    assert len(filled.dead_ends()) <= 4
    assert filled.path_mm.max() == pytest.approx(20, abs=20 * WAY + filled.pitch_mm)


def test_a_fin_is_flat_and_a_rod_is_not():
    # Closed form: 12 by 2 mm against 4 by 4 mm.
    rod = box(20, 4, 4, at=(-10, 0, 0))
    fin = box(20, 12, 2, at=(10, 0, 0))
    (first, *_) = filling_map(rod + fin, (-20.0, 0.0)).dead_ends()
    (last, *_) = filling_map(rod, (-20.0, 0.0)).dead_ends()
    assert (first.flat, last.flat) == (True, False)


# The chain.


def volume(slices):
    return sum(math.pi / 4 * s.width_mm * s.thick_mm * s.length_mm * s.copies for s in slices)


def test_a_rod_is_a_chain_of_round_slices():
    # Closed form.
    rod = frustum(100, 8, 8)
    slices = chain(filling_map(rod, (0.0, 0.0)), 20, rod.volume())
    assert volume(slices) == pytest.approx(rod.volume(), rel=1e-9)
    assert sum(s.length_mm for s in slices) == pytest.approx(100, rel=0.01)
    for s in slices[2:-2]:
        assert s.width_mm == pytest.approx(8, rel=0.04)
        assert s.thick_mm == pytest.approx(8, rel=0.04)
        assert s.copies == 1


def test_a_strip_is_a_chain_of_flat_slices():
    # Closed form: an ellipse 2 mm thick of the area 12 · 2 is 15.28 mm wide.
    strip = box(100, 12, 2, at=(50, 0, 0))
    middle = chain(filling_map(strip, (0.0, 0.0)), 20, strip.volume())[10]
    assert middle.thick_mm == pytest.approx(2, rel=0.03)
    assert middle.width_mm == pytest.approx(4 * 24 / (math.pi * 2), rel=0.04)


def test_a_fork_fills_side_by_side():
    # Closed form: a handle of 30 mm, then three tines.
    tines = [box(40, 4, 4, at=(50, y, 0)) for y in (-12, 0, 12)]
    fork = box(30, 30, 4, at=(15, 0, 0))
    for tine in tines:
        fork = fork + tine
    slices = chain(filling_map(fork, (0.0, 0.0)), 20, fork.volume())
    assert [s.copies for s in slices[-5:-2]] == [3, 3, 3]
    assert slices[2].copies == 1
    assert slices[-4].thick_mm == pytest.approx(4, rel=0.06)
    assert volume(slices) == pytest.approx(fork.volume(), rel=1e-9)


# Balls under the skin.


def felt_at(solid):
    """Diameter of the ball that touches each vertex."""
    mesh = solid.to_mesh()
    points = np.asarray(mesh.vert_properties)[:, :3].astype(float)
    return 2 * skin_balls(points, np.asarray(mesh.tri_verts).astype(np.int64))[1]


def test_a_ball_is_its_diameter_thick_all_around():
    # Facets press the balls in a little, nowhere by a tenth.
    felt = felt_at(Solid.sphere(8.0, 48))
    assert np.median(felt) == pytest.approx(16, rel=0.03)
    assert 14.4 < felt.min() <= felt.max() < 16.01


def test_a_spheroid_is_as_thick_as_the_ball_on_its_axis():
    # Closed form: the normal at x meets the axis so that the ball there has the radius
    # b sqrt(1 - x^2 (a^2 - b^2) / a^4).
    a, b = 25.0, 5.0
    solid = ellipsoid(a, b, b)
    x = np.asarray(solid.to_mesh().vert_properties)[:, 0] - a
    want = 2 * b * np.sqrt(1 - x**2 * (a**2 - b**2) / a**4)
    middle = abs(x) < 0.7 * a
    assert felt_at(solid)[middle] == pytest.approx(want[middle], rel=0.02)


def test_a_plate_is_as_thick_as_it_is_away_from_its_edges():
    plate = box(40, 20, 3).refine_to_length(1.0)
    points = np.asarray(plate.to_mesh().vert_properties)[:, :3]
    inner = (abs(points[:, 0]) < 18) & (abs(points[:, 1]) < 8)
    felt = felt_at(plate)[inner]
    assert felt == pytest.approx(np.full(len(felt), 3), rel=0.02)


def test_any_solid_is_measured():
    # Closed form: a half ellipsoid's shadow, skin left out; nose where it comes first.
    done = measured(ellipsoid(25, 6, 4))
    assert done.volume_ml * 1000 == pytest.approx(4 / 3 * math.pi * 25 * 6 * 4, rel=5e-4)
    assert done.center_x_mm == pytest.approx(25, rel=1e-3)
    assert nose_xy(ellipsoid(25, 6, 4)) == pytest.approx((0, 0), abs=1e-6)
    (end,) = done.dead_ends
    assert end.x_mm == pytest.approx(50, abs=0.5)
    assert (done.undercut, done.undercut_share, done.undercut_mm) == ("", 0, 0)
