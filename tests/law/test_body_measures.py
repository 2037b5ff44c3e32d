"""What every family keeps when it is measured, mapped and filled."""

from __future__ import annotations

import functools
import math

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.record import from_json
from pourwright.body.chain import chain
from pourwright.body.families import FAMILIES
from pourwright.body.families.tube import Tube
from pourwright.body.filling import filling_map, nose_xy
from pourwright.body.measure import MeasureInput, measure
from pourwright.body.thickness_map import Direction, seen
from pourwright.body.undercut import Caught, undercut
from pourwright.fill.branch import BranchPart
from pourwright.fill.slice import SlicePart, chain_of

every_family = pytest.mark.parametrize("key", list(FAMILIES))


@functools.cache
def solid_of(key):
    return FAMILIES[key]().solid()


@functools.cache
def filled_of(key):
    return filling_map(solid_of(key), nose_xy(solid_of(key)))


@every_family
@pytest.mark.parametrize("direction", list(Direction))
def test_a_map_is_balanced_and_keeps_the_volume(key, direction):
    view = seen(solid_of(key), direction, 256)
    assert view.unbalanced == 0
    assert view.thick_mm.min() >= 0
    assert view.volume_mm3 == pytest.approx(solid_of(key).volume(), rel=5e-3)


@every_family
def test_all_of_a_bait_is_filled_from_its_nose(key):
    filled = filled_of(key)
    assert filled.unreached_share < 1e-3
    assert filled.volume_mm3 == pytest.approx(solid_of(key).volume(), rel=0.01)
    assert filled.order[filled.at(nose_xy(solid_of(key)))] == pytest.approx(0, abs=1e-3)
    assert 0.99 < filled.order.max() <= 1
    assert (filled.gap_mm > 0).all()


@every_family
def test_the_front_only_moves_on(key):
    filled = filled_of(key)
    reached = np.flatnonzero(filled.before >= 0)
    before = filled.before[reached]
    assert (filled.cost[before] < filled.cost[reached]).all()
    assert (filled.order[before] <= filled.order[reached]).all()
    step = np.hypot(*(filled.xy[before] - filled.xy[reached]).T)
    assert step.max() <= math.sqrt(5) * filled.pitch_mm * (1 + 1e-9)


@every_family
def test_the_gap_is_no_more_than_the_thickest_place(key):
    thickest = measure(MeasureInput(family=FAMILIES[key]())).thickest_mm
    assert filled_of(key).gap_mm.max() == pytest.approx(thickest, rel=0.08)


@every_family
def test_dead_ends_lie_at_the_end_of_their_way(key):
    filled = filled_of(key)
    ends = filled.dead_ends()
    assert ends
    assert [e.order for e in ends] == sorted((e.order for e in ends), reverse=True)
    for end in ends:
        assert end.least_thick_mm <= end.thick_mm
        assert 0 < end.branch_mm <= end.path_mm
        assert end.path_mm >= math.dist((end.x_mm, end.y_mm), nose_xy(solid_of(key))) - 1
        around = np.hypot(*(filled.xy - (end.x_mm, end.y_mm)).T) < 1.5 * filled.pitch_mm
        assert filled.cost[end.cell] == filled.cost[around].max()


@pytest.mark.parametrize("key", ["double_tail_grub", "lizard"])
def test_a_turned_bait_fills_the_same(key):
    mirrored = solid_of(key).mirror((0.0, 1.0, 0.0))
    here, there = filled_of(key), filling_map(mirrored, nose_xy(mirrored))
    assert len(there.dead_ends()) == pytest.approx(len(here.dead_ends()), abs=1)
    assert there.path_mm.max() == pytest.approx(here.path_mm.max(), rel=0.01)


@pytest.mark.parametrize("key", ["curl_tail_grub", "craw"])
def test_a_bait_twice_as_large_fills_in_the_same_order(key):
    large = solid_of(key).scale((2.0, 2.0, 2.0))
    here, there = (
        filled_of(key),
        filling_map(large, nose_xy(large), pitch_mm=2 * filled_of(key).pitch_mm),
    )
    assert there.path_mm == pytest.approx(2 * here.path_mm, rel=1e-3)
    assert there.gap_mm == pytest.approx(2 * here.gap_mm, rel=1e-3)
    assert there.cost == pytest.approx(here.cost / 2, rel=1e-3)
    assert there.order == pytest.approx(here.order, abs=1e-4)


@every_family
def test_the_chain_holds_the_bait_and_fits_the_odds_of_a_full_shot(key):
    filled = filled_of(key)
    slices = chain(filled, 40, solid_of(key).volume())
    taken = tuple(
        from_json(
            SlicePart,
            {
                "length_mm": s.length_mm,
                "width_mm": s.width_mm,
                "thick_mm": s.thick_mm,
                "copies": s.copies,
            },
        )
        for s in slices
    )
    held = chain_of(taken).volume_m3.sum() * 1e9
    assert held == pytest.approx(solid_of(key).volume(), rel=1e-6)
    longest = filled.path_mm[np.isfinite(filled.path_mm)].max()
    assert sum(s.length_mm for s in slices) == pytest.approx(longest, abs=filled.pitch_mm)


@every_family
def test_dead_ends_fit_the_odds_of_a_full_shot(key):
    for end in filled_of(key).dead_ends():
        BranchPart(
            path_mm=end.path_mm,
            least_thick_mm=end.least_thick_mm,
            branch_mm=end.branch_mm,
            flat=end.flat,
        )


@every_family
def test_a_core_pin_is_found_where_the_family_asks_for_one(key):
    found = undercut(solid_of(key)).caught is Caught.BORE
    assert found == FAMILIES[key].core_pin
    assert ("core pin" in measure(MeasureInput(family=FAMILIES[key]())).undercut) == found


@settings(max_examples=8, deadline=None, derandomize=True)
@given(wall=st.floats(1.0, 5.0), nose=st.floats(6.0, 40.0), slits=st.sampled_from([0, 2, 4, 8, 12]))
def test_a_core_pin_is_found_in_any_tube(wall, nose, slits):
    tube = Tube(wall_mm=wall, nose_mm=nose, slits=slits, skirt_mm=30)
    assert undercut(tube.solid()).caught is Caught.BORE


@every_family
def test_the_middle_lies_within_and_moves_along(key):
    done = measure(MeasureInput(family=FAMILIES[key]()))
    low, high = np.array(solid_of(key).bounding_box()).reshape(2, 3)
    middle = np.array([done.center_x_mm, done.center_y_mm, done.center_z_mm])
    assert (low < middle).all()
    assert (middle < high).all()
    # Families are even about the parting plane.
    assert middle[2] == pytest.approx(0, abs=0.02)


@settings(max_examples=10, deadline=None, derandomize=True)
@given(
    sizes=st.tuples(st.floats(20, 60), st.floats(6, 20), st.floats(2, 12)),
    at=st.tuples(st.floats(-9, 9), st.floats(-9, 9)),
)
def test_a_box_fills_away_from_its_gate(sizes, at):
    box = manifold3d.Manifold.cube(sizes, center=True).translate((*at, 0.0))
    filled = filling_map(box, (at[0] - sizes[0] / 2, at[1]), pitch_mm=0.5)
    far = np.hypot(*(filled.xy - (at[0] - sizes[0] / 2, at[1])).T)
    assert (filled.path_mm >= far - 0.75).all()
    assert (filled.path_mm <= 1.03 * far + 0.75).all()
    order = filled.order_at(
        np.array([[at[0] + share * sizes[0], at[1]] for share in (-0.4, 0, 0.4)])
    )
    assert (np.diff(order) > 0.2).all()
