"""More printed heat figures. Each check names its source.

Incropera: Incropera, DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. (2007).
Cengel: Cengel, Heat Transfer: A Practical Approach, 2nd ed. (2003).
Where a book reads an answer off a chart, the exact one is worked out here by another road:
a root of the printed characteristic equation, or finite volumes.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.special import erfcinv, j0, j1

from pourwright.matter import scorch
from pourwright.matter.dielectric import plasticizer_flow_mm2_s
from pourwright.matter.plastisol import heat_capacity_j_kgk, plasticizer_heat_capacity_j_kgk
from pourwright.physics import conduction, convection
from pourwright.physics.conduction import Solid, center_fourier, center_left, roots, weights
from pourwright.physics.dielectric import penetration_depth_m

GAS_J_MOLK = 8.314462618


def test_junction_in_a_hot_duct():
    # Incropera ex. 5.2 (memory; a companion prints 217.7): junction of h = 400, emissivity 0.9 in
    # gas of 200 °C under walls of 400 °C settles at 218.7 °C (offset 273).
    def gain(c: float) -> float:
        film = float(convection.radiation_film(0.9, 673.0, c + 273.0))
        return film * (400 - c) - 400 * (c - 200)

    assert brentq(gain, 200, 400) == pytest.approx(218.7, abs=0.1)


def test_quenched_sphere_exactly():
    # Incropera ex. 5.5 (published 3.08, off a rounded table): one term with the root of eq. 5.51c,
    # 1 - z·cot z = Bi = 1.5, gives 2.979 s.
    z = brentq(lambda x: 1 - x / math.tan(x) - 1.5, 1.6, 2.0)
    c = 4 * (math.sin(z) - z * math.cos(z)) / (2 * z - math.sin(2 * z))
    exact = math.log(c / (30 / 315)) / z**2 * 5e-3**2 / 6.66e-6
    assert exact == pytest.approx(2.979, abs=1e-3)
    root = roots(Solid.SPHERE, 1.5)
    fourier = center_fourier(np.array([30 / 315]), root, weights(Solid.SPHERE, root))
    assert fourier[0] * 5e-3**2 / 6.66e-6 == pytest.approx(exact, rel=1e-3)


def test_brass_plate_exactly():
    # Cengel ex. 4-4 (chart: 282 °C): one term with the root of z·tan z = Bi gives 279.6 °C.
    biot, fourier = 120 * 0.02 / 110, 33.9e-6 * 420 / 0.02**2
    z = brentq(lambda x: x * math.tan(x) - biot, 1e-6, 1.5)
    c = 4 * math.sin(z) / (2 * z + math.sin(2 * z))
    exact = 500 - 480 * c * math.exp(-(z**2) * fourier) * math.cos(z)
    assert exact == pytest.approx(279.6, abs=0.05)
    root = roots(Solid.SLAB, biot)
    center = float(center_left(fourier, root, weights(Solid.SLAB, root)))
    assert 500 - 480 * center * math.cos(float(root[0])) == pytest.approx(exact, abs=0.05)


def test_long_shaft_exactly():
    # Cengel ex. 4-5 (chart: 360 °C): one term with the root of z·J1/J0 = Bi gives 364.3 °C.
    biot, fourier = 80 * 0.1 / 14.9, 3.95e-6 * 2700 / 0.1**2
    z = brentq(lambda x: x * j1(x) / j0(x) - biot, 1e-6, 2.4)
    c = 2 / z * j1(z) / (j0(z) ** 2 + j1(z) ** 2)
    exact = 200 + 400 * c * math.exp(-(z**2) * fourier)
    assert exact == pytest.approx(364.3, abs=0.05)
    root = roots(Solid.CYLINDER, biot)
    center = float(center_left(fourier, root, weights(Solid.CYLINDER, root)))
    assert 200 + 400 * center == pytest.approx(exact, abs=0.05)


def test_water_main_exactly():
    # Cengel ex. 4-6 (chart 0.36: 0.77 m): the inverse of erfc gives 0.801 m.
    depth = 2 * math.sqrt(0.15e-6 * 90 * 86400) * float(erfcinv(15 / 25))
    assert depth == pytest.approx(0.801, abs=1e-3)
    left = conduction.semi_infinite_left(depth, 0.15e-6, 90 * 86400)
    assert -10 + 25 * left == pytest.approx(0, abs=1e-9)


def test_error_function_far_out():
    # Abramowitz and Stegun (1964), table 7.1: erfc(1) = 0.157 299 2.
    assert 1 - conduction.semi_infinite_left(2.0, 1.0, 1.0) == pytest.approx(0.1572992, abs=1e-7)


def test_plate_hot_side_up():
    # Cengel ex. 9-2b (inputs published, answer from memory): 128 W by the law of 0.54·Ra^¼, which
    # the book carries past Ra = 1e7, where this house changes to the other one.
    rayleigh = 9.8 / 333 * 60 * 0.15**3 / 1.896e-5**2 * 0.7202
    nusselt = float(convection.plate_up_nusselt(1e6)) * (rayleigh / 1e6) ** 0.25
    assert nusselt * 0.02808 / 0.15 * 0.36 * 60 == pytest.approx(128, rel=5e-3)


@pytest.mark.parametrize(
    ("real", "loss", "depth_m"),
    [
        # Definition of 1/e of the power, by way of the complex refractive index: an oil-like
        # ester, and water of 25 °C at 2.45 GHz (77.4 - 9.2j, memory).
        (3.3, 0.3, 0.11805),
        (77.4, 9.2, 0.018656),
    ],
)
def test_penetration_depth(real, loss, depth_m):
    damped = -np.sqrt(complex(real, -loss)).imag
    exact = 299_792_458.0 / (4 * math.pi * 2.45e9 * damped)
    assert exact == pytest.approx(depth_m, rel=1e-3)
    assert float(penetration_depth_m(real, loss, 2.45e9)) == pytest.approx(exact, rel=1e-9)


def test_dehydrochlorination_by_its_printed_constants():
    # Simon and Valko (1982): 170 kJ/mol, log10 A = 12.9 (A in 1/s): 2.016e-7 1/s at 180 °C.
    at_190 = 10**12.9 * math.exp(-170e3 / (GAS_J_MOLK * 463.15))
    slower = float(scorch.speed_up(np.asarray(1 / 453.15), np.asarray(170e3)))
    assert at_190 * slower == pytest.approx(2.016e-7, rel=1e-3)


@pytest.mark.parametrize(("celsius", "mm2_s"), [(0, 500), (20, 102), (37.8, 37), (100, 6)])
def test_flow_of_a_plasticizer(celsius, mm2_s):
    # Merck Index, diisononyl phthalate. Three constants through four points: a check of the fit.
    assert float(plasticizer_flow_mm2_s(np.asarray(celsius))) == pytest.approx(mm2_s, rel=0.03)


def zabransky(kelvin: float) -> float:
    """Zabransky et al., J. Phys. Chem. Ref. Data 39, 013103 (2010): DEHP, J/(kg·K), to 461.9 K.

    Their quasi-polynomial with the constants that the open library `chemicals` 1.5.2 carries.
    """
    a1, a2, *a = (6519.3, 793.32, -722.593, 5819.5, 1798.41, 3151.53)
    t = kelvin / 784.0
    molar = a1 * math.log(1 - t) + a2 / (1 - t) + sum(c * t**i for i, c in enumerate(a))
    return molar * GAS_J_MOLK / 0.39055612


@pytest.mark.parametrize(
    ("kelvin", "cp"), [(298.15, 1800.1), (373.15, 2036.0), (453.15, 2253.2)]
)  # fmt: skip
def test_heat_capacity_of_a_plasticizer(kelvin, cp):
    # The figures are the library's own; the line this house draws keeps within 1 % of them.
    assert zabransky(kelvin) == pytest.approx(cp, abs=0.1)
    found = float(plasticizer_heat_capacity_j_kgk(np.asarray(kelvin - 273.15)))
    assert found == pytest.approx(zabransky(kelvin), rel=0.01)


def test_plastisol_is_three_parts_plasticizer():
    # Mass mix on paper: at 170 °C PVC has about 1640 J/(kg·K) (Chang, J. Res. NBS 82, 1977,
    # memory), so 0.2475 x 1640 + 0.7525 x 2229.
    mixed = 0.2475 * 1640 + 0.7525 * zabransky(443.15)
    assert float(heat_capacity_j_kgk(np.asarray(170.0))) == pytest.approx(mixed, rel=0.01)


def finite_volumes_s(power: int) -> float:
    """Seconds until the middle of 10 mm is at 60 °C: slab (0) or round (1), 60 volumes to it."""
    n, half, step = 60, 5e-3, 0.02
    alpha, film = 0.13 / (1000 * 1950), 1000.0
    face = np.linspace(0, half, n + 1)
    volume = (face[1:] ** (power + 1) - face[:-1] ** (power + 1)) / (power + 1)
    width = half / n
    carry = alpha / width * face[1:-1] ** power
    skin = alpha / 0.13 * half**power / (1 / film + width / 2 / 0.13)
    temp, at = np.full(n, 165.0), 0.0
    while temp[0] > 60.0:
        flow = carry * np.diff(temp)
        gain = np.append(flow, 0.0) - np.append(0.0, flow)
        gain[-1] -= skin * (temp[-1] - 25.0)
        temp, at = temp + step * gain / volume, at + step
    return at


@pytest.mark.parametrize(
    ("solid", "power", "seconds"), [(Solid.SLAB, 0, 260.3), (Solid.CYLINDER, 1, 126.7)]
)
def test_opening_time_by_finite_volumes(solid, power, seconds):
    # Our own second road: 165 -> 60 °C in a mold of 25 °C behind 1000 W/(m²·K).
    assert finite_volumes_s(power) == pytest.approx(seconds, rel=3e-3)
    root = roots(solid, 1000 * 5e-3 / 0.13)
    fourier = center_fourier(np.array([35 / 140]), root, weights(solid, root))
    found = fourier[0] * 5e-3**2 / (0.13 / (1000 * 1950))
    assert found == pytest.approx(seconds, rel=1e-3)
