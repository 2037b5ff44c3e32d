"""The kitchen's fields, ripening and currents, each against its law."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from speed import kitchen
from speed.kitchen.field import plastic_pattern
from speed.kitchen.grid import CELL_SHARE, FLOOR_ROWS, RINGS, ROW_EDGE, ROWS
from speed.kitchen.links import row_links
from speed.kitchen.mixing import conduct_factor
from speed.kitchen.plastic import (
    absorption_per_m,
    conductivity_w_mk,
    density_kg_m3,
    ln_viscosity_pas,
)
from speed.kitchen.ripening import Ripeness, gelled, ripened

from kitchen_bench import POUR_G, START_C, changed, drawn, ones, still, tight


def test_power_from_below_fades_exponentially():
    # Closed form (Lambert): the share swallowed up to a height at constant depth.
    ovens = changed(
        drawn(1),
        oven={"side": 0, "top": 0, "bottom": 1, "even": 0},
        plastic={"loss_energy_k": 0, "depth_m": 0.07},
    )
    cups = kitchen.fresh_cups(ovens, 0, POUR_G, START_C)
    pattern = plastic_pattern(ovens.oven, ovens.plastic, cups.plastic_c, cups.cells())
    height = ROW_EDGE[1:] * cups.level_m
    up_to = -np.expm1(-height / 0.07) / -np.expm1(-cups.level_m / 0.07)
    np.testing.assert_allclose(np.cumsum(pattern.sum((1, 2))), up_to, atol=5e-4)


def test_power_from_the_side_and_the_top_starts_there():
    for way, near, far in (
        ("side", (0, RINGS - 1), (0, 0)),
        ("top", (ROWS - 1, 0), (0, 0)),
        ("bottom", (0, 0), (ROWS - 1, 0)),
    ):
        ways = {"side": 0, "top": 0, "bottom": 0, "even": 0, way: 1}
        flat = {"loss_energy_k": 0, "depth_m": 0.05}
        ovens = changed(drawn(2), oven=ways, plastic=flat)
        cups = kitchen.fresh_cups(ovens, 0, POUR_G, START_C)
        pattern = plastic_pattern(ovens.oven, ovens.plastic, cups.plastic_c, cups.cells())
        np.testing.assert_allclose(pattern.sum((0, 1)), 1)
        density = pattern / CELL_SHARE
        assert np.all(density[near] > 1.1 * density[far])


def test_loss_peaks_where_it_is_told_to():
    # Closed form: 2 x / (1 + x^2) is one half at x = 2 + sqrt(3) on either side of the peak.
    plastic = changed(
        drawn(1), plastic={"loss_peak_k": 360, "loss_energy_k": 4000, "depth_m": 0.05}
    ).plastic
    half = np.log(2 + np.sqrt(3)) / 4000
    for kelvin, depth_m in ((360, 0.05), (1 / (1 / 360 + half), 0.1), (1 / (1 / 360 - half), 0.1)):
        assert 1 / absorption_per_m(plastic, ones(1, kelvin - 273.15))[0] == pytest.approx(depth_m)


def test_coupled_power_drifts_with_temperature():
    # Closed form: joules over equal bursts from two starting points.
    ovens = changed(still(tight(drawn(1))), oven={"drift_per_k": 8e-4, "power_w": 1e-3})
    joules = [
        kitchen.heat(kitchen.fresh_cups(ovens, 0, POUR_G, t), 10).absorbed_j[0] for t in (25, 125)
    ]
    assert joules[1] / joules[0] == pytest.approx(1.08, rel=1e-3)


@pytest.mark.parametrize(("temp_c", "seconds"), [(92, 30), (150, 40)])
def test_ripening_follows_its_two_laws(temp_c, seconds):
    # Against SciPy's integrator: two first-order paces, then order 1.5 in what is gelled only.
    plastic = drawn(1).plastic
    kelvin = temp_c + 273.15

    def rate(per_s, energy_k, at_k):
        return float((per_s * np.exp(energy_k * (1 / at_k - 1 / kelvin)))[0])

    gel = rate(plastic.gel_per_s, plastic.gel_energy_k, plastic.gel_at_k)
    fuse = rate(plastic.fuse_per_s, plastic.fuse_energy_k, plastic.fuse_at_k)
    quick_share = float(plastic.gel_quick_share[0])

    def slope(_, y):
        quick, slow, fused = y
        left = max(quick_share * quick + (1 - quick_share) * slow - fused, 0)
        return [2 * gel * (1 - quick), gel / 2 * (1 - slow), fuse * left**1.5]

    expected = solve_ivp(slope, (0, seconds), [0, 0, 0], rtol=1e-9, atol=1e-11).y[:, -1]
    raw = np.zeros((1, 1, 1))
    now = Ripeness(raw, raw, raw)
    for _ in range(20 * seconds):
        now = ripened(plastic, now, ones(1, temp_c), ones(1, 0.05))
    got = [now.quick.item(), now.slow.item(), now.fused.item()]
    np.testing.assert_allclose(got, expected, atol=5e-3)
    assert now.fused.item() < gelled(plastic, now).item()


def test_warm_plastic_swells_conducts_less_and_flows_until_it_gels():
    plastic = drawn(30).plastic
    cold, warm, raw = ones(30, 25), ones(30, 150), np.zeros(30)
    assert np.all(density_kg_m3(plastic, warm) < 0.95 * density_kg_m3(plastic, cold))
    assert np.all(conductivity_w_mk(plastic, warm) < 0.97 * conductivity_w_mk(plastic, cold))
    sol, hot_sol, gel, melt = (
        ln_viscosity_pas(plastic, t, g, f)
        for t, g, f in (
            (cold, raw, raw),
            (warm, raw, raw),
            (warm, raw + 1, raw),
            (warm,) + 2 * (raw + 1,),
        )
    )
    assert np.all(hot_sol < sol)
    assert np.all((sol < melt + 3) & (melt < gel - 3))


def test_currents_die_in_the_gel():
    plastic = changed(drawn(20)).plastic
    temp_c = np.linspace(60, 80, ROWS)[:, None, None] + np.zeros((ROWS, RINGS, 20))
    size, raw = ones(20, 0.045), np.zeros((ROWS, RINGS, 20))
    sol = conduct_factor(plastic, temp_c, raw, raw, size)
    gel = conduct_factor(plastic, temp_c, raw + 1, raw, size)
    assert np.all(sol.max((0, 1)) > 2)
    assert np.all(gel.max((0, 1)) < 1.35)
    assert np.all(sol[-1] < sol[ROWS // 2])


def test_currents_carry_heat_up_and_never_down():
    cups = kitchen.fresh_cups(drawn(1), 0, POUR_G, START_C)
    plain = ones(1, 0.13) + np.zeros_like(cups.temp_c)
    climb = np.arange(len(cups.temp_c))[:, None, None] + np.zeros_like(plain)
    still_links = row_links(cups.cells(), plain, plain, climb)
    down = row_links(cups.cells(), plain, 5 * plain, climb)
    up = row_links(cups.cells(), plain, 5 * plain, -climb)
    np.testing.assert_allclose(down, still_links)
    inside = (slice(FLOOR_ROWS, None), slice(0, RINGS))
    np.testing.assert_allclose(up[inside], 5 * still_links[inside])
