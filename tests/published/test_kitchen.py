"""The kitchen that judges the estimator: do its cups obey closed forms and what makers see?"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import j0, j1, jn_zeros
from speed import kitchen
from speed.kitchen.field import LOAD_KG
from speed.kitchen.grid import RINGS, ROW_EDGE
from speed.kitchen.plastic import conductivity_w_mk, density_kg_m3

from kitchen_bench import POUR_G, START_C, changed, drawn, ones, still, tight


def test_all_power_is_found_again_as_warmth_of_the_plastic():
    # Closed form: m c dT = P t, with P m / (m + m_h) scaled to half a kilogram and no power while
    # the oven warms up.
    ovens = changed(still(tight(drawn(3))), oven={"drift_per_k": 0, "glass_share": 0})
    oven = ovens.oven
    for kg in (0.25, 0.6):
        cups = kitchen.fresh_cups(ovens, 0, kg * 1e3, START_C)
        hot = kitchen.heat(cups, 100.7)
        load = kg / (kg + oven.half_load_kg) * (LOAD_KG + oven.half_load_kg) / LOAD_KG
        joules = cups.share * oven.power_w * load * (100.7 - oven.warm_up_s)
        rise = joules / (kg * ovens.plastic.heat_j_kgk)
        np.testing.assert_allclose(kitchen.mean_c(hot) - START_C, rise, rtol=1e-3)
        np.testing.assert_allclose(hot.lost_j, 0, atol=1e-6)


@pytest.mark.parametrize("prepared", [tight, lambda ovens: ovens])
def test_books_close_over_a_whole_cook(prepared):
    cups = kitchen.fresh_cups(prepared(drawn(6)), 1, POUR_G, START_C)
    before = kitchen.held_j(cups)
    cups = kitchen.rest(kitchen.stir(kitchen.heat(cups, 150)), 20)
    cups = kitchen.add(cups, np.array([0, 10, 20, 40, 40, 0]), 20)
    cups = kitchen.heat(kitchen.stir(cups), np.linspace(0, 120, 6))
    cups = kitchen.rest(kitchen.draw_off(cups, 200), 60)
    books = before + cups.absorbed_j - cups.lost_j + cups.carried_j
    error = (kitchen.held_j(cups) - books) / cups.absorbed_j
    assert np.abs(error).max() < 1e-3


def test_short_cylinder_cools_by_the_product_of_cylinder_and_slab():
    # F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, sec. 5.5 to 5.7:
    # cylinder times plane wall, all faces held at one temperature (Bi endless), full series.
    base = changed(
        still(drawn(2)), room={"fan": 1e9, "temp_c": 20, "glass_emits": 0, "plastic_emits": 0}
    )
    cups = kitchen.fresh_cups(base, 0, POUR_G, 170)
    plastic, seconds = base.plastic, 1500
    cooled = kitchen.rest(cups, seconds)
    spread = conductivity_w_mk(plastic, ones(2, 25)) / (
        density_kg_m3(plastic, ones(2, 25)) * plastic.heat_j_kgk
    )
    fo_ring = (spread * seconds / base.glass.inner_m**2)[:, None]
    fo_wall = (spread * seconds / (cups.level_m / 2) ** 2)[:, None]
    zeta, odd = jn_zeros(0, 40), (np.arange(40) + 0.5) * np.pi
    ring = np.exp(-(zeta**2) * fo_ring)
    wall = np.exp(-(odd**2) * fo_wall)
    mean = (4 / zeta**2 * ring).sum(1) * (2 / odd**2 * wall).sum(1)
    np.testing.assert_allclose((kitchen.mean_c(cooled) - 20) / 150, mean, atol=2e-3)

    row = int(np.argmin(np.abs(ROW_EDGE[1:] + ROW_EDGE[:-1] - 1)))
    height = ROW_EDGE[row + 1] + ROW_EDGE[row] - 1
    for i in (0, RINGS // 2):
        radius = (i + 0.5) / RINGS
        there = (2 / (zeta * j1(zeta)) * j0(zeta * radius) * ring).sum(1)
        there *= (2 * np.sin(odd) / odd * np.cos(odd * height) * wall).sum(1)
        got = (cooled.plastic_c[row, i] - 20) / 150
        np.testing.assert_allclose(got, there, atol=2e-3)


def test_half_the_step_changes_little():
    cups = kitchen.fresh_cups(drawn(8), 0, POUR_G, START_C)
    ends = []
    for step_s in (2.0, 1.0):
        cooked = kitchen.heat(cups, 200, step_s=step_s)
        cooked = kitchen.rest(kitchen.stir(cooked), 15, step_s=step_s)
        ends.append(kitchen.heat(cooked, 70, step_s=step_s))
    for told in (kitchen.mean_c, kitchen.hottest_c, kitchen.bottom_c, kitchen.surface_c):
        assert np.abs(told(ends[0]) - told(ends[1])).max() < 0.3
    assert np.abs(kitchen.fused(ends[0]) - kitchen.fused(ends[1])).max() < 0.01


@pytest.fixture(scope="module")
def practice():
    """Six minutes at 485 W into 498 g."""
    ovens = changed(drawn(30), oven={"power_w": 485})
    return kitchen.heat(kitchen.fresh_cups(ovens, 0, POUR_G, START_C), 360)


def test_six_minutes_bring_the_surface_where_makers_read_it(practice):
    # Common practice, no source: 470 to 500 W into 498 g read about 338 °F (170 °C) at 6:00.
    surface = kitchen.surface_c(practice)
    assert np.median(surface) == pytest.approx(170, abs=25)
    assert np.mean(np.abs(surface - 170) < 25) > 0.6


def test_a_burst_leaves_a_hot_core_over_an_underdone_bottom(practice):
    # Common practice, no source: mostly fused, the bottom not.
    mean = kitchen.mean_c(practice)
    assert np.all(kitchen.hottest_c(practice) > mean + 5)
    assert np.all(kitchen.bottom_c(practice) < mean)
    assert np.all(kitchen.bottom_fused(practice) < kitchen.fused(practice))
    assert np.median(kitchen.fused(practice)) > 0.5
    assert np.all(practice.peak_c >= kitchen.hottest_c(practice))


def test_each_cup_lives_as_if_alone():
    many = kitchen.draw_ovens([5, 900, 3], plastic_g=POUR_G)
    one = kitchen.draw_ovens([900], plastic_g=POUR_G)
    times = np.array([140.0, 61.3, 0])

    def cooked(ovens, seconds, who):
        cups = kitchen.fresh_cups(ovens, 2, POUR_G, START_C)
        cups = kitchen.stir(kitchen.heat(cups, seconds), who)
        return kitchen.heat(kitchen.rest(cups, 9), seconds)

    together = cooked(many, times, np.array([True, True, False]))
    alone = cooked(one, times[1:2], np.array([True]))
    np.testing.assert_allclose(together.temp_c[..., 1:2], alone.temp_c, atol=1e-9)
    np.testing.assert_allclose(kitchen.fused(together)[1], kitchen.fused(alone)[0], atol=1e-12)
    assert np.all(together.temp_c[..., 2] < START_C + 3)
    part = kitchen.take(together, np.array([1]))
    np.testing.assert_array_equal(part.temp_c, together.temp_c[..., 1:2])
    back = kitchen.put(together, np.array([1]), alone)
    np.testing.assert_array_equal(back.temp_c[..., [0, 2]], together.temp_c[..., [0, 2]])


def test_no_seconds_and_no_grams_leave_a_cup_as_it_was():
    cups = kitchen.heat(kitchen.fresh_cups(drawn(2), 0, POUR_G, START_C), 100)
    same = kitchen.stir(cups, np.zeros(2, bool))
    same = kitchen.add(kitchen.draw_off(kitchen.rest(kitchen.heat(same, 0), 0), 0), 0, 20)
    np.testing.assert_allclose(same.temp_c, cups.temp_c, atol=1e-9)
    np.testing.assert_array_equal(same.absorbed_j, cups.absorbed_j)
    again = kitchen.stir(same)
    np.testing.assert_allclose(again.temp_c, kitchen.stir(cups).temp_c, atol=1e-9)
