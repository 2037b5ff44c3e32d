"""Heat to the room in the kitchen that judges the estimator, against printed values."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import erfcx
from speed import kitchen
from speed.kitchen.air import floor_w_m2k, surface_w_m2k, wall_w_m2k
from speed.kitchen.plastic import conductivity_w_mk, density_kg_m3

from kitchen_bench import POUR_G, changed, drawn, ones, plain_air, still, tight


def test_wall_convects_as_the_textbook_plate():
    # Incropera and DeWitt, Example 9.2: a plate 0.71 m tall and 1.02 m wide, 232 °C in 23 °C,
    # 1060 W.
    per_m2k = wall_w_m2k(plain_air(23), ones(1, 232), ones(1, 0.71))
    assert per_m2k[0] * 0.71 * 1.02 * (232 - 23) == pytest.approx(1060, rel=5e-3)


def test_surface_convects_as_the_textbook_duct_top():
    # Incropera and DeWitt, Example 9.3: a face up, area over perimeter 0.375 m, 45 °C in 15 °C,
    # h = 5.47 W/m2K (printed value from memory).
    per_m2k = surface_w_m2k(plain_air(15), ones(1, 45), ones(1, 0.75))
    assert per_m2k[0] == pytest.approx(5.47, rel=0.01)


def test_small_faces_convect_as_the_papers_say():
    # Lloyd and Moran 1974: Nu = 0.54 Ra^(1/4) facing up below Ra 1e7; Radziemska and Lewandowski
    # 2001: Nu = 0.52 Ra^(1/5) facing down. Air at 350 K from Incropera and DeWitt, Table A.4.
    hot_c, air_c, size_m = 400.15 - 273.15, 299.85 - 273.15, 0.0225
    rayleigh = 9.80665 / 350 * (hot_c - air_c) * size_m**3 / (20.92e-6 * 29.9e-6)
    for face, nusselt in (
        (surface_w_m2k, 0.54 * rayleigh**0.25),
        (floor_w_m2k, 0.52 * rayleigh**0.2),
    ):
        per_m2k = face(plain_air(air_c), ones(1, hot_c), ones(1, 2 * size_m))
        assert per_m2k[0] == pytest.approx(nusselt * 0.030 / size_m, rel=2e-3)


def test_wall_radiates_as_the_textbook_bead():
    # Incropera and DeWitt, Example 5.4: emissivity 0.8, 150 °C toward 25 °C, 8.8 W/m2K.
    per_m2k = wall_w_m2k(plain_air(25, emits=0.8, fan=0), ones(1, 150), ones(1, 0.1))
    assert per_m2k[0] == pytest.approx(8.8, abs=0.06)


def test_each_face_of_the_cup_cools():
    # Areas by hand: outside of wall and rim, inside of rim, underside, surface.
    cups = kitchen.fresh_cups(drawn(3), 0, POUR_G, 150)
    ovens, hot = cups.ovens, ones(3, 150)
    room, glass = ovens.room, ovens.glass
    outer_m = glass.inner_m + glass.wall_m
    wall_m2 = 2 * np.pi * outer_m * (glass.floor_m + glass.tall_m)
    wall_m2 += 2 * np.pi * glass.inner_m * (glass.tall_m - cups.level_m) * room.open_top
    expected = (
        wall_m2 * wall_w_m2k(room, hot, glass.tall_m)
        + np.pi * outer_m**2 * floor_w_m2k(room, hot, outer_m)
        + np.pi * glass.inner_m**2 * surface_w_m2k(room, hot, glass.inner_m)
    ) * (150 - room.temp_c)
    lost_w = kitchen.rest(cups, 0.1).lost_j / 0.1
    np.testing.assert_allclose(lost_w, expected, rtol=0.02)


def test_surface_grows_a_skin_as_a_thick_body_does():
    # Incropera and DeWitt, sec. 5.7, case 3: a thick body that suddenly loses heat by h, its face
    # at h sqrt(a t) / k. Only radiation here, h taken at the mean of the face so far.
    ovens = changed(
        tight(still(drawn(3))), room={"plastic_emits": 0.9, "open_top": 1, "temp_c": 20}
    )
    plastic, seconds = ovens.plastic, 15
    face = kitchen.surface_c(
        kitchen.rest(kitchen.fresh_cups(ovens, 0, POUR_G, 170), seconds, step_s=0.1)
    )
    mean_k, air_k = (2 * face + 170) / 3 + 273.15, 293.15
    h = 0.9 * 5.670374e-8 * (mean_k**2 + air_k**2) * (mean_k + air_k)
    conduct = conductivity_w_mk(plastic, ones(3, 170))
    spread = conduct / (density_kg_m3(plastic, ones(3, 170)) * plastic.heat_j_kgk)
    drop = 1 - erfcx(h * np.sqrt(spread * seconds) / conduct)
    np.testing.assert_allclose((170 - face) / 150, drop, rtol=0.05)


def test_an_oven_without_power_is_a_draft_of_its_own_warmth():
    idle = {"power_w": 1e-9, "air_rise_k": 12}
    cool = changed(drawn(1), oven=idle, room={"temp_c": 20})
    cups = kitchen.heat(kitchen.fresh_cups(cool, 0, POUR_G, 20), 60)
    assert cups.lost_j[0] < 0
    lost = [
        kitchen.heat(
            kitchen.fresh_cups(changed(cool, oven={"fan": fan}), 0, POUR_G, 150), 20
        ).lost_j[0]
        for fan in (1, 2)
    ]
    assert 1.2 < lost[1] / lost[0] < 2
