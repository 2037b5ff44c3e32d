"""The closed loop in small: the product cooks in an independent kitchen.

The long bench (`run.py speed heat`) prints the whole table; here a few ovens must keep well inside
it, since luck weighs more. Nothing of the kitchen is the product's own; see `speed.kitchen`.
"""

from __future__ import annotations

import numpy as np
import pytest
from speed.heat.loop import loop
from speed.heat.peers import fixed
from speed.heat.scenario import SCENARIOS

OVENS = list(range(900, 906))


@pytest.fixture(scope="module", params=[0, 1], ids=["limit 200", "limit 180"])
def cooked(request):
    scenario = SCENARIOS[request.param]
    return scenario, loop(OVENS, scenario, cups=2)


def test_forecasts_hold(cooked):
    _, record = cooked
    first = [b for b in record.bursts if (b.cup, b.number) == (0, 2)]
    assert rms(first) < 10
    crossing = [b for b in record.bursts if b.cup == 1 and b.from_c < 90 and b.to_c > 115]
    finishing = [b for b in record.bursts if b.cup == 1 and b.from_c > 135]
    assert rms(crossing) < 6
    assert rms(finishing) < 3.5
    assert np.mean([b.inside for b in record.bursts]) > 0.8


def test_cups_end_on_target_under_the_limit(cooked):
    _, record = cooked
    assert not any(c.over for c in record.cups)
    assert all(c.poured for c in record.cups)
    off = np.array([c.off_k for c in record.cups])
    assert np.mean(np.abs(off) <= 3) >= 0.75
    assert np.abs(off).max() < 6
    assert np.median([c.rounds for c in record.cups]) <= 4.5


def test_better_than_a_fixed_schedule(cooked):
    scenario, record = cooked
    peers = fixed(OVENS, scenario).cups
    mine = np.std([c.off_k for c in record.cups if c.cup == 0])
    assert mine < 0.6 * np.std([c.off_k for c in peers])


def test_one_wild_reading_does_no_harm():
    record = loop(OVENS, SCENARIOS[4], cups=1)
    assert not any(c.over for c in record.cups)
    assert sum(c.doubts for c in record.cups) >= len(OVENS) - 1
    assert np.abs([c.off_k for c in record.cups]).max() < 6


def rms(bursts):
    assert len(bursts) >= 5
    return float(np.sqrt(np.mean([b.miss_k**2 for b in bursts])))
