"""The move from a cup that stands in a known state: heat, wait, pour, or stop."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pourwright.base.draws import Draws
from pourwright.heat import cup as cups
from pourwright.heat.cup import BOTTOM, CORE, MEAN
from pourwright.heat.next_step import CLOSE_K, LOOK_COSTS_K, SHORT_K, SHORTEST_S, Next, next_move
from pourwright.heat.oven import drawn_oven
from pourwright.heat.standing import Held

DRAWS = Draws(count=80)
TARGET_C, LIMIT_C = 172.0, 200.0


def held(
    mean_c, *, fused=0.95, power_w=480.0, spread_k=0.5, ahead_k=0.0, plastic_kg=0.498, follows=0.6
):
    cup = cups.filled_cup(
        plastic_kg=plastic_kg,
        cold_g_ml=DRAWS.known(1.05),
        glass_kg=DRAWS.known(0.42),
        diameter_m=DRAWS.known(0.089),
    )
    oven = drawn_oven(
        DRAWS,
        power_w=DRAWS.known(power_w),
        loss=DRAWS.known(1.0),
        surface_offset_k=DRAWS.known(0.0),
        reading_bias_k=DRAWS.known(0.0),
        heat_ratio=DRAWS.known(1.0),
        ambient_c=DRAWS.known(22.0),
    )
    start = cups.cold_start(mean_c + spread_k * DRAWS.scores("mean"))
    shares = np.zeros_like(start.fused)
    shares[CORE], shares[MEAN], shares[BOTTOM] = 1.0, fused, fused / 2
    state = replace(
        start,
        glass_c=DRAWS.known(22 + follows * (mean_c - 22)),
        ahead_k=DRAWS.known(ahead_k),
        gelled=np.maximum(shares, float(mean_c > 90)),
        fused=shares,
    )
    return Held(state, cup, oven, np.zeros_like(oven.power_w))


def move(now, *, looked_twice=False, limit_c=LIMIT_C):
    return next_move(
        now, target_c=TARGET_C, limit_c=limit_c, handling_s=10.0, looked_twice=looked_twice
    )


@pytest.mark.parametrize(
    ("mean_c", "do"),
    [(165, Next.HEAT), (170.5, Next.HEAT), (172, Next.POUR), (174, Next.POUR), (176, Next.WAIT)],
)
def test_on_target_it_pours_and_on_each_side_it_does_not(mean_c, do):
    assert move(held(mean_c)).do is do


def test_unfused_plastic_is_not_poured():
    assert move(held(172, fused=0.6)).do is Next.HEAT
    assert move(held(172, fused=0.9)).do is Next.POUR


def test_a_second_look_costs_heat_but_no_further_round():
    once, twice = (
        move(held(TARGET_C - SHORT_K - LOOK_COSTS_K / 2), looked_twice=b).do for b in (False, True)
    )
    assert (once, twice) == (Next.HEAT, Next.POUR)
    # A cup a little too warm may be looked at once more, which cools it; then it waits.
    warm_c = TARGET_C + CLOSE_K + LOOK_COSTS_K / 2
    assert move(held(warm_c)).do is Next.POUR
    assert move(held(warm_c), looked_twice=True).do is Next.WAIT


def test_a_doubtful_mean_is_no_reason_for_another_round():
    assert move(held(169.8, spread_k=0.5)).do is Next.HEAT
    assert move(held(169.8, spread_k=5.0)).do is Next.POUR


def test_waiting_ends_near_the_target():
    waits = move(held(178))
    assert waits.do is Next.WAIT
    assert not waits.limited
    assert waits.after.mean_c[0] == pytest.approx(TARGET_C + 0.5, abs=0.4)
    assert move(held(174.5), looked_twice=True).for_s >= 10
    assert move(held(230)).for_s == 300


def test_a_hot_spot_near_the_limit_is_waited_for():
    waits = move(held(165, ahead_k=16.0), limit_c=178.0)
    assert (waits.do, waits.limited) == (Next.WAIT, True)
    assert move(held(165, ahead_k=10.0), limit_c=178.0).do is not Next.WAIT
    # Once it is on the target and fused, pouring ends it.
    assert move(held(172, ahead_k=8.0), limit_c=178.0).do is Next.POUR


def test_a_burst_is_never_shorter_than_the_clock_can_do():
    small = move(held(169, plastic_kg=0.15, power_w=900.0))
    assert (small.do, small.for_s) == (Next.HEAT, SHORTEST_S)
    assert move(held(165)).for_s > SHORTEST_S


def test_a_burst_ends_on_its_aim():
    bursts = [move(held(float(c))) for c in range(140, 166, 2)]
    assert {b.do for b in bursts} == {Next.HEAT}
    # The rested, stirred cup ends on the target or a little above, to the second.
    ends = np.array([b.after.mean_c[0] for b in bursts])
    assert TARGET_C - 0.5 < ends.min() < ends.max() < TARGET_C + 2.2
    assert all(b.hot.mean_c[0] > b.after.mean_c[0] for b in bursts)
    assert move(held(150, power_w=300.0)).for_s > 1.5 * move(held(150)).for_s


@pytest.mark.parametrize(("mean_c", "do"), [(150, Next.STOP), (171, Next.POUR)])
def test_where_no_burst_is_safe_it_stops_or_pours(mean_c, do):
    small = held(mean_c, ahead_k=3.0, fused=0.9, power_w=1500.0, plastic_kg=0.05, follows=0.97)
    stuck = move(small)
    assert (stuck.do, stuck.limited) == (do, True)
