"""How long a hot cup that just stands stays pourable, beside a body that cools as one."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from pourwright.base.draws import Draws
from pourwright.heat import cup as cups
from pourwright.heat.oven import drawn_oven
from pourwright.heat.pourable import LEAST_POUR_C, pourable_s
from pourwright.heat.standing import Held
from pourwright.matter import glass
from pourwright.matter.plastisol import heat_capacity_j_kgk
from pourwright.physics.convection import top_film, wall_film

DRAWS = Draws(count=40)
ROOM_C, HALF_AN_HOUR_S = 22.0, 1800.0
WIDE_M, GLASS_KG, TABLE_W_M2K = 0.089, 0.42, 3.0


def held(mean_c: float, *, plastic_kg: float = 0.5, glass_c: float | None = None,
         spread_k: float = 0.0) -> Held:  # fmt: skip
    cup = cups.filled_cup(
        plastic_kg=plastic_kg,
        cold_g_ml=DRAWS.known(1.05),
        glass_kg=DRAWS.known(GLASS_KG),
        diameter_m=DRAWS.known(WIDE_M),
    )
    oven = drawn_oven(
        DRAWS,
        power_w=DRAWS.known(480.0),
        loss=DRAWS.known(1.0),
        surface_offset_k=DRAWS.known(0.0),
        reading_bias_k=DRAWS.known(0.0),
        heat_ratio=DRAWS.known(1.0),
        ambient_c=DRAWS.known(ROOM_C),
    )
    start = cups.hot_start(mean_c + spread_k * DRAWS.scores("mean"))
    glass_now = mean_c if glass_c is None else glass_c
    state = replace(start, glass_c=DRAWS.known(glass_now))
    return Held(state, cup, oven, np.zeros_like(oven.power_w))


def typical(now: Held, least_c: float = LEAST_POUR_C) -> float:
    return float(pourable_s(now, least_c)[0])


def lumped_s(now: Held) -> float:
    """Seconds for plastic and glass to cool as one body, from now to what still pours.

    The glass stays as far behind as it is; the losses are those halfway.
    Source: Incropera and DeWitt, 6th ed., sec. 5.1: the excess over the room fades with C/(hA).
    """
    cup, hot_c = now.cup, float(now.state.mean_c[0])
    halfway_c = (hot_c + LEAST_POUR_C) / 2
    behind = (float(now.state.glass_c[0]) - ROOM_C) / (hot_c - ROOM_C)
    glass_c = ROOM_C + behind * (halfway_c - ROOM_C)
    plastic_j_k = float(heat_capacity_j_kgk(np.array(halfway_c))) * float(cup.plastic_kg)
    heat_j_k = plastic_j_k + behind * GLASS_KG * glass.HEAT_CAPACITY_J_KGK.typical
    face = {"air_c": 25.0, "emissivity": glass.EMISSIVITY}
    top = float(top_film(np.array(halfway_c), diameter_m=WIDE_M, **face))
    side = float(wall_film(np.array(glass_c), height_m=cup.height_m, **face))
    top_m2, side_m2 = float(cup.top_m2[0]), float(cup.side_m2[0])
    loss_w_k = top * top_m2 + (side * side_m2 + TABLE_W_M2K * top_m2) * behind
    return heat_j_k / loss_w_k * math.log((hot_c - ROOM_C) / (LEAST_POUR_C - ROOM_C))


@pytest.mark.parametrize("plastic_kg", [0.25, 0.5, 0.9])
def test_a_warm_cup_cools_as_one_body_with_its_glass(plastic_kg):
    fresh = held(190.0, plastic_kg=plastic_kg, glass_c=165.0)
    settled = cups.advance(fresh.state, fresh.cup, fresh.oven, 120.0, on=False)
    now = replace(fresh, state=settled)
    assert 165 < settled.mean_c[0] < 185
    # Losses halfway stand in for those of the whole fall, and the glass is not quite settled yet.
    assert typical(now) == pytest.approx(lumped_s(now), rel=0.08)


def test_a_cup_colder_than_what_pours_pours_no_longer():
    assert typical(held(LEAST_POUR_C)) == 0.0
    assert typical(held(LEAST_POUR_C - 5)) == 0.0
    assert typical(held(LEAST_POUR_C + 0.5)) > 0.0


def test_the_fall_goes_on_from_any_moment_of_it():
    now = held(172.0)
    at_once = typical(now)
    later = replace(now, state=cups.advance(now.state, now.cup, now.oven, 60.0, on=False))
    assert typical(later) == pytest.approx(at_once - 60.0, abs=1.5)


def test_more_plastic_and_a_hotter_cup_and_a_warm_glass_pour_longer():
    assert typical(held(172.0, plastic_kg=0.2)) < typical(held(172.0)) < typical(held(176.0))
    assert typical(held(172.0, glass_c=60.0)) < typical(held(172.0, glass_c=150.0))


def test_half_an_hour_is_the_longest_it_says():
    assert typical(held(250.0, plastic_kg=2.5)) == HALF_AN_HOUR_S
    assert typical(held(172.0), least_c=ROOM_C - 1) == HALF_AN_HOUR_S


def test_every_draw_has_its_own_time():
    now = held(158.0, spread_k=3.0)
    seconds = pourable_s(now)
    assert ((seconds == 0.0) == (now.state.mean_c <= LEAST_POUR_C)).all()
    assert 0 < (seconds == 0.0).sum() < len(seconds)
    hotter = pourable_s(replace(now, state=replace(now.state, mean_c=now.state.mean_c + 2)))
    assert (hotter[seconds > 0] > seconds[seconds > 0]).all()
