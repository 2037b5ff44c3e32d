"""Stirring, drawing, adding and reading in the kitchen that judges the estimator."""

from __future__ import annotations

import numpy as np
import pytest
from speed import kitchen
from speed.kitchen.grid import CELL_SHARE, RINGS, ROWS
from speed.kitchen.plastic import enthalpy_j_kg

from kitchen_bench import POUR_G, START_C, drawn, ones


def test_stirring_keeps_heat_and_evens_plastic_only():
    cups = kitchen.heat(kitchen.fresh_cups(drawn(5), 0, POUR_G, START_C), 240)
    mixed = kitchen.stir(cups)
    np.testing.assert_allclose(kitchen.held_j(mixed), kitchen.held_j(cups), rtol=1e-9)
    np.testing.assert_allclose(kitchen.fused(mixed), kitchen.fused(cups), atol=1e-12)
    left = np.ptp(mixed.plastic_c, axis=(0, 1)) / np.ptp(cups.plastic_c, axis=(0, 1))
    assert np.all((left > 0.025) & (left < 0.21))
    assert np.std(left) > 0.01
    wall = np.abs(mixed.temp_c[: ROWS // 2, RINGS:] - cups.temp_c[: ROWS // 2, RINGS:])
    assert wall.max() < 0.2


def test_drawn_plastic_lowers_the_level_and_leaves_the_field():
    cups = kitchen.heat(kitchen.fresh_cups(drawn(3), 0, POUR_G, START_C), 240)
    less = kitchen.draw_off(cups, POUR_G / 2)
    np.testing.assert_allclose(less.level_m, cups.level_m / 2, rtol=1e-9)
    np.testing.assert_array_equal(less.plastic_c, cups.plastic_c)
    with pytest.raises(ValueError, match="less than 5 g"):
        kitchen.draw_off(cups, POUR_G)


def test_cold_plastic_lies_on_top_until_it_is_stirred_in():
    cups = kitchen.heat(kitchen.fresh_cups(drawn(3), 0, POUR_G, START_C), 240)
    more = kitchen.add(cups, 50, 20)
    assert np.all(more.plastic_c[-1] == pytest.approx(20))
    lowest, raised = cups.plastic_c[:2], more.plastic_c[0]
    assert np.all((raised > lowest.min(0)) & (raised < lowest.max(0)))
    # Closed form: heat mixes by mass.
    heat = [
        (enthalpy_j_kg(c.ovens.plastic, c.plastic_c) * CELL_SHARE).sum((0, 1)) for c in (cups, more)
    ]
    brought = enthalpy_j_kg(cups.ovens.plastic, ones(3, 20))
    np.testing.assert_allclose(heat[1], (POUR_G * heat[0] + 50 * brought) / (POUR_G + 50))
    with pytest.raises(ValueError, match="runs over"):
        kitchen.add(cups, 3 * POUR_G, 20)


def test_a_time_or_mass_that_is_none_is_refused():
    cups = kitchen.fresh_cups(drawn(1), 0, POUR_G, START_C)
    with pytest.raises(ValueError, match="time"):
        kitchen.heat(cups, -1)
    with pytest.raises(ValueError, match="grams"):
        kitchen.add(cups, float("nan"), 20)


def test_readings_scatter_about_surface_and_middle():
    cups = kitchen.fresh_cups(drawn(1), 0, POUR_G, START_C)
    cups = kitchen.stir(kitchen.stir(kitchen.heat(cups, 200)))
    rng = np.random.default_rng(4)
    infrared = np.array([kitchen.read_infrared(cups, rng) for _ in range(400)])
    probe = np.array([kitchen.read_probe(cups, rng) for _ in range(400)])
    known = cups.ovens
    assert infrared.std() == pytest.approx(1.2, rel=0.1)
    assert probe.std() == pytest.approx(0.5, rel=0.1)
    assert infrared.mean() == pytest.approx(
        (kitchen.surface_c(cups) + known.infrared_bias_k).item(), abs=0.2
    )
    assert probe.mean() == pytest.approx(
        (kitchen.mean_c(cups) + known.probe_bias_k).item(), abs=0.3
    )
    assert kitchen.surface_c(cups).item() < kitchen.mean_c(cups).item()


def test_ovens_and_thermometers_are_drawn_as_wide_as_said():
    many = kitchen.draw_ovens(range(400), plastic_g=POUR_G)
    ratio = many.oven.power_w / (0.66 * many.oven.label_w)
    assert np.median(ratio) == pytest.approx(1, abs=0.04)
    assert np.std(np.log(ratio)) == pytest.approx(0.22, rel=0.1)
    assert np.std(many.infrared_bias_k) == pytest.approx(2, rel=0.1)
    assert np.std(many.probe_bias_k) == pytest.approx(0.7, rel=0.1)
    checked = kitchen.draw_ovens(range(400), plastic_g=POUR_G, checked=True)
    np.testing.assert_allclose(checked.infrared_bias_k, many.infrared_bias_k / 4)
    np.testing.assert_array_equal(checked.oven.power_w, many.oven.power_w)
    shares = [kitchen.fresh_cups(many, n, POUR_G, START_C).share for n in (0, 5)]
    assert np.std(shares[0]) == pytest.approx(0.03, rel=0.1)
    assert np.mean(shares[1] - shares[0]) == pytest.approx(
        -0.025 * (1 - np.exp(-5 / 1.5)), abs=6e-3
    )
