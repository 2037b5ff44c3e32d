"""Rounds in the microwave and the table for paper, told on one small oven."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest

from pourwright.base.draws import Draws
from pourwright.heat import cup as cups
from pourwright.heat.coupling import CookReading, CouplingInput, belief_of
from pourwright.heat.cup import Cup, State, q95
from pourwright.heat.oven import Oven, believed_oven
from pourwright.heat.round import next_bursts, rounds

NO_LIMIT_C = 320.0


@pytest.fixture(scope="module")
def small_oven() -> tuple[Cup, Oven, State]:
    draws = Draws()
    reading = CookReading(plastic_g=498, on_s=360, surface_c=170)
    belief = belief_of(CouplingInput(label_w=700, readings=(reading,)))
    room = draws.known(22.0)
    cup = cups.filled_cup(
        plastic_kg=0.498,
        cold_g_ml=draws.known(1.052),
        glass_kg=draws.known(0.42),
        diameter_m=draws.known(0.089),
    )
    return (
        cup,
        believed_oven(draws, belief, plastic_kg=0.498, ambient_c=room),
        cups.cold_start(room),
    )


def test_without_a_limit_few_rounds_do(small_oven):
    cup, oven, start = small_oven
    found = rounds(cup, oven, start, target_c=172, limit_c=NO_LIMIT_C)
    assert 2 <= len(found) <= 3
    # The first ends as the gel begins, and may not pass it on most draws.
    assert 60 < found[0].after.mean_c[0] < 75
    assert np.mean(found[0].after.mean_c[1:] > 75) < 0.15
    # The last ends on the target once it has rested, so it is switched off above it.
    assert found[-1].hot.mean_c[0] > 172.5
    assert found[-1].after.mean_c[0] == pytest.approx(172, abs=1.5)
    assert not any(r.limited for r in found)


def test_a_cautious_limit_makes_more_rounds(small_oven):
    cup, oven, start = small_oven
    found = rounds(cup, oven, start, target_c=165, limit_c=180)
    free = rounds(cup, oven, start, target_c=165, limit_c=NO_LIMIT_C)
    assert len(free) < len(found) <= 5
    assert found[1].limited
    assert max(q95(r.hot.hottest_c) for r in found) <= 180
    assert found[-1].after.mean_c[0] == pytest.approx(165, abs=1.5)
    # Each burst starts from what the one before left, read again and carried back.
    for before, after in itertools.pairwise(found):
        assert 0.1 < before.after.mean_c[0] - after.before.mean_c[0] < 2


def test_hot_cup_needs_no_gel_stop(small_oven):
    cup, oven, start = small_oven
    warm = rounds(cup, oven, start, target_c=172, limit_c=NO_LIMIT_C)[0].after
    again = rounds(cup, oven, warm, target_c=172, limit_c=NO_LIMIT_C)
    assert again[0].hot.mean_c[0] > 140


def test_table_agrees_with_the_rounds(small_oven):
    cup, oven, start = small_oven
    second = rounds(cup, oven, start, target_c=172, limit_c=NO_LIMIT_C)[1]
    reads = float(cups.reading(second.before, oven)[0])
    row = next_bursts(cup, oven, readings_c=(reads,), target_c=172, limit_c=NO_LIMIT_C)[0]
    assert row.on_s == pytest.approx(second.on_s, abs=20)
    assert row.low_s < row.on_s < row.high_s < 1.3 * row.on_s


def test_after_the_stir_at_six_minutes(small_oven):
    # Common practice, no source: 30 to 45 s more, from some 165 °C after the stir.
    cup, oven, _ = small_oven
    rows = next_bursts(cup, oven, readings_c=(155.0, 160.0, 178.0), target_c=172, limit_c=200)
    assert 30 <= rows[1].on_s <= 45 <= rows[0].on_s <= 60
    assert (rows[2].on_s, rows[2].high_s, rows[2].limited) == (0, 0, False)


def test_limited_rows_say_so(small_oven):
    cup, oven, _ = small_oven
    row = next_bursts(cup, oven, readings_c=(120.0,), target_c=172, limit_c=170)[0]
    free = next_bursts(cup, oven, readings_c=(120.0,), target_c=172, limit_c=NO_LIMIT_C)[0]
    assert row.limited
    assert not free.limited
    assert row.high_s < free.low_s
    assert np.isfinite(row.on_s)


def test_a_gun_that_reads_high_leaves_the_rounds_where_they_are(small_oven):
    cup, oven, start = small_oven
    high = replace(oven, reading_bias_k=oven.reading_bias_k + 4)
    one, other = (rounds(cup, it, start, target_c=172, limit_c=NO_LIMIT_C) for it in (oven, high))
    assert [r.on_s for r in one] == [r.on_s for r in other]
    assert one[1].before.mean_c[0] == pytest.approx(other[1].before.mean_c[0])


def test_a_row_over_the_limit_heats_not_at_all(small_oven):
    cup, oven, _ = small_oven
    row = next_bursts(cup, oven, readings_c=(165.0,), target_c=172, limit_c=150)[0]
    assert (row.on_s, row.low_s, row.high_s, row.limited) == (0, 0, 0, True)
