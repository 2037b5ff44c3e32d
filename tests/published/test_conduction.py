"""Conduction against textbook examples and closed forms. Each check names its source.

Incropera: Incropera, DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. (2007).
Cengel: Cengel, Heat Transfer: A Practical Approach, 2nd ed. (2003).
Basis: published, unless a line says memory.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from pourwright.base.draws import Array
from pourwright.physics import conduction
from pourwright.physics.conduction import Solid, center_fourier, center_left, roots, weights
from pourwright.physics.open_slab import hottest_fourier


def series(solid: Solid, biot: Array | float, terms: int = 30) -> tuple[Array, Array]:
    root = roots(solid, biot, terms)
    return root, weights(solid, root)


def one_term_s(solid: Solid, *, biot: float, left: float, size_m: float, alpha: float) -> float:
    root, weight = series(solid, biot, 1)
    return float(np.log(weight[0] / left) / root[0] ** 2) * size_m**2 / alpha


# Incropera table 5.1 and Cengel table 4-2: first root and weight (memory).
TABLE = [
    (Solid.SLAB, 0.1, 0.3111, 1.0161), (Solid.SLAB, 1, 0.8603, 1.1191),
    (Solid.SLAB, 10, 1.4289, 1.2620), (Solid.SLAB, 100, 1.5552, 1.2731),
    (Solid.CYLINDER, 0.1, 0.4417, 1.0246), (Solid.CYLINDER, 1, 1.2558, 1.2071),
    (Solid.CYLINDER, 10, 2.1795, 1.5677), (Solid.CYLINDER, 100, 2.3809, 1.6015),
    (Solid.SPHERE, 0.1, 0.5423, 1.0298), (Solid.SPHERE, 1, 1.5708, 1.2732),
    (Solid.SPHERE, 10, 2.8363, 1.9249), (Solid.SPHERE, 100, 3.1102, 1.9990),
]  # fmt: skip


@pytest.mark.parametrize(("solid", "biot", "root", "weight"), TABLE)
def test_one_term_table(solid, biot, root, weight):
    found = roots(solid, biot)
    assert float(found[0]) == pytest.approx(root, abs=6e-5)
    assert float(weights(solid, found)[0]) == pytest.approx(weight, abs=1.1e-4)


def test_lumped_thermocouple():
    # Incropera ex. 5.1: 0.706 mm junction of one second, 25 -> 199 °C in gas of 200 °C: 5.16 s.
    diameter = 6 * 400 * 1.0 / (8500 * 400)
    assert diameter == pytest.approx(7.06e-4, rel=2e-3)
    t = conduction.lumped_time(
        density_kg_m3=8500, heat_capacity_j_kgk=400, volume_per_area_m=7.06e-4 / 6,
        film_w_m2k=400, left=1 / 175,
    )  # fmt: skip
    assert t == pytest.approx(5.16, rel=0.003)


def test_lumped_bead_to_one_percent():
    # Cengel ex. 4-1: 1 mm junction, 99 % of the step: 10 s.
    t = conduction.lumped_time(
        density_kg_m3=8500, heat_capacity_j_kgk=320, volume_per_area_m=1e-3 / 6,
        film_w_m2k=210, left=0.01,
    )  # fmt: skip
    assert t == pytest.approx(10, rel=0.01)


def test_lumped_sphere_in_air():
    # Incropera ex. 5.5, first step: 400 -> 335 °C in air of 20 °C: 94 s (companion 93.7).
    t = conduction.lumped_time(
        density_kg_m3=3000, heat_capacity_j_kgk=1000, volume_per_area_m=5e-3 / 3,
        film_w_m2k=10, left=315 / 380,
    )  # fmt: skip
    assert t == pytest.approx(93.7, rel=0.005)


def test_sphere_quenched():
    # Incropera ex. 5.5, second step: 335 -> 50 °C in water of 20 °C, Bi = 1.5: 3.1 s (companion
    # 3.08), with a root and weight rounded from the table: 1.800 for 1.837, 1.376 for 1.385.
    t = one_term_s(Solid.SPHERE, biot=1.5, left=30 / 315, size_m=5e-3, alpha=6.66e-6)
    assert t == pytest.approx(3.08, rel=0.04)


def test_pipe_wall():
    # Incropera ex. 5.4: wall of 40 mm, 8 min: Fo 5.64, 42.9 °C at the insulated face, flux
    # -7.4e3 W/m² at the other, 2.73e7 J/m taken up.
    biot, fo = 500 * 0.04 / 63.9, 18.8e-6 * 480 / 0.04**2
    assert fo == pytest.approx(5.64, rel=1e-3)
    root, weight = series(Solid.SLAB, biot)
    insulated = 60 + (-20 - 60) * center_left(fo, root, weight)
    assert float(insulated) == pytest.approx(42.9, rel=0.005)
    first = float(root[0])
    face = 60 - 80 * float(weight[0]) * math.exp(-(first**2) * fo) * math.cos(first)
    assert 500 * (face - 60) == pytest.approx(-7362, rel=0.01)
    kept = math.sin(first) / first * float(center_left(fo, root, weight))
    stored = 7832 * 434 * math.pi * 1.0 * 0.04 * (-20 - 60) * (1 - kept)
    assert stored == pytest.approx(-2.72e7, rel=0.005)


def test_boiled_egg():
    # Cengel ex. 4-3: sphere of 25 mm radius, 5 -> 70 °C in water of 95 °C: 14.4 min, with root
    # 3.0754 and weight 1.9958 interpolated in the table.
    biot = 1200 * 0.025 / 0.627
    root, weight = series(Solid.SPHERE, biot, 1)
    assert (float(root[0]), float(weight[0])) == pytest.approx((3.0754, 1.9958), abs=1e-3)
    t = one_term_s(Solid.SPHERE, biot=biot, left=25 / 90, size_m=0.025, alpha=0.151e-6)
    assert t / 60 == pytest.approx(14.4, rel=0.005)


def test_brass_plate():
    # Cengel ex. 4-4: plate of 40 mm after 7 min at 500 °C: surface 282 °C read off a chart.
    root, weight = series(Solid.SLAB, 120 * 0.02 / 110)
    center = center_left(33.9e-6 * 420 / 0.02**2, root, weight)
    surface = 500 + (20 - 500) * float(center) * math.cos(float(root[0]))
    assert surface == pytest.approx(282, rel=0.011)


def test_long_shaft():
    # Cengel ex. 4-5: shaft of 200 mm cooled 45 min in air of 200 °C: center 360 °C off a chart.
    root, weight = series(Solid.CYLINDER, 80 * 0.1 / 14.9)
    center = center_left(3.95e-6 * 2700 / 0.1**2, root, weight)
    assert 200 + 400 * float(center) == pytest.approx(360, rel=0.013)


def test_frost_depth():
    # Incropera ex. 5.6 (memory): soil at 20 °C under -15 °C for 60 days freezes to 0.68 m.
    left = conduction.semi_infinite_left(0.68, 0.138e-6, 60 * 86400)
    assert -15 + 35 * left == pytest.approx(0, abs=0.2)


def test_water_main():
    # Cengel ex. 4-6: soil at 15 °C under -10 °C for 90 days: 0.77 m, chart value 0.36 of erfc.
    left = conduction.semi_infinite_left(0.77, 0.15e-6, 90 * 86400)
    assert -10 + 25 * left == pytest.approx(0, abs=0.7)


def test_error_function():
    # Abramowitz and Stegun (1964), table 7.1: erf(0.5) = 0.520 499 8778.
    assert conduction.semi_infinite_left(1.0, 1.0, 1.0) == pytest.approx(0.5204998778, abs=1e-10)


def test_contact_temperature():
    # Incropera eq. 5.63; two bodies of one effusivity meet halfway (closed form).
    assert float(conduction.contact_c(172, 500, 25, 500)) == pytest.approx(98.5)
    # Hot melt on aluminum, worked on paper: (499.6 x 172 + 22009 x 25) / 22508.6.
    assert float(conduction.contact_c(172, 499.6, 25, 22009)) == pytest.approx(28.263, abs=1e-3)


HELD = 1e9


@pytest.mark.parametrize("fourier", [0.02, 0.1, 0.5])
def test_slab_with_held_faces(fourier):
    # Carslaw and Jaeger, 2nd ed., sec. 3.4 eq. 9: images, the other form of the same answer.
    root, weight = series(Solid.SLAB, HELD)
    images = sum(
        2 * (-1) ** n * math.erfc((2 * n + 1) / (2 * math.sqrt(fourier))) for n in range(20)
    )
    assert float(center_left(fourier, root, weight)) == pytest.approx(1 - images, abs=1e-7)


@pytest.mark.parametrize("fourier", [0.05, 0.2])
def test_sphere_with_held_face(fourier):
    # Carslaw and Jaeger, 2nd ed., sec. 9.3 eq. 7: center = 2 Σ (-1)^(n+1) exp(-n² π² Fo).
    root, weight = series(Solid.SPHERE, HELD)
    closed = 2 * sum(
        (-1) ** (n + 1) * math.exp(-(n**2) * math.pi**2 * fourier) for n in range(1, 40)
    )
    assert float(center_left(fourier, root, weight)) == pytest.approx(closed, abs=1e-7)


def test_cylinder_with_held_face():
    # First zero of J0 is 2.404 826, J1 there 0.519 147 (Abramowitz and Stegun, table 9.5).
    root, weight = series(Solid.CYLINDER, HELD, 1)
    assert float(root[0]) == pytest.approx(2.404826, abs=1e-6)
    assert float(weight[0]) == pytest.approx(2 / (2.404826 * 0.519147), rel=1e-5)


@pytest.mark.parametrize("solid", list(Solid))
@pytest.mark.parametrize("biot", [0.05, 1.0, 30.0])
@pytest.mark.parametrize("left", [0.05, 0.3, 0.9])
def test_inverse_of_the_series(solid, biot, left):
    # Closed form: the series at the answer gives back what was asked for.
    root, weight = series(solid, np.array([biot]), 12)
    fourier = center_fourier(np.array([left]), root, weight)
    assert center_left(fourier, root, weight)[0] == pytest.approx(left, abs=1e-6)


def test_series_starts_at_one():
    # Closed form: at Fo = 0 the center still has all of its excess.
    root, weight = series(Solid.SLAB, 1.0, 400)
    assert float(center_left(1e-4, root, weight)) == pytest.approx(1, abs=1e-6)


def test_open_slab_with_equal_films():
    # Closed form: equal films make it the slab cooled on both faces, half as thick.
    both = np.array([8.0])
    whole = hottest_fourier(np.array([0.25]), both, both)
    root, weight = series(Solid.SLAB, both / 2, 12)
    assert 4 * whole[0] == pytest.approx(
        center_fourier(np.array([0.25]), root, weight)[0], rel=1e-3
    )


def test_open_slab_with_an_insulated_face():
    # Closed form: an insulated face is the middle of a slab twice as thick.
    whole = hottest_fourier(np.array([0.25]), np.array([4.0]), np.array([1e-7]))
    root, weight = series(Solid.SLAB, np.array([4.0]), 12)
    assert whole[0] == pytest.approx(center_fourier(np.array([0.25]), root, weight)[0], rel=1e-4)
