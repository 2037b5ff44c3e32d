"""Promises that every bait family keeps."""

from __future__ import annotations

import itertools
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.base.field import fields_of
from pourwright.base.record import from_json, to_json
from pourwright.body.families import FAMILIES
from pourwright.body.measure import OUTLINE_POINTS, MeasureInput, measure

steady = settings(derandomize=True, deadline=None, max_examples=20)
slow = settings(derandomize=True, deadline=None, max_examples=8)

every = pytest.mark.parametrize("family", FAMILIES.values(), ids=FAMILIES)


def usual(field, family):
    """Measures from half to twice the default; a detail is left out or off as well."""
    spec, default = field.spec, getattr(family(), field.name)
    if default is None:
        return st.sampled_from([None, 0])
    low, high = max(spec.low, default / 2), min(spec.high, default * 2)
    if field.shape == "whole":
        return st.integers(math.ceil(low), math.floor(high))
    return st.floats(low, high)


@st.composite
def baits(draw):
    """A bait whose every measure lies within half to twice its default."""
    family = draw(st.sampled_from(list(FAMILIES.values())))
    values = {field.name: draw(usual(field, family)) for field in fields_of(family)}
    try:
        return family(**values)
    except BadInput:
        assume(False)
        raise


def corners(family, most):
    """Up to so many baits of least, usual and greatest measures, drawn in a fixed order."""
    draws = np.random.default_rng(6)
    fields = fields_of(family)
    ends = [(f.default, f.spec.low, f.spec.high) for f in fields]
    found: dict[Any, None] = {}
    for _ in range(6000):
        picked = [end[k] for end, k in zip(ends, draws.integers(0, 3, len(ends)), strict=True)]
        try:
            bait = family(**{f.name: v for f, v in zip(fields, picked, strict=True)})
        except BadInput:
            continue
        found[bait] = None
        if len(found) == most:
            break
    return list(found)


def is_one_closed_solid(bait):
    solid = bait.solid()
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    assert solid.volume() > 0
    assert solid.genus() >= 0
    assert len(solid.decompose()) == 1
    assert low[0] == pytest.approx(0, abs=1e-4)
    # The mold parts at z = 0, through the middle of the bait.
    assert low[2] == pytest.approx(-high[2], rel=1e-4)
    assert solid.volume() < np.prod(high - low)
    if hasattr(bait, "length_mm"):
        assert high[0] == pytest.approx(bait.length_mm, rel=1e-5)
    else:
        assert high[0] > bait.body_length_mm


@steady
@given(baits())
def test_a_family_makes_one_closed_solid_as_long_as_stated(bait):
    is_one_closed_solid(bait)


@every
def test_corners_make_one_closed_solid(family):
    found = corners(family, 9)
    assert len(found) == 9
    for bait in found:
        is_one_closed_solid(bait)


@every
def test_a_family_needs_no_more_than_its_name(family):
    solid = family().solid()
    assert solid.genus() == 0
    # What a page can draw and a mold can take.
    assert 2_000 < solid.num_tri() < 40_000
    inputs = from_json(MeasureInput, {"family": {"kind": family.key}})
    assert inputs.solid().volume() == solid.volume()


@every
def test_a_family_that_needs_a_core_pin_says_what_it_shapes(family):
    bait = family()
    core = bait.core()
    assert family.core_pin == (core is not None)
    if core is not None:
        # Less the pin, what is around it is the bait and the cuts made later.
        assert (bait.solid() - (core.around - core.pin)).volume() < 1e-3 * bait.solid().volume()


def longer(bait, factor):
    """The same bait, longer by a factor."""
    name = "length_mm" if hasattr(bait, "length_mm") else "body_length_mm"
    values = to_json(bait) | {name: getattr(bait, name) * factor}
    return rebuilt(bait, values)


def rebuilt(bait, values):
    values.pop("kind")
    try:
        return type(bait)(**values)
    except BadInput:
        assume(False)
        raise


@steady
@given(baits(), st.floats(1.01, 1.5))
def test_longer_is_more(bait, factor):
    assert longer(bait, factor).solid().volume() > bait.solid().volume()


@steady
@given(baits(), st.floats(0.7, 1.4))
def test_scaling_all_measures_scales_the_volume_by_the_cube(bait, factor):
    scaled = rebuilt(bait, sized(bait, factor))
    want = bait.solid().volume() * factor**3
    # Cutters of the tube keep their reach past the end, which no volume sees.
    assert scaled.solid().volume() == pytest.approx(want, rel=2e-4)


def sized(bait, factor):
    """Every stated length of a bait, times a factor."""
    return {
        name: value * factor if name.endswith("_mm") and value is not None else value
        for name, value in to_json(bait).items()
    }


# Measures that take plastic away as they grow; all others in mm add some.
TAKING = {"ring_depth_mm", "eye_mm", "gill_mm", "slot_mm", "slit_mm", "skirt_mm"}
# Measures that say where one part ends and the next begins, or only bend the bait.
MOVING = {
    "nose_mm", "fork_mm", "claw_length_mm", "trunk_mm", "curl_radius_mm", "swing_mm", "span_mm",
    "tail_swing_mm", "wing_mm", "feeler_mm", "leg_mm", "sac_mm", "paddle_thick_mm",
}  # fmt: skip


@every
def test_every_thicker_measure_weighs_more(family):
    bait = family()
    thicker = [
        f.name
        for f in fields_of(family)
        if f.name.endswith("_mm") and f.default is not None and f.name not in TAKING | MOVING
    ]
    assert len(thicker) >= 2
    for name in thicker:
        more = type(bait)(**{name: getattr(bait, name) * 1.04})
        assert more.solid().volume() > bait.solid().volume() * 1.0005, name


DETAILS = [
    (family, name, sign)
    for family in FAMILIES.values()
    for name, sign in [
        ("ring_depth_mm", -1), ("rings", -1), ("eye_mm", -1), ("gill_mm", -1), ("sac_mm", 1),
        ("feeler_mm", 1), ("wing_mm", 1), ("leg_mm", 1), ("leg_pairs", 1), ("slits", -1),
    ]
    if name in {f.name for f in fields_of(family)}
]  # fmt: skip


@pytest.mark.parametrize(("family", "name", "sign"), DETAILS)
def test_a_detail_at_zero_is_off(family, name, sign):
    # Rings, eyes and slits take plastic away, bands and limbs add it: some, but not much.
    bare, full = family(**{name: 0}).solid().volume(), family().solid().volume()
    assert 0.0004 < sign * (full - bare) / bare < 0.3


def overhang(half):
    """Share of the shadow of a half that hangs over nothing: a level not within the one below."""
    high = half.bounding_box()[5]
    levels = [half.slice(float(z)) for z in np.linspace(0.002, 0.998, 25) * high]
    over = [(up - low).area() for low, up in itertools.pairwise(levels)]
    return sum(over) / half.project().area()


def halves(solid):
    upper, lower = solid.split_by_plane((0.0, 0.0, 1.0), 0.0)
    return upper, lower.mirror((0.0, 0.0, 1.0))


@every
def test_two_halves_come_off_every_bait_without_a_core_pin(family):
    worst = max(overhang(half) for half in halves(family().solid()))
    if family.core_pin:
        assert worst > 0.1
    else:
        assert worst < 1e-4


@pytest.mark.parametrize("key", ["paddle_tail", "split_tail_minnow"])
def test_a_hook_slot_needs_a_blade_between_the_halves(key):
    family: Any = FAMILIES[key]
    slot, whole = family(slot_mm=5).solid(), family().solid()
    assert max(overhang(half) for half in halves(slot)) > 0.005
    # The slot opens toward the belly and leaves both flanks whole.
    gone = whole - slot
    back, belly = gone.split_by_plane((0.0, 1.0, 0.0), 0.0)
    assert belly.volume() > 100
    assert back.volume() < 0.01
    flank = gone.trim_by_plane((0.0, 0.0, 1.0), 0.1 * whole.bounding_box()[5] * 2)
    assert flank.volume() < 1e-3 * gone.volume()


@pytest.mark.parametrize(
    ("key", "values"),
    [
        ("paddle_tail", {"length_mm": 30, "paddle_height_mm": 10, "paddle_thick_mm": 2}),
        ("split_tail_minnow", {"length_mm": 36, "fork_mm": 9, "span_mm": 9}),
    ],
)
def test_the_eyes_of_a_short_fat_fish_do_not_meet(key, values):
    family: Any = FAMILIES[key]
    bait = family(height_mm=18, width_mm=18, eye_mm=8, **values)
    is_one_closed_solid(bait)
    assert bait.solid().genus() == 0


BOTH_SIDES_ALIKE = [
    ("worm", {}), ("stick", {}), ("ribbon_tail_worm", {"bends": 0}), ("double_tail_grub", {}),
    ("craw", {}), ("creature", {}), ("tube", {}), ("lizard", {"tail_swing_mm": 0}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "values"), BOTH_SIDES_ALIKE)
def test_left_is_right(key, values):
    solid = FAMILIES[key](**values).solid()
    assert (solid - solid.mirror((0.0, 1.0, 0.0))).volume() < 1e-3 * solid.volume()


@every
def test_the_lower_half_is_the_upper_half(family):
    # All but the eyes of a lizard, which look up.
    bait = family(eye_mm=0) if family.key == "lizard" else family()
    solid = bait.solid()
    assert (solid - solid.mirror((0.0, 0.0, 1.0))).volume() < 1e-3 * solid.volume()


@slow
@given(baits())
def test_measures_agree_with_each_other(bait):
    done = measure(MeasureInput(family=bait))
    volume, surface = done.volume_ml * 1000, done.surface_cm2 * 100
    # Of all bodies the ball has the least skin for its volume.
    assert surface**3 >= 36 * math.pi * volume**2
    assert math.pi / 6 * done.thickest_mm**3 < volume
    slimmest = min(done.length_mm, done.width_mm, done.height_mm)
    assert 0 < done.thickest_mm <= slimmest * 1.005
    assert 0 < done.thickest_at_mm < done.length_mm
    assert done.shadow_cm2 * 100 <= done.length_mm * done.width_mm
    assert volume <= done.shadow_cm2 * 100 * done.height_mm
    assert 2 * done.shadow_cm2 <= done.surface_cm2


@slow
@given(baits())
def test_the_outline_is_the_shadow(bait):
    done = measure(MeasureInput(family=bait))
    assert sum(len(ring) for ring in done.outline_mm) <= OUTLINE_POINTS
    area = 0.0
    for ring in done.outline_mm:
        x, y = np.array(ring).T
        area += 0.5 * float(x @ np.roll(y, -1) - y @ np.roll(x, -1))
    # A few points stand for a hundred rings and legs.
    assert area / 100 == pytest.approx(done.shadow_cm2, rel=0.03)


@pytest.mark.parametrize("key", ["worm", "curl_tail_grub", "craw", "tube"])
def test_thickest_place_does_not_change_with_size(key):
    family = FAMILIES[key]
    values = sized(family(), 1.3)
    values.pop("kind")
    small, large = (measure(MeasureInput(family=b)) for b in (family(), family(**values)))
    assert large.thickest_mm == pytest.approx(1.3 * small.thickest_mm, rel=5e-3)
    assert large.thickest_shape is small.thickest_shape


@steady
@given(baits())
def test_json_round_trip(bait):
    inputs = MeasureInput(family=bait)
    assert from_json(MeasureInput, to_json(inputs)) == inputs


@every
@pytest.mark.parametrize("nonsense", [math.nan, math.inf, -math.inf, True, "9", None, -1, 1e9])
def test_nonsense_is_refused_by_name(family, nonsense):
    for field in fields_of(family):
        if nonsense is None and field.optional:
            continue
        with pytest.raises(BadInput, match=rf"^family\.{field.name}: "):
            from_json(MeasureInput, {"family": {"kind": family.key, field.name: nonsense}})


@every
def test_unknown_measures_are_refused_by_name(family):
    with pytest.raises(BadInput, match=r"^family\.girth_mm: is not known"):
        from_json(MeasureInput, {"family": {"kind": family.key, "girth_mm": 9}})


IMPOSSIBLE = [
    ("worm", {"ring_depth_mm": 3}, "ring_depth_mm"),
    ("worm", {"sac_mm": 9}, "sac_mm"),
    ("worm", {"sac_mm": 15}, "sac_mm"),
    ("stick", {"sac_mm": 9}, "sac_mm"),
    ("stick", {"ring_depth_mm": 2.6}, "ring_depth_mm"),
    ("ribbon_tail_worm", {"diameter_mm": 50}, "diameter_mm"),
    ("ribbon_tail_worm", {"body_length_mm": 180}, "body_length_mm"),
    ("ribbon_tail_worm", {"root_mm": 11}, "root_mm"),
    ("ribbon_tail_worm", {"ribbon_thick_mm": 6}, "ribbon_thick_mm"),
    ("ribbon_tail_worm", {"ribbon_width_mm": 40}, "ribbon_width_mm"),
    ("ribbon_tail_worm", {"swing_mm": 60}, "swing_mm"),
    ("ribbon_tail_worm", {"sac_mm": 3}, "sac_mm"),
    ("ribbon_tail_worm", {"ring_depth_mm": 3}, "ring_depth_mm"),
    ("curl_tail_grub", {"ring_depth_mm": 4}, "ring_depth_mm"),
    ("double_tail_grub", {"ring_depth_mm": 4}, "ring_depth_mm"),
    ("double_tail_grub", {"body_length_mm": 12}, "body_mm"),
    ("double_tail_grub", {"root_mm": 14}, "root_mm"),
    ("double_tail_grub", {"tail_thick_mm": 5}, "tail_thick_mm"),
    ("double_tail_grub", {"tail_width_mm": 10}, "tail_width_mm"),
    ("double_tail_grub", {"curl_radius_mm": 4, "tail_width_mm": 3}, "root_mm"),
    ("paddle_tail", {"eye_mm": 7}, "eye_mm"),
    ("paddle_tail", {"gill_mm": 2}, "gill_mm"),
    ("paddle_tail", {"slot_mm": 11}, "slot_mm"),
    ("split_tail_minnow", {"stem_mm": 13}, "stem_mm"),
    ("split_tail_minnow", {"height_mm": 60}, "height_mm"),
    ("split_tail_minnow", {"width_mm": 60}, "width_mm"),
    ("split_tail_minnow", {"fork_mm": 40}, "fork_mm"),
    ("split_tail_minnow", {"fork_mm": 8}, "fork_mm"),
    ("split_tail_minnow", {"span_mm": 8}, "span_mm"),
    ("split_tail_minnow", {"span_mm": 41}, "span_mm"),
    ("split_tail_minnow", {"tail_thick_mm": 5}, "tail_thick_mm"),
    ("split_tail_minnow", {"eye_mm": 7}, "eye_mm"),
    ("craw", {"feeler_mm": 30}, "feeler_mm"),
    ("craw", {"ring_depth_mm": 3}, "ring_depth_mm"),
    ("creature", {"body_length_mm": 95}, "body_length_mm"),
    ("creature", {"body_length_mm": 30}, "body_length_mm"),
    ("creature", {"body_width_mm": 40}, "body_width_mm"),
    ("creature", {"body_thick_mm": 15}, "body_thick_mm"),
    ("creature", {"body_thick_mm": 4}, "body_thick_mm"),
    ("creature", {"flapper_width_mm": 40}, "flapper_width_mm"),
    ("creature", {"flapper_width_mm": 20}, "flapper_width_mm"),
    ("creature", {"flapper_thick_mm": 6}, "flapper_thick_mm"),
    ("creature", {"wing_mm": 5}, "wing_mm"),
    ("creature", {"feeler_mm": 80}, "feeler_mm"),
    ("creature", {"ring_depth_mm": 3}, "ring_depth_mm"),
    ("lizard", {"trunk_mm": 110}, "trunk_mm"),
    ("lizard", {"body_mm": 30}, "body_mm"),
    ("lizard", {"thick_mm": 18}, "thick_mm"),
    ("lizard", {"thick_mm": 5}, "thick_mm"),
    ("lizard", {"head_mm": 10}, "head_mm"),
    ("lizard", {"head_mm": 22}, "head_mm"),
    ("lizard", {"tail_mm": 12}, "tail_mm"),
    ("lizard", {"tail_swing_mm": 30}, "tail_swing_mm"),
    ("lizard", {"leg_mm": 10}, "leg_mm"),
    ("lizard", {"leg_mm": 45}, "leg_mm"),
    ("lizard", {"eye_mm": 4}, "eye_mm"),
]


@pytest.mark.parametrize(("key", "values", "field"), IMPOSSIBLE)
def test_measures_that_do_not_go_together_are_refused_by_name(key, values, field):
    with pytest.raises(BadInput, match=rf"^family\.{field}: .*\b(is|must|leaves|bends|curls)\b"):
        from_json(MeasureInput, {"family": {"kind": key, **values}})


def test_no_two_families_look_alike():
    looks = {(f.key, f.label) for f in FAMILIES.values()}
    assert len({key for key, _ in looks}) == len({label for _, label in looks}) == len(FAMILIES)
    assert all(FAMILIES[key].key == key for key in FAMILIES)
