"""When the molds of a pour may be opened, as they were really filled and emptied.

That a warmer mold takes longer, and by how much, is checked against the exact series in the tests
of cooling; here it is checked that the pour asks that physics the right question.
"""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.base.record import from_json
from pourwright.forecast.mold_in_use import Use, open_after_s
from pourwright.forecast.request import BatchRequest
from pourwright.plan.batch import plan_batch
from pourwright.plan.opening import _bench, opening

REQUEST = from_json(BatchRequest, dict(plan_batch.example))
PLAN = plan_batch(REQUEST)
SHOT_G = sum({c.layer: c.shot_g or 0.0 for c in PLAN.cups}.values())
DAY_S = 86_400.0


def after(*uses: tuple[float, float | None]) -> float:
    """Typical seconds from the last filling, of uses in seconds."""
    return opening(REQUEST, SHOT_G, tuple(Use(*u) for u in uses)).typical


def in_a_row(shots: int, *, rest_s: float = 60.0, longer_s: float = 0.0) -> list[float]:
    """Opening times of a mold that is opened when it is firm and filled again after a rest."""
    uses: list[tuple[float, float | None]] = []
    found, now = [], 0.0
    for _ in range(shots):
        found.append(after(*uses, (now, None)))
        opened = now + found[-1] + longer_s
        uses.append((now, opened))
        now = opened + rest_s
    return found


def test_the_first_shot_opens_when_the_sheet_says_it_does():
    # Consistency, not evidence: the plan asks the same physics with draws of its own.
    planned = next(f.value for f in PLAN.figures if f.key == "open_s")
    found = opening(REQUEST, SHOT_G, (Use(0.0),))
    assert found.typical == pytest.approx(planned.typical, rel=0.01)
    assert found.low == pytest.approx(planned.low, rel=0.15)
    assert found.high == pytest.approx(planned.high, rel=0.15)


def test_only_the_time_since_the_filling_counts_on_a_cold_mold():
    assert after((0.0, None)) == after((5000.0, None))


def test_a_mold_at_work_is_warmer_at_every_shot_and_its_bait_never_sooner_firm():
    times = in_a_row(30)
    assert times == sorted(times)
    assert times[3] > 1.1 * times[0]
    # It settles: heat lost to the bench grows until it balances a shot.
    steps = np.diff(times)
    assert steps[-1] < 0.3 * steps[0]


def test_a_longer_rest_and_a_later_opening_cool_the_mold():
    assert in_a_row(4, rest_s=600.0)[-1] < in_a_row(4)[-1]
    assert in_a_row(4, longer_s=900.0)[-1] < in_a_row(4)[-1]


def test_after_a_night_the_mold_is_as_cold_as_the_room():
    rested = after((0.0, 200.0), (260.0, 500.0), (DAY_S, None))
    longer = after((0.0, 200.0), (260.0, 500.0), (3 * DAY_S, None))
    assert rested == pytest.approx(longer, rel=1e-6)
    assert rested <= after((0.0, None))


def test_every_draw_is_a_time_above_nothing():
    bench = _bench(REQUEST, round(SHOT_G, 1))
    seconds = open_after_s(bench, (Use(0.0, 150.0), Use(200.0)))
    assert (seconds > 0).all()
    assert seconds.shape == bench.mold_c.shape


def test_clocks_that_overlap_count_as_no_rest():
    assert after((0.0, 300.0), (250.0, None)) == after((0.0, 300.0), (300.0, None))


def test_a_mold_that_was_opened_has_no_opening_to_come():
    with pytest.raises(ValueError, match="opened already"):
        opening(REQUEST, SHOT_G, (Use(0.0, 200.0),))
