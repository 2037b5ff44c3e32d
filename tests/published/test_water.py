"""Water and the water test against printed figures. Each check names its source."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from pourwright.heat.water_test import WaterTestInput, iec_60705_w, water_test
from pourwright.matter import scorch
from pourwright.matter.water import HEAT_CAPACITY_J_KGK, density_kg_m3


@pytest.mark.parametrize(
    ("temp_c", "salinity", "density"),
    [
        # UNESCO Technical Papers in Marine Science 44 (1983), check values at one atmosphere.
        (5, 0, 999.96675), (25, 0, 997.04796), (5, 35, 1027.67547), (25, 35, 1023.34306),
    ],
)  # fmt: skip
def test_density_of_water(temp_c, salinity, density):
    assert density_kg_m3(temp_c, salinity) == pytest.approx(density, abs=6e-6)


def test_density_against_iapws():
    # Library: IAPWS-95 at 20 °C and one atmosphere, 998.207 kg/m³.
    assert density_kg_m3(20.0) == pytest.approx(998.207, rel=2e-6)


@pytest.mark.parametrize("cp", [4195.16, 4184.05, 4196.75])
def test_heat_capacity_of_water(cp):
    # Library: IAPWS-95 at 10, 20 and 80 °C; one figure stands for all within 0.4 %.
    assert pytest.approx(cp, rel=4e-3) == HEAT_CAPACITY_J_KGK


@pytest.mark.parametrize(
    ("seconds", "watts"), [(70, 600), (60, 700), (52, 800), (47, 900), (42, 1000), (38, 1100)]
)
def test_iec_60705_by_a_service_table(seconds, watts):
    # A microwave maker's service manual: seconds for one liter to rise 10 K, against the output
    # by IEC 60705, rounded to whole seconds.
    found = iec_60705_w(
        water_g=1000, start_c=10, end_c=20, on_s=seconds, vessel_g=0, ambient_c=20
    )  # fmt: skip
    assert found == pytest.approx(watts, rel=0.011)


IEC: dict[str, Any] = {
    "water_g": 1000, "start_c": 10, "end_c": 20, "on_s": 60, "vessel_g": 400, "ambient_c": 23,
}  # fmt: skip


def test_iec_60705_with_its_vessel():
    # IEC 60705, clause 8 (memory), on paper: (4.187 x 1000 x 10 + 0.55 x 400 x (20 - 23)) / 60.
    assert water_test(WaterTestInput(**IEC)).iec_60705_w == pytest.approx(686.83, abs=0.01)


def plain(**changed) -> WaterTestInput:
    """A test without doubt in which nothing but water takes up heat."""
    known = {
        "water_g": 1000, "start_c": 20, "end_c": 40, "on_s": 120, "vessel_g": 100,
        "vessel_j_kgk": 830, "vessel_share": 0, "ambient_c": 20, "rise_error_k": 0,
        "warm_filament_s": 0,
    }  # fmt: skip
    return WaterTestInput(**(known | changed))


def test_one_liter_two_minutes():
    # Laboratory practice: W = 35 K⁻¹ x rise of 1 L in 2 min; EPA SW-846 method 3051: 34.86.
    assert water_test(plain()).power_w.typical / 20 == pytest.approx(34.86, rel=1e-3)


def test_two_cups_one_minute():
    # Kitchen practice: W = 17.5 x rise in °F of two US cups (473.2 g) in 1 min; reads 4 % low.
    found = water_test(plain(water_g=473.2, end_c=20 + 40 * 5 / 9, on_s=60)).power_w.typical / 40
    assert found == pytest.approx(17.5, rel=0.05)


def test_two_liters():
    # Buffler, Microwave Cooking and Processing (1993, memory): W = 70 x rise, 2 L in 2:02.
    found = water_test(plain(water_g=2000, end_c=30, on_s=122)).power_w.typical / 10
    assert found == pytest.approx(70, rel=0.025)


def test_a_cold_filament_takes_no_part():
    # On paper: 1000 g x 4.182 J/(g K) x 20 K in 118 s of heating.
    assert water_test(plain(warm_filament_s=2)).power_w.typical == pytest.approx(708.8, abs=0.1)


def test_glass_takes_its_share():
    # On paper: half of 400 g x 0.83 J/(g K) x 20 K more, over 120 s.
    glass = water_test(plain(vessel_g=400, vessel_share=0.5)).power_w.typical
    assert glass == pytest.approx(697 + 0.5 * 400 * 0.83 * 20 / 120, abs=0.1)


def test_dehydrochlorination_speeds_up():
    # Krongauz et al., Polym. Degrad. Stab. (2011): 150 kJ/mol; 180 to 190 °C is then 2.362 times.
    rate = scorch.speed_up(1 / (np.array([180.0, 190.0]) + 273.15), np.array(150e3))
    assert rate[1] / rate[0] == pytest.approx(2.362, abs=1e-3)
    assert rate[1] == pytest.approx(1)
