"""Blends against printed gauges, moduli, lattice constants and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest

from pourwright.blend.density import Additive, DensityInput, blend_density, density, parts_for
from pourwright.blend.gauge import (
    a_spring_n,
    log_modulus_of_oo,
    log_modulus_per_oo,
    modulus_of_a_gent,
    oo_of_a,
    oo_of_log_modulus,
    oo_spring_n,
)
from pourwright.blend.hardness import Grade, HardnessInput, Puck, hardness
from pourwright.blend.rule import blend_oo, softening
from pourwright.matter.additive import DENSITY_G_ML
from pourwright.matter.water import density_kg_m3

STANDARD_GRAVITY = 9.80665


def test_springs_of_the_gauges():
    # ASTM D2240, spring forces (from memory): A 0.550 to 8.05 N, OO 0.203 to 1.111 N.
    assert (a_spring_n(0), a_spring_n(100)) == pytest.approx((0.550, 8.05))
    assert (oo_spring_n(0), oo_spring_n(100)) == pytest.approx((0.203, 1.111))
    # Gauge makers print 822 g for type A and 113 g for type OO (common practice).
    assert a_spring_n(100) == pytest.approx(0.822 * STANDARD_GRAVITY, rel=2e-3)
    assert oo_spring_n(100) == pytest.approx(0.113 * STANDARD_GRAVITY, rel=4e-3)


@pytest.mark.parametrize(
    ("reading", "mpa"), [(20, 0.7319), (30, 1.1424), (50, 2.4558), (70, 5.5205)]
)
def test_modulus_of_shore_a_after_gent(reading, mpa):
    # Gent (1958), E = 0.0981 (56 + 7.62336 S) / (0.137505 (254 - 2.54 S)), worked by hand.
    assert modulus_of_a_gent(reading) == pytest.approx(mpa, rel=1e-3)


@pytest.mark.parametrize("reading", [20, 30, 40, 50])
def test_two_printed_rules_for_shore_a_agree(reading):
    # Qi, Joyce and Boyce (2003): log10 E = 0.0235 S - 0.6403 for 20 < S < 80.
    qi = 10 ** (0.0235 * reading - 0.6403)
    assert modulus_of_a_gent(reading) == pytest.approx(qi, rel=0.3)


@pytest.mark.parametrize(
    ("shore_a", "shore_oo"),
    [(5, 45), (10, 55), (15, 62), (20, 70), (25, 76), (30, 80), (40, 86), (50, 90), (70, 95)],
)
def test_shore_a_read_as_shore_oo(shore_a, shore_oo):
    # Conversion chart of gauge makers (common practice, no source): within ten at the soft end.
    assert oo_of_a(shore_a) == pytest.approx(shore_oo, abs=9 if shore_a < 20 else 4)


@pytest.mark.parametrize("reading", [10, 50, 90])
def test_ball_of_the_gauge_after_hertz(reading):
    # Johnson, Contact Mechanics (1985), eq. 4.23: F = 4/3 E* R^1/2 d^3/2, E* = E / (1 - 0.5^2).
    e_star = math.exp(log_modulus_of_oo(reading)) * 1e6 / 0.75
    force = 4 / 3 * e_star * math.sqrt(1.19e-3) * (2.54e-3 * (1 - reading / 100)) ** 1.5
    assert force == pytest.approx(oo_spring_n(reading), rel=1e-12)


def test_slope_of_the_gauge():
    # Closed form against the difference quotient.
    for reading in (10, 42, 88):
        rise = log_modulus_of_oo(reading + 1e-4) - log_modulus_of_oo(reading - 1e-4)
        assert log_modulus_per_oo(reading) == pytest.approx(rise / 2e-4, rel=1e-6)


def test_equal_parts_have_the_geometric_mean_of_the_moduli():
    # Closed form of the log rule.
    half = oo_of_log_modulus(np.array([(log_modulus_of_oo(30) + log_modulus_of_oo(70)) / 2]))
    assert blend_oo((50, 50), (30, 70)) == pytest.approx(float(half[0]), abs=1e-6)
    # A plain average would say 50; the rule leans to the firm one, by two.
    assert blend_oo((50, 50), (30, 70)) == pytest.approx(52, abs=0.5)


def test_softener_after_li_and_aoki():
    # Li and Aoki, Macromolecules 31 (1998) 740: exponent 2.6 +- 0.1. Resin thinned to 0.8 of it
    # leaves 0.8^2.6 = 0.5598 of the modulus.
    fall = softening(softener_per_100g=25, power=np.array([2.6]))
    assert math.exp(-float(fall[0])) == pytest.approx(0.5598, abs=1e-4)


def test_own_line_through_two_pucks():
    # Closed form: halfway between two pucks, the geometric mean of their moduli.
    grades = (Grade(hardness_oo=20), Grade(hardness_oo=90))
    pucks = (Puck(share=0.25, hardness_oo=60), Puck(share=0.75, hardness_oo=40))
    done = hardness(HardnessInput(grades=grades, pucks=pucks, target_oo=50))
    rise = log_modulus_of_oo(60) - log_modulus_of_oo(40)
    want = 0.25 + 0.5 * (log_modulus_of_oo(60) - log_modulus_of_oo(50)) / rise
    assert done.share is not None
    assert done.share.typical == pytest.approx(want, abs=1e-9)
    assert done.hardness_oo.typical == pytest.approx(50, abs=0.01)


def test_salt_by_its_lattice():
    # Rock salt: four pairs of 58.443 g/mol in a cube of 564.02 pm (CRC Handbook, crystal
    # structures), Avogadro constant 6.02214076e23 (SI Brochure, 2019).
    lattice = 4 * 58.443 / (6.02214076e23 * (564.02e-10) ** 3)
    band = DENSITY_G_ML["salt"].band
    assert band.typical == pytest.approx(lattice, rel=1e-3)
    # CRC Handbook, physical constants of inorganic compounds: 2.17.
    assert band.typical == pytest.approx(2.17, abs=0.006)
    assert band.low <= lattice <= band.high


def test_salt_for_a_density_done_on_paper():
    # Closed form: (1/1.05 - 1/1.12) / (1/1.12 - 1/2.165) = 0.059524 / 0.430963.
    done = density(DensityInput(base_g_ml=1.05, additive_g_ml=2.165, target_g_ml=1.12))
    assert done.parts_per_100g.typical == pytest.approx(13.812, abs=1e-3)
    assert done.share.typical == pytest.approx(0.12136, abs=1e-5)
    assert done.density_g_ml.typical == pytest.approx(1.12, rel=1e-12)


def test_hollow_glass_for_a_density_done_on_paper():
    # Closed form: (1/1.05 - 1/0.99) / (1/0.99 - 1/0.15) = 0.057720 / 5.656566.
    done = density(
        DensityInput(
            base_g_ml=1.05, additive=Additive.HOLLOW_GLASS, additive_g_ml=0.15, target_g_ml=0.99
        )
    )
    assert done.parts_per_100g.typical == pytest.approx(1.0204, abs=1e-4)


def test_equal_volumes_have_the_mean_density():
    # Closed form: 100 g at 1.0 and 216.5 g at 2.165 g/mL fill 100 mL each.
    mixed = blend_density(216.5, np.array([1.0]), np.array([2.165]))
    assert float(mixed[0]) == pytest.approx((1.0 + 2.165) / 2, rel=1e-12)


def test_plastisol_of_resin_and_plasticizer():
    # Volumes add: 100 parts of resin of 1.40 with 100 parts of diisononyl phthalate of 0.972 g/mL
    # are 200 g in 71.429 + 102.881 mL.
    mixed = blend_density(100, np.array([1.40]), np.array([0.972]))
    assert float(mixed[0]) == pytest.approx(200 / 174.309, rel=1e-5)


def test_neutral_names_its_water():
    # UNESCO (1981): sea water of salinity 35 and 25 °C is 1023.343 kg/m3; a base of 1.0 needs
    # (1 - 1/1.023343) / (1/1.023343 - 1/2.165) = 4.4267 parts of salt to hang in it.
    sea = density_kg_m3(25, 35) / 1000
    assert sea == pytest.approx(1.023343, abs=1e-6)
    parts = parts_for(sea, np.array([1.0]), np.array([2.165]))
    assert float(parts[0]) == pytest.approx(4.4267, abs=1e-4)


def test_bands_of_two_labels_are_no_wider_than_eight():
    # Estimate: labels within 4, the rule within 6 at equal parts of 30 and 70 Shore OO.
    grades = (Grade(hardness_oo=30, grams_g=50), Grade(hardness_oo=70, grams_g=50))
    done = hardness(HardnessInput(grades=grades))
    assert 5 < done.hardness_oo.half_width < 8


def test_band_of_a_share_is_the_band_of_its_hardness():
    # Closed form: near the middle of 30 and 70 Shore OO the log rule falls by 43 for all of the
    # share, so that a hardness within 7 leaves the share within about 0.16.
    pair = (Grade(hardness_oo=30), Grade(hardness_oo=70))
    done = hardness(HardnessInput(grades=pair, target_oo=52))
    fall = (log_modulus_of_oo(70) - log_modulus_of_oo(30)) / log_modulus_per_oo(52)
    assert done.share is not None
    assert done.share.half_width == pytest.approx(done.hardness_oo.half_width / fall, rel=0.1)
    assert 0.13 < done.share.half_width < 0.19
