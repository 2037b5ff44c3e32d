"""The table of light in a slab, and the solver behind it, against printed values and oracles."""

from __future__ import annotations

import math

import adding_doubling as ad
import iadpython as iad
import numpy as np
import pytest
from build_slab_table import FORWARD, PLASTIC_INDEX, WATER_INDEX

from pourwright.color.slab import Placing, reflectance, transmittance

AIR = ad.angles(PLASTIC_INDEX)
WATER = ad.angles(PLASTIC_INDEX / WATER_INDEX)
NONE = np.array([1e-12])


def test_forward_scattering_slab_of_van_de_hulst():
    # van de Hulst, Multiple Light Scattering (1980), table 35, as in Wang, Jacques and Zheng,
    # Comput. Methods Programs Biomed. 47 (1995) 131, table 1 (digits from memory): albedo 0.9,
    # optical thickness 2, mean cosine 0.75, no faces: sent back 0.09739, let through 0.66096.
    nearly_one = ad.angles(1.0000001, steep=14, shallow=10)
    back, through = ad.touching(np.array([0.2]), np.array([0.45]), nearly_one, 0.75)[0, :2]
    assert back == pytest.approx(0.09739, abs=2e-4)
    assert through == pytest.approx(0.66096, abs=2e-4)


def test_endless_slab_of_giovanelli():
    # Giovanelli, Optica Acta 2 (1955) 153, as in Wang, Jacques and Zheng (1995), table 2 (digits
    # from memory): index 1.5, albedo 0.9, even scattering: 0.2600 with the mirror light of 0.04.
    back = ad.touching(np.array([4.0]), np.array([36.0]), AIR, 0.0)[0, 0]
    assert back + AIR.straight == pytest.approx(0.2600, abs=2e-4)


@pytest.mark.parametrize(
    ("at", "outward", "inward"), [(AIR, 0.0918, 0.5963), (WATER, 0.0303, 0.2342)]
)
def test_faces_turn_back_what_walsh_and_judd_print(at, outward, inward):
    # Judd, J. Res. NBS 29 (1942) 329, for 1.5 in air (from memory); Walsh's formula for water.
    assert 1 - float(at.entering @ at.flux) == pytest.approx(outward, abs=1e-4)
    assert float(at.turned @ at.flux) == pytest.approx(inward, abs=1e-4)


@pytest.mark.parametrize("absorb", [0.001, 0.1, 1.0])
def test_clear_slab_across_air(absorb):
    # Closed form, Fresnel and Bouguer: two faces of 0.04 with exp(-a) between, mirror light of
    # the near face left out.
    straight, fade = AIR.straight, math.exp(-absorb)
    twice = 1 - straight**2 * fade**2
    back, through = ad.lying(np.array([absorb]), NONE, AIR, FORWARD)[0, :2]
    assert back == pytest.approx((1 - straight) ** 2 * straight * fade**2 / twice, abs=1e-7)
    assert through == pytest.approx((1 - straight) ** 2 * fade / twice, abs=1e-7)


@pytest.mark.parametrize("forward", [0.0, 0.7])
@pytest.mark.parametrize("put", [ad.touching, ad.lying])
def test_without_absorption_no_light_is_lost(put, forward):
    # Conservation of energy (closed form): what enters, 1 - 0.04, leaves on one side or the other.
    for scatter in (0.05, 1.0, 30.0):
        back, through, leaving, returned = put(NONE, np.array([scatter]), AIR, forward)[0]
        assert back + through == pytest.approx(1 - AIR.straight, abs=1e-8)
        assert leaving + returned == pytest.approx(1, abs=1e-8)


def test_even_scattering_agrees_with_another_adding_doubling():
    # Oracle: a public adding-doubling library, symmetric slab of index 1.5, even scattering.
    for absorb, scatter in ((0.01, 0.1), (0.3, 1.0), (0.05, 8.0)):
        sample = iad.ad.Sample(
            a=scatter / (absorb + scatter), b=absorb + scatter, g=0.0, d=1, n=1.5,
            n_above=1, n_below=1, quad_pts=16,
        )  # fmt: skip
        theirs_back, theirs_through, theirs_returned, theirs_leaving = sample.rt()
        ours = ad.lying(np.array([absorb]), np.array([scatter]), AIR, 0.0)[0]
        assert ours[0] + AIR.straight == pytest.approx(theirs_back, abs=1e-3)
        assert ours[1] == pytest.approx(theirs_through, abs=1e-3)
        assert ours[2] == pytest.approx(theirs_leaving, abs=1e-3)
        assert ours[3] == pytest.approx(theirs_returned, abs=1e-3)


@pytest.mark.parametrize(
    ("placing", "put", "at"),
    [
        (Placing.CONTACT, ad.touching, AIR),
        (Placing.AIR_GAP, ad.lying, AIR),
        (Placing.WATER_CONTACT, ad.touching, WATER),
        (Placing.WATER, ad.lying, WATER),
    ],
)
def test_the_shipped_table_is_the_solver(placing, put, at):
    # The table against a fresh run of the solver, away from its nodes.
    random = np.random.default_rng(4)
    absorb, scatter = (2.0 ** random.uniform(-12, top, 400) for top in (4, 7))
    back, through, leaving, returned = put(absorb, scatter, at, FORWARD).T
    for ground in (0.05, 0.5, 0.9):
        exact = back + through * leaving * ground / (1 - returned * ground)
        found = reflectance(absorb, scatter, np.array(ground), placing)
        assert np.abs(found - exact).max() < 1e-3
        assert np.abs(found - exact).mean() < 1e-4
    assert np.abs(transmittance(absorb, scatter, placing) - through).max() < 2e-3


def test_an_endless_slab_goes_by_its_ratio():
    # Closed form: with depth without end only absorption over scattering counts (Kubelka's R∞).
    thick = [
        float(reflectance(np.array(a), np.array(s), np.array(0.9), Placing.CONTACT))
        for a, s in ((40.0, 200.0), (400.0, 2000.0), (4e4, 2e5))
    ]
    assert thick[1] == pytest.approx(thick[0], abs=1e-3)
    assert thick[2] == pytest.approx(thick[0], abs=1e-3)


def test_nothing_in_the_way_shows_the_ground():
    # Closed form, Saunderson (1942) without mirror light: (1-k1)(1-k2)g/(1-k2·g).
    seen = float(reflectance(np.array(0.0), np.array(0.0), np.array(0.5), Placing.CONTACT))
    assert seen == pytest.approx(0.96 * (1 - 0.5963) * 0.5 / (1 - 0.5963 * 0.5), abs=1.5e-3)
