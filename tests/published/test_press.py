"""Pressed balls, gauges and plasticizers against printed laws and tables."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.stats import uniform

from pourwright.base.band import rounded_to
from pourwright.blend.gauge import laws_apart, modulus_of_a_gent, modulus_of_a_qi
from pourwright.blend.press import Known, Press
from pourwright.blend.press_test import PressInput, press_test
from pourwright.blend.rule import softening
from pourwright.matter.plasticizer import SUBSTITUTION, Plasticizer
from pourwright.physics.indent import floor_factor, hertz_modulus_pa


def test_rounding_leaves_an_even_spread():
    # SciPy: the middle nine tenths of errors spread evenly over half a step either way.
    low, high = uniform(-0.05, 0.1).interval(0.9)
    spread = rounded_to(0.1)
    assert (spread.low, spread.typical, spread.high) == pytest.approx((low, 0, high))


@pytest.mark.parametrize(("reading", "mpa"), [(20, 0.6755), (50, 3.4253), (80, 17.37)])
def test_modulus_of_shore_a_after_qi(reading, mpa):
    # Qi, Joyce and Boyce (2003): log10 E = 0.0235 S - 0.6403, worked by hand.
    assert modulus_of_a_qi(reading) == pytest.approx(mpa, rel=1e-3)


def test_the_two_laws_disagree():
    # Gent (1958) gives 2.4558 MPa at 50, Qi and others (2003) 3.4253: 39 % more; they cross near
    # 25 and part again above.
    assert modulus_of_a_gent(50) == pytest.approx(2.4558, abs=1e-4)
    assert laws_apart(50) == pytest.approx(1.395, abs=0.002)
    assert laws_apart(20) < 1 < laws_apart(30)


@pytest.mark.parametrize("depth_share", [0.05, 0.2, 0.5])
def test_hertz_against_the_exact_ball(depth_share):
    # Sneddon, Int. J. Eng. Sci. 3 (1965) 47: a true sphere of contact radius a,
    # d = a/2·ln((R + a)/(R - a)), F = E/(1 - ν²)·[(R² + a²)/2·ln((R + a)/(R - a)) - a·R].
    low, high, a = 1e-6, 1 - 1e-9, 0.5
    for _ in range(80):
        a = (low + high) / 2
        low, high = (a, high) if a / 2 * math.log((1 + a) / (1 - a)) < depth_share else (low, a)
    force = ((1 + a * a) / 2 * math.log((1 + a) / (1 - a)) - a) / 0.75
    found = float(hertz_modulus_pa(force_n=force, radius_m=1.0, depth_m=depth_share))
    assert found == pytest.approx(1.0, rel=0.06)


@pytest.mark.parametrize(
    ("stuck", "factor"),
    # Dimitriadis and others (2002), eqs. 12 and 13 at χ = 0.5, worked by hand:
    # 1 + 1.133·0.5 + 1.283·0.25 + 0.769·0.125 + 0.0975·0.0625 and the sliding one.
    [(1.0, 1.98947), (0.0, 1.68580), (0.5, 1.83763)],
)
def test_a_thin_layer_on_a_hard_floor(stuck, factor):
    # √(R·d)/h = √(5 mm · 1.25 mm)/5 mm = 0.5.
    found = floor_factor(radius_m=5e-3, depth_m=1.25e-3, thick_m=5e-3, stuck=stuck)
    assert float(found) == pytest.approx(factor, abs=2e-5)


def test_a_thick_layer_feels_no_floor():
    # Closed form: 1 as χ goes to 0.
    found = floor_factor(radius_m=5e-3, depth_m=1e-3, thick_m=50.0, stuck=1.0)
    assert float(found) == pytest.approx(1, abs=1e-4)


def test_a_pressed_ball_done_on_paper():
    # Johnson, Contact Mechanics (1985), eq. 4.23: E = 0.5625·F/(√R·d^1.5). 100 g on a ball of
    # 12 mm, 1.7 mm deep: 0.5625·0.980665/(0.0774597·7.0093e-5) = 101.60 kPa; its floor, χ = √10.2
    # over 12 = 0.26615, takes 1.40894 stuck and 1.29800 sliding: 1.35347 between.
    done = press_test(PressInput(press=Press(ball_mm=12, load_g=100, indent_mm=1.7, puck_mm=12)))
    stiff = 1 + 1.133 * 0.26615 + 1.283 * 0.26615**2 + 0.769 * 0.26615**3 + 0.0975 * 0.26615**4
    slid = 1 + 0.884 * 0.26615 + 0.781 * 0.26615**2 + 0.386 * 0.26615**3 + 0.0048 * 0.26615**4
    assert done.modulus_kpa.typical == pytest.approx(101.60 / ((stiff + slid) / 2), rel=2e-4)
    assert done.floor_share == pytest.approx(1 - 2 / (stiff + slid), abs=1e-4)
    assert 0.15 < done.modulus_kpa.half_width / done.modulus_kpa.typical < 0.3


def test_a_known_puck_takes_the_ball_out():
    # Closed form: under one ball and weight, on thick pucks, the modulus goes with depth^-1.5.
    thick = {"puck_mm": 80}
    done = press_test(PressInput(
        press=Press(ball_mm=4, load_g=20, indent_mm=1, **thick),
        known=Known(indent_mm=1.5, hardness_oo=30, **thick),
    ))  # fmt: skip
    assert done.firmer_ratio is not None
    assert done.firmer_ratio.typical == pytest.approx(1.5**1.5, rel=0.01)
    alone = press_test(PressInput(press=Press(ball_mm=4, load_g=20, indent_mm=1, **thick)))
    assert done.hardness_oo is not None
    assert alone.hardness_oo is not None
    assert done.hardness_oo.half_width < 0.8 * alone.hardness_oo.half_width


# Wilson, Plasticisers: principles and practice (1995), as the Danish Environmental Protection
# Agency's inventory of phthalates (2010), table 2.3, prints it: Shore A at 50 parts to 100.
WILSON = {
    Plasticizer.DIBUTYL_PHTHALATE: 75,
    Plasticizer.BUTYL_BENZYL_PHTHALATE: 76,
    Plasticizer.ETHYLHEXYL_PHTHALATE: 80,
    Plasticizer.ISONONYL_PHTHALATE: 84,
    Plasticizer.ISODECYL_PHTHALATE: 86,
}


def test_substitution_factors_rank_plasticizers_as_their_hardness_does():
    by_factor = sorted(WILSON, key=lambda p: SUBSTITUTION[p])
    assert by_factor == sorted(WILSON, key=lambda p: WILSON[p])


def test_substitution_factors_foretell_the_hardness_of_a_stiff_compound():
    # Fifty parts of each do what 50/factor parts of bis(2-ethylhexyl) phthalate do. By one slope
    # of about a point of Shore A to a part (common practice, no source: 0.5 to 1.5), the printed
    # hardness follows within three.
    more = np.array([50 - 50 / SUBSTITUTION[p] for p in WILSON])
    harder = np.array([hard - 80.0 for hard in WILSON.values()])
    slope = float(more @ harder / (more @ more))
    assert 0.5 < slope < 1.5
    assert harder == pytest.approx(slope * more, abs=3)


def test_a_weak_plasticizer_softens_less():
    # Closed form: 27.5 parts of diisodecyl phthalate do what 25 of the reference do,
    # 2.6·ln 1.25 = 0.58017.
    fall = softening(
        softener_per_100g=27.5,
        power=np.array([2.6]),
        substitution=SUBSTITUTION[Plasticizer.ISODECYL_PHTHALATE],
    )
    assert float(fall[0]) == pytest.approx(0.58017, abs=1e-5)
