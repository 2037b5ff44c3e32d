"""Promises that every bait family keeps."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.base.field import fields_of
from pourwright.base.record import from_json, to_json
from pourwright.body.families import FAMILIES
from pourwright.body.measure import OUTLINE_POINTS, MeasureInput, measure

steady = settings(derandomize=True, deadline=None, max_examples=40)
slow = settings(derandomize=True, deadline=None, max_examples=15)

every = pytest.mark.parametrize("family", FAMILIES.values(), ids=FAMILIES)


@st.composite
def baits(draw):
    """A bait whose every measure lies within half to twice its default."""
    family = draw(st.sampled_from(list(FAMILIES.values())))
    values = {}
    for field in fields_of(family):
        usual = getattr(family(), field.name)
        low, high = max(field.spec.low, usual / 2), min(field.spec.high, usual * 2)
        whole = field.shape == "whole"
        values[field.name] = draw(
            st.integers(math.ceil(low), math.floor(high)) if whole else st.floats(low, high)
        )
    try:
        return family(**values)
    except BadInput:
        assume(False)
        raise


def corners(family):
    """Every combination of least, usual and greatest measures that makes a bait."""
    fields = fields_of(family)
    ends = [(f.spec.low, f.default, f.spec.high) for f in fields]
    for values in itertools.product(*ends):
        try:
            yield family(**{f.name: v for f, v in zip(fields, values, strict=True)})
        except BadInput:
            continue


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


@steady
@given(baits())
def test_a_family_makes_one_closed_solid(bait):
    is_one_closed_solid(bait)


@every
def test_corners_make_one_closed_solid(family):
    every_corner = list(corners(family))
    assert len(every_corner) >= 9
    # A fixed spread of them: all would take minutes.
    for bait in every_corner[:: max(1, len(every_corner) // 24)]:
        is_one_closed_solid(bait)


@steady
@given(baits())
def test_a_ruler_reads_the_stated_length(bait):
    assume(hasattr(bait, "length_mm"))
    low_x, _, _, high_x, _, _ = bait.solid().bounding_box()
    assert high_x - low_x == pytest.approx(bait.length_mm, rel=1e-5)


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
    values = {
        name: value * factor if name.endswith("_mm") else value
        for name, value in to_json(bait).items()
    }
    scaled = rebuilt(bait, values)
    want = bait.solid().volume() * factor**3
    # Cutters of the tube keep their reach past the end, which no volume sees.
    assert scaled.solid().volume() == pytest.approx(want, rel=2e-4)


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
    assert area / 100 == pytest.approx(done.shadow_cm2, rel=0.02)


@every
def test_thickest_place_does_not_change_with_size(family):
    usual = family()
    values = {
        name: value * 1.3 if name.endswith("_mm") else value
        for name, value in to_json(usual).items()
        if name != "kind"
    }
    small, large = (measure(MeasureInput(family=b)) for b in (usual, family(**values)))
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
        with pytest.raises(BadInput, match=rf"^family\.{field.name}: "):
            from_json(MeasureInput, {"family": {"kind": family.key, field.name: nonsense}})


@every
def test_unknown_measures_are_refused_by_name(family):
    with pytest.raises(BadInput, match=r"^family\.girth_mm: is not known"):
        from_json(MeasureInput, {"family": {"kind": family.key, "girth_mm": 9}})


def test_no_two_families_look_alike():
    looks = {(f.key, f.label) for f in FAMILIES.values()}
    assert len({key for key, _ in looks}) == len({label for _, label in looks}) == len(FAMILIES)
    assert all(FAMILIES[key].key == key for key in FAMILIES)
