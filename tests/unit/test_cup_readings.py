"""The reduced cup: what instruments read off it, what the oven gives it, and its replay."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pourwright.base.draws import Draws
from pourwright.heat import cup as cups
from pourwright.heat.belief import prior
from pourwright.heat.cup import heat_content, q95, taken_up_w
from pourwright.heat.history import Did, Step
from pourwright.heat.oven import believed_oven
from pourwright.heat.replay import Fill, Replay, replay, traced
from pourwright.heat.surface import unstirred_c
from pourwright.matter.plastisol import heat_capacity_j_kgk

DRAWS = Draws(count=20)
ROOM = DRAWS.known(22.0)
FILL = Fill(498.0, 22.0, 22.0, 420.0, 89.0, 1.052)
OVEN = believed_oven(
    DRAWS,
    prior(label_w=700.0, label_spread=0.0, water=(), bias_k=None),
    plastic_kg=0.5,
    ambient_c=ROOM,
)


def replayed(*steps: Step) -> Replay:
    return replay(FILL, steps, OVEN, DRAWS.known(0.1), start_k=0 * ROOM, bursts={})


def heated(seconds: float) -> Step:
    return Step(did=Did.HEATED, for_s=seconds)


def test_a_bias_adds_to_every_reading():
    state = cups.cold_start(DRAWS.known(160.0))
    high = replace(OVEN, reading_bias_k=OVEN.reading_bias_k + 2, probe_bias_k=OVEN.probe_bias_k + 3)
    for read, bias in ((cups.reading, 2), (cups.stirring_reading, 2), (cups.probe_reading, 3)):
        assert read(state, high) - read(state, OVEN) == pytest.approx(DRAWS.known(bias))
    assert cups.probe_reading(state, OVEN)[0] == pytest.approx(160)
    assert cups.stirring_reading(state, OVEN)[0] < 160


def test_a_hot_face_differs_more_than_a_cold_one():
    at = np.array([40.0, 75.0, 165.0])
    apart = unstirred_c(at, np.full(3, 9.0)) - unstirred_c(at, np.zeros(3))
    assert apart == pytest.approx([0.9, 2.97, 9.0])
    # Before a stir the face is warmer than the mean at the gel, colder when hot.
    assert unstirred_c(at, np.zeros(3)) == pytest.approx([40, 79, 158])


def test_the_tilt_turns_about_a_hundred_degrees():
    steep = replace(OVEN, power_tilt=DRAWS.known(0.1))
    share = [float((taken_up_w(steep, DRAWS.known(c)) / steep.power_w)[0]) for c in (50, 100, 180)]
    assert share == pytest.approx([0.95, 1.0, 1.08])
    falling = replace(OVEN, power_tilt=DRAWS.known(-2.0))
    assert taken_up_w(falling, DRAWS.known(180.0)) == pytest.approx(falling.power_w / 3)


def test_the_95th_percentile_leaves_the_typical_draw_out():
    values = np.concatenate([[900.0], np.random.default_rng(3).normal(size=160)])
    # Linear between order statistics: Hyndman and Fan, Am. Stat. 50 (1996), definition 7.
    assert q95(values) == pytest.approx(np.quantile(values[1:], 0.95))
    assert q95(np.stack([values, values + 1]))[1] == pytest.approx(q95(values) + 1)


@pytest.mark.parametrize(("added_c", "cooked"), [(22.0, False), (119.0, False), (150.0, True)])
def test_what_is_added_brings_its_heat_and_its_past(added_c, cooked):
    ones = np.ones((3, 21))
    hot = replace(
        cups.cold_start(DRAWS.known(160.0)), gelled=ones, fused=0.8 * ones, dose=DRAWS.known(0.4)
    )
    after = cups.added_to(hot, 0.3, 0.1, added_c)
    # First law: what the one gives off the other takes up.
    gave = 0.3 * (heat_content(hot.mean_c) - heat_content(after.mean_c))
    took = 0.1 * (heat_content(after.mean_c) - heat_content(np.array(added_c)))
    assert gave == pytest.approx(took)
    assert after.fused[0, 0] == pytest.approx(0.6 + 0.25 * cooked)
    assert after.gelled[0, 0] == pytest.approx(0.75 + 0.25 * cooked)
    assert after.dose[0] == pytest.approx(0.4 if cooked else 0.3)


def test_the_first_two_seconds_give_no_power():
    cold, short, long = (replayed(heated(s)).state.mean_c[0] for s in (2, 32, 62))
    assert cold == pytest.approx(22, abs=1e-9)
    assert (long - 22) / (short - 22) == pytest.approx(60 / 30, rel=0.05)
    # The sealed rise by P·t = m·c·dT, less what glass and air take.
    watts = float(OVEN.power_w[0])
    rise = watts * 0.97 * 30 / (0.498 * float(heat_capacity_j_kgk(np.array(30.0))))
    assert 0.9 * rise < short - 22 < rise


def test_the_hottest_so_far_is_kept():
    rest = Step(did=Did.RESTED, for_s=900)
    first = replayed(heated(300))
    later = replayed(heated(300), Step(did=Did.STIRRED), rest, heated(5))
    assert later.peak_c == pytest.approx(first.peak_c)
    assert later.state.hottest_c[0] < first.peak_c[0] - 10


@pytest.mark.parametrize("seconds", [600, 3600, 7200])
def test_long_rests_may_be_told_in_long_steps(seconds):
    cup = FILL.cup(0.498, ROOM)
    hot = cups.cold_start(DRAWS.known(165.0))
    trace = [(0.0, hot.mean_c)]
    told = traced(trace, hot, cup, OVEN, seconds, on=False)
    fine = cups.advance(hot, cup, OVEN, seconds, on=False, step_s=1.0)
    assert np.abs(told.mean_c - fine.mean_c).max() < 1.2
    assert trace[-1][0] == pytest.approx(seconds)
    assert len(trace) < 75
    assert [at for at, _ in trace] == sorted({at for at, _ in trace})


@pytest.mark.parametrize(("glass_g", "step_s"), [(20.0, 5.0), (20.0, 30.0), (420.0, 10.0)])
def test_thin_glass_in_long_steps_is_as_in_short_ones(glass_g, step_s):
    fill = replace(FILL, glass_g=glass_g)
    cup, hot = fill.cup(0.498, ROOM), cups.cold_start(DRAWS.known(165.0))
    coarse, fine = (
        cups.advance(hot, cup, OVEN, 120, on=False, step_s=s).mean_c for s in (step_s, 0.1)
    )
    assert np.abs(coarse - fine).max() < 0.5
