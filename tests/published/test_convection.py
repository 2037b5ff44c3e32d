"""Free convection and radiation against textbook examples. Each check names its source.

Incropera: Incropera, DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. (2007).
Cengel: Cengel, Heat Transfer: A Practical Approach, 2nd ed. (2003); its inputs published, its
printed answers from memory.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from pourwright.physics import convection

G = 9.8  # as both books round it


def rayleigh(*, beta: float, step_k: float, length: float, nu: float, alpha: float) -> float:
    return G * beta * step_k * length**3 / (nu * alpha)


def test_glass_fire_screen():
    # Incropera ex. 9.2: plate 0.71 m high and 1.02 m wide, 232 °C in 23 °C: Ra 1.813e9, 1060 W.
    ra = rayleigh(beta=0.0025, step_k=209, length=0.71, nu=26.4e-6, alpha=38.3e-6)
    assert ra == pytest.approx(1.813e9, rel=2e-3)
    h = float(convection.vertical_plate_nusselt(ra, 0.69)) * 0.0338 / 0.71
    assert h * 0.71 * 1.02 * 209 == pytest.approx(1060, rel=2e-3)


def test_air_duct():
    # Incropera ex. 9.3: duct 0.75 by 0.3 m at 45 °C in 15 °C: 246 W/m off sides, top and bottom.
    air = {"beta": 0.0033, "step_k": 30, "nu": 16.2e-6, "alpha": 22.9e-6}
    side = float(
        convection.vertical_plate_laminar_nusselt(rayleigh(length=0.3, **air), 0.71)
    ) * 0.0265 / 0.3  # fmt: skip
    flat = rayleigh(length=0.375, **air)
    top = float(convection.plate_up_nusselt(flat)) * 0.0265 / 0.375
    bottom = float(convection.plate_down_nusselt(flat)) * 0.0265 / 0.375
    assert (2 * side * 0.3 + (top + bottom) * 0.75) * 30 == pytest.approx(246, rel=3e-3)


def test_steam_pipe():
    # Incropera ex. 9.4: pipe of 0.1 m at 165 °C in 23 °C, emissivity 0.85: 763 W/m.
    ra = rayleigh(beta=2.725e-3, step_k=142, length=0.1, nu=22.8e-6, alpha=32.8e-6)
    h = float(convection.horizontal_cylinder_nusselt(ra, 0.697)) * 0.0313 / 0.1
    radiated = float(convection.radiation_film(0.85, 438, 296))
    assert (h + radiated) * math.pi * 0.1 * 142 == pytest.approx(763, rel=2e-3)


@pytest.mark.parametrize(("other_c", "film"), [(175, 15.0), (25, 8.8)])
def test_radiation_film(other_c, film):
    # Incropera ex. 5.3: emissivity 0.8, panel of 150 °C against 175 and 25 °C (offset 273).
    found = float(convection.radiation_film(0.8, 150 + 273, other_c + 273))
    assert found == pytest.approx(film, rel=6e-3)


def test_hot_water_pipe():
    # Cengel ex. 9-1: 6 m of 80 mm pipe at 70 °C in 20 °C: 443 W.
    ra = rayleigh(beta=1 / 318, step_k=50, length=0.08, nu=1.75e-5, alpha=1.75e-5 / 0.7241)
    h = float(convection.horizontal_cylinder_nusselt(ra, 0.7241)) * 0.02699 / 0.08
    assert h * math.pi * 0.08 * 6 * 50 == pytest.approx(443, rel=5e-3)


PLATE = {"beta": 1 / 333, "step_k": 60, "nu": 1.896e-5, "alpha": 1.896e-5 / 0.7202}


def plate_w(nusselt: float, length: float) -> float:
    return nusselt * 0.02808 / length * 0.36 * 60


def test_plate_upright():
    # Cengel ex. 9-2a: plate of 0.6 m, one side, 90 °C in 30 °C, upright: 115 W.
    nu = float(convection.vertical_plate_nusselt(rayleigh(length=0.6, **PLATE), 0.7202))
    assert plate_w(nu, 0.6) == pytest.approx(115, rel=6e-3)


def test_hot_side_up_laws():
    # Incropera eqs. 9.30 and 9.31 at round numbers (closed form): 0.54 x 10, 0.15 x 1000.
    assert float(convection.plate_up_nusselt(1e4)) == pytest.approx(5.4)
    assert float(convection.plate_up_nusselt(1e9)) == pytest.approx(150)


def test_plate_hot_side_down():
    # Cengel ex. 9-2c: 64.2 W.
    nu = float(convection.plate_down_nusselt(rayleigh(length=0.15, **PLATE)))
    assert plate_w(nu, 0.15) == pytest.approx(64.2, rel=6e-3)


def test_reference_library():
    # Library: heat-transfer package `ht`, its worked docstrings of the Churchill-Chu plate and
    # the Churchill-Chu horizontal cylinder at Pr 0.69, Gr 2.63e9.
    ra = 2.63e9 * 0.69
    plate = float(convection.vertical_plate_nusselt(ra, 0.69))
    assert plate == pytest.approx(147.16185223770603, rel=1e-9)
    cylinder = float(convection.horizontal_cylinder_nusselt(ra, 0.69))
    assert cylinder == pytest.approx(139.13493970073597, rel=1e-9)


def test_film_off_a_cup():
    # Built from a printed table: Incropera table A.4, air at 350 K: nu 20.92e-6, alpha 29.9e-6,
    # k 30.0e-3, Pr 0.700. A wall of 0.1 m at 127 °C in air of 27 °C, emissivity 0.9.
    ra = rayleigh(beta=1 / 350, step_k=100, length=0.1, nu=20.92e-6, alpha=29.9e-6)
    expected = float(convection.vertical_plate_nusselt(ra, 0.700)) * 0.030 / 0.1
    expected += 0.9 * 5.67e-8 * (400.15**2 + 300.15**2) * (400.15 + 300.15)
    found = convection.wall_film(np.array([127.0]), air_c=27.0, height_m=0.1, emissivity=0.9)
    assert found[0] == pytest.approx(expected, rel=0.02)
