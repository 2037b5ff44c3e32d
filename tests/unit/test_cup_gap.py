"""What the reduced cup leaves out of the one in two dimensions, against what it carries for it."""

from __future__ import annotations

import measure_cup_gap
import numpy as np
import pytest

from pourwright.heat.learn import BURST_SPREAD
from pourwright.heat.oven import BOTTOM_LAG, HOT_FACTOR, POWER_TILT


@pytest.fixture(scope="module")
def bursts():
    return [b for seed in range(10) for b in measure_cup_gap.heated(np.random.default_rng(seed))]


def test_the_power_it_needs_stays_within_its_burst_noise(bursts):
    # A cup's three bursts may need other powers; tilt and burst noise together carry that.
    tilt = POWER_TILT.band.half_width / 1.645
    carried = np.hypot(BURST_SPREAD, tilt * 0.4)
    apart = [
        np.std([np.log(b.power_ratio) for b in bursts[i : i + 3]]) for i in range(0, len(bursts), 3)
    ]
    assert np.sqrt(np.mean(np.square(apart))) < 1.3 * carried
    assert np.mean(apart) > 0.3 * BURST_SPREAD


def test_hot_and_cold_places_lie_within_their_bands(bursts):
    later = [b for b in bursts if b.number > 0]
    core = np.array([b.core_factor for b in later])
    assert HOT_FACTOR.band.low - 0.06 < np.median(core) < HOT_FACTOR.band.high
    # The hot side is what the limit rests on.
    assert np.mean(core > HOT_FACTOR.band.high) <= 0.05
    bottom = np.array([b.bottom_share for b in later])
    assert np.mean((bottom > BOTTOM_LAG.band.low) & (bottom < BOTTOM_LAG.band.high)) > 0.75
