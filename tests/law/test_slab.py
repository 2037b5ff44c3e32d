"""What light in a slab obeys whatever the slab."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.color.slab import Placing, reflectance, transmittance
from pourwright.color.viewer import Flaked, Viewer
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import BANDS, white_xyz, xyz_of

steady = settings(derandomize=True, deadline=None, max_examples=80)
DEPTHS = st.one_of(st.just(0.0), st.floats(1e-6, 500))
GROUNDS = st.floats(0, 0.99)
PLACINGS = st.sampled_from(list(Placing))


def seen(absorb: float, scatter: float, ground: float, placing: Placing) -> float:
    return float(reflectance(np.array(absorb), np.array(scatter), np.array(ground), placing))


@steady
@given(DEPTHS, DEPTHS, GROUNDS, PLACINGS)
def test_no_slab_makes_light(absorb, scatter, ground, placing):
    assert 0 <= seen(absorb, scatter, ground, placing) <= 1
    assert 0 <= float(transmittance(np.array(absorb), np.array(scatter), placing)) <= 1


@steady
@given(DEPTHS, DEPTHS, GROUNDS, PLACINGS, st.floats(1, 10))
def test_more_absorber_is_never_lighter(absorb, scatter, ground, placing, more):
    # An endless slab is brought down to the table's edge, where neighbors differ by its grid.
    assert seen(absorb * more, scatter, ground, placing) <= (
        seen(absorb, scatter, ground, placing) + 5e-4
    )


@steady
@given(DEPTHS, DEPTHS, GROUNDS, GROUNDS, PLACINGS)
def test_a_lighter_ground_is_never_darker(absorb, scatter, one, two, placing):
    dark, light = sorted((one, two))
    assert seen(absorb, scatter, dark, placing) <= seen(absorb, scatter, light, placing) + 1e-6


@steady
@given(DEPTHS, st.floats(0, 200), st.floats(1, 10))
def test_over_black_more_scatter_is_never_darker(absorb, scatter, more):
    less, lots = (seen(absorb, scatter * m, 0.0, Placing.CONTACT) for m in (1, more))
    assert lots >= less - 5e-4


@steady
@given(DEPTHS, DEPTHS, GROUNDS)
def test_in_the_hand_there_is_no_ground(absorb, scatter, ground):
    assert seen(absorb, scatter, ground, Placing.HAND) == pytest.approx(
        seen(absorb, scatter, 0.0, Placing.AIR_GAP), abs=1e-6
    )


@steady
@given(
    st.lists(st.floats(0.001, 2), min_size=BANDS, max_size=BANDS), st.floats(0.01, 3),
    st.floats(0.5, 30), GROUNDS, PLACINGS,
)  # fmt: skip
def test_the_fast_view_is_the_slow_one(absorb, scatter, thick, ground, placing):
    a, s = np.array(absorb), np.full(BANDS, scatter)
    slow = reflectance(a * thick, s * thick, np.array(ground), placing)
    viewer = Viewer(thick_mm=thick, ground=ground, placing=placing)
    column = [v.astype(np.float32)[:, None] for v in (a, s)]
    fast = viewer.reflectances(column[0], column[1])
    assert fast[:, 0] == pytest.approx(slow, abs=3e-4)
    lab = lab_of(xyz_of(slow), white_xyz())
    assert viewer.labs(fast)[0, 0] == pytest.approx(lab, abs=0.15)


def test_many_columns_look_as_each_does_alone():
    random = np.random.default_rng(3)
    absorb, scatter = (random.uniform(0.01, 1, (BANDS, 5000)).astype(np.float32) for _ in range(2))
    viewer = Viewer(
        thick_mm=6, ground=0.8, placing=Placing.CONTACT, flaked=Flaked(0.05, np.full(BANDS, 0.6))
    )
    every = viewer.reflectances(absorb, scatter)
    some = viewer.reflectances(absorb[:, 1234:1236], scatter[:, 1234:1236])
    assert every[:, 1234:1236] == pytest.approx(some, abs=1e-6)
