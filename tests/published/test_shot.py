"""Shots and loads against printed constants, closed forms and facts of the trade."""

from __future__ import annotations

from typing import Any

import pytest

from pourwright.base.units import convert
from pourwright.fill.shot import ShotInput, shot_plan

# Everything known, and round, so that the account can be done on paper.
ROUND: dict[str, Any] = {
    "bait_g": 10, "feed_g": 5, "cavities": 4, "count": 40, "reject_share": 0, "warmup_shots": 1,
    "molds": 2, "injector_ml": 100, "heel_ml": 5, "cup_ml": 500, "fill_share": 0.6,
    "residue_g": 10, "cold_density_g_ml": 1.0, "hot_density_g_ml": 0.9,
}  # fmt: skip


def test_fluid_ounce():
    # NIST SP 811 (2008), app. B.8 prints 2.957 353 E-05 m3 to the US fluid ounce.
    assert convert(1, "fl_oz", "ml") == pytest.approx(29.57353, abs=5e-6)
    # Hence the six-ounce injector.
    assert convert(6, "fl_oz", "ml") == pytest.approx(177.44, abs=0.005)


def test_account_done_on_paper():
    # Closed form. A shot is 4 x 10 + 5 = 45 g; a load gives 95 mL x 0.9 = 85.5 g: one shot.
    # A cup holds 300 g, less 10 g residue and 5 x 0.9 g heel: six shots. 40 / 4 + 1 = 11 shots.
    done = shot_plan(ShotInput(**ROUND))
    assert (done.shots, done.shots_per_load, done.loads, done.waves) == (11, 1, 11, 6)
    assert [(c.shots, c.loads, c.waves, c.rewarms) for c in done.cups] == [
        (6, 6, 3, 2),
        (5, 5, 3, 2),
    ]
    assert [c.plastic_g for c in done.cups] == pytest.approx([284.5, 239.5])
    assert [c.fill_line_ml for c in done.cups] == pytest.approx([284.5, 239.5])
    assert [c.fill_share for c in done.cups] == pytest.approx([0.569, 0.479])
    kinds = (done.good_g, done.spare_g, done.reject_g, done.warmup_g)
    assert kinds == pytest.approx((400, 0, 0, 40))
    assert (done.feed_g, done.heel_g, done.residue_g) == pytest.approx((55, 9, 20))
    assert done.plastic_g.typical == pytest.approx(524)
    assert (done.cold_ml, done.hot_ml) == pytest.approx((524, 524 / 0.9))
    assert done.waste_share == pytest.approx(124 / 524)
    # Nothing is in doubt, so neither range has a width.
    assert done.plastic_g.half_width == pytest.approx(0, abs=1e-9)
    assert done.good.half_width == 0
    assert done.short_risk == 0
    assert done.notes == ()


def test_chance_of_falling_short_is_a_binomial_tail():
    # Closed form: one wanted, half rejected, so two are made; both are bad a quarter of the time.
    one: dict[str, Any] = ROUND | {
        "cavities": 1,
        "count": 1,
        "reject_share": 0.5,
        "warmup_shots": 0,
    }
    assert shot_plan(ShotInput(**one)).short_risk == pytest.approx(0.25, abs=1e-12)


@pytest.mark.parametrize("worm_ml", [14, 17])
def test_six_ounces_fill_two_molds_of_seven_inch_worms(worm_ml):
    # Common practice, no source. The mold of four worms is invented; a worm 178 mm long and 10 to
    # 11 mm thick holds 14 to 17 mL. Feed, heel and densities are the typical ones.
    invented: dict[str, Any] = {
        "bait_ml": worm_ml,
        "cavities": 4,
        "count": 24,
        "cup_ml": 946,
        "molds": 3,
    }
    done = shot_plan(ShotInput(**invented, injector_ml=convert(6, "fl_oz", "ml")))
    assert done.shots_per_load == 2
    # Three molds on hand: two loads for each wave.
    assert done.loads > done.waves


def test_two_worms_a_mold_let_three_molds_into_a_load():
    # Closed form: two worms of 16 mL and 3.5 mL of feed are 35.5 mL packed to 0.97 x 1.052 g/mL,
    # 38.2 mL at 0.949 g/mL; 177.4 - 6 mL hold 4.49 of those. With a fat feed of 22 mL, 2.95.
    two: dict[str, Any] = {
        "cavities": 2,
        "count": 24,
        "cup_ml": 946,
        "molds": 4,
        "injector_ml": 177.4,
    }
    assert shot_plan(ShotInput(bait_ml=16, **two)).shots_per_load == 4
    assert shot_plan(ShotInput(bait_ml=16, feed_ml=22, **two)).shots_per_load == 2
