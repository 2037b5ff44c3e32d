"""Water, drag, sinking and hanging against printed figures, other libraries and closed forms."""

from __future__ import annotations

import math
from typing import Any

import fluids
import gsw
import iapws
import numpy as np
import pytest

from pourwright.base.band import exact
from pourwright.base.draws import Draws
from pourwright.blend.fall import Fall
from pourwright.blend.hang import HangInput, Posture, hang
from pourwright.blend.rig import Load, Weight, loads
from pourwright.blend.sink import Attitude, SinkInput, sink
from pourwright.matter.metal import Metal
from pourwright.matter.metal import density_kg_m3 as metal_kg_m3
from pourwright.matter.water import density_kg_m3, viscosity_pa_s
from pourwright.physics.drag import (
    along_cylinder_drag,
    ball_drag,
    cylinder_drag,
    end_share,
    finite_cylinder_drag,
    skin_friction,
    steady_speed_m_s,
)

GRAVITY = 9.80665


@pytest.mark.parametrize("salinity", [0.0, 17.0, 35.0, 40.0])
@pytest.mark.parametrize("temp_c", [2.0, 10.0, 20.0, 30.0])
def test_density_of_water_against_teos_10(salinity, temp_c):
    # Library: gsw, TEOS-10 at the surface; its salt is 35.16504 g/kg at practical salinity 35.
    absolute = salinity * 35.16504 / 35
    teos = gsw.rho_t_exact(absolute, temp_c, 0.0)
    assert density_kg_m3(temp_c, salinity) == pytest.approx(float(teos), abs=0.03)


@pytest.mark.parametrize(
    ("temp_c", "mpa_s"),
    [
        (20.0, 1.0016),  # ISO/TR 3666 (1998): water at 20 °C
        (25.0, 0.8897),  # IAPWS R12-08, table 4: 298.15 K, 998 kg/m³
    ],
)
def test_viscosity_of_pure_water(temp_c, mpa_s):
    assert 1000 * float(viscosity_pa_s(temp_c)) == pytest.approx(mpa_s, rel=6e-4)


@pytest.mark.parametrize("temp_c", [1.0, 10.0, 18.0, 30.0, 39.0])
def test_viscosity_of_pure_water_against_iapws(temp_c):
    # Library: iapws, the 1995 formulation with the 2008 viscosity.
    water = iapws.IAPWS95(T=temp_c + 273.15, P=0.101325)
    assert float(viscosity_pa_s(temp_c)) == pytest.approx(water.mu, rel=1.5e-3)


@pytest.mark.parametrize(
    ("temp_c", "salinity", "pa_s", "miss"),
    [
        # ITTC 7.5-02-01-03 (2011), table of sea water at 35.16 g/kg: 1.1892e-6 m²/s and 1026.021
        # kg/m³ at 15 °C.
        (15.0, 35.0, 1.1892e-6 * 1026.021, 5e-4),
        # Millero (1974), The Sea, vol. 5: check value at 25 °C and salinity 40.
        (25.0, 40.0, 9.6541e-4, 0.01),
    ],
)
def test_viscosity_of_sea_water(temp_c, salinity, pa_s, miss):
    # Sharqawy and others give their own fit as good to 1.5 %.
    assert float(viscosity_pa_s(temp_c, salinity)) == pytest.approx(pa_s, rel=miss)


def test_nothing_moves_without_a_force():
    # Closed form.
    assert float(steady_speed_m_s(np.array([0.0]), lambda v: v)[0]) == 0


@pytest.mark.parametrize(
    ("slenderness", "drag"), [(1, 0.63), (2, 0.68), (5, 0.74), (10, 0.82), (40, 0.98)]
)
def test_short_cylinders_across_the_flow(slenderness, drag):
    # Matthews, Aeronautical Engineer's Data Book (2002), fig. 5.13(b), against 1.20 when long.
    assert 1.20 * end_share(slenderness) == pytest.approx(drag, abs=1e-6)


@pytest.mark.parametrize(("slenderness", "drag"), [(1, 0.91), (2, 0.85), (4, 0.87), (7, 0.99)])
def test_blunt_cylinders_along_the_flow(slenderness, drag):
    # Same table.
    assert along_cylinder_drag(slenderness) == pytest.approx(drag)


@pytest.mark.parametrize(
    ("reynolds", "drag"),
    # Tritton, J. Fluid Mech. 6 (1959) 547 and Wieselsberger (1921), as texts draw them: about 10.5
    # at Re 1, 2.8 at 10, 1.4 at 100, 1.0 at 1000 and 1.1 at 1e4 (from memory).
    [(1.0, 10.5), (10.0, 2.8), (100.0, 1.4), (1000.0, 1.0), (1e4, 1.1)],
)
def test_long_cylinders_across_the_flow(reynolds, drag):
    assert float(cylinder_drag(np.array(reynolds))) == pytest.approx(drag, rel=0.16)


def test_ends_matter_only_in_fast_flow():
    # Closed form at both limits of the blend.
    slow, fast = (float(finite_cylinder_drag(np.array(re), 5.0)) for re in (0.5, 1e3))
    assert slow == pytest.approx(float(cylinder_drag(np.array(0.5))))
    assert fast == pytest.approx(float(cylinder_drag(np.array(1e3))) * 0.74 / 1.20)


@pytest.mark.parametrize("reynolds", [0.1, 1.0, 10.0, 100.0, 300.0, 5e3, 1e5])
def test_balls_against_a_library(reynolds):
    # Library: fluids, its recommended curve for spheres; both miss measurements by some percent.
    theirs = fluids.drag.drag_sphere(reynolds)
    assert float(ball_drag(np.array(reynolds))) == pytest.approx(theirs, rel=0.16)


@pytest.mark.parametrize(("reynolds", "drag"), [(100.0, 1.09), (1000.0, 0.471)])
def test_balls_on_the_standard_curve(reynolds, drag):
    # Clift, Grace and Weber (1978), standard drag curve (from memory).
    assert float(ball_drag(np.array(reynolds))) == pytest.approx(drag, rel=0.07)


def test_friction_of_a_plate():
    # Blasius (1908), texts: 0.0133 at Re 1e4 and 0.0042 at 1e5.
    assert skin_friction(np.array([1e4, 1e5])) == pytest.approx([0.01328, 0.0042], rel=1e-3)


@pytest.mark.parametrize(("times_gravity", "speed"), [(1, 0.0157816), (30, 0.206021)])
def test_a_falling_grain_of_coal(times_gravity, speed):
    # Cutlip and Shacham, ten problems for numerical packages, problem 5: coal of 0.208 mm and 1800
    # kg/m³ in water of 994.6 kg/m³ and 8.931e-4 Pa·s (set-up read; printed answer from memory).
    across, water, thick = 0.208e-3, 994.6, 8.931e-4
    force = (1800 - water) * times_gravity * 9.80665 * math.pi * across**3 / 6

    def drag(v):
        face = math.pi * across**2 / 4
        return 0.5 * water * v**2 * ball_drag(water * v * across / thick) * face

    found = float(steady_speed_m_s(np.array([force]), drag)[0])
    assert found == pytest.approx(speed, rel=5e-4)


@pytest.mark.parametrize(
    ("metal", "g_ml"),
    [
        # CRC Handbook, density of the elements (from memory); iron and steel tables for 7.85.
        (Metal.LEAD, 11.34), (Metal.TIN, 7.287), (Metal.BISMUTH, 9.79), (Metal.STEEL, 7.85),
        (Metal.BRASS, 8.5), (Metal.TUNGSTEN, 17.5), (Metal.GLASS, 2.5),
    ],
)  # fmt: skip
def test_densities_of_hooks_and_weights(metal, g_ml):
    assert float(metal_kg_m3(Draws(), metal)[0]) == pytest.approx(1000 * g_ml, rel=5e-3)


STICK: dict[str, Any] = {
    "volume_ml": exact(7.72),
    "length_mm": 127,
    "thick_mm": 9.5,
    "shadow_cm2": 11.1,
}


@pytest.mark.parametrize("density", [1.01, 1.06, 1.2])
@pytest.mark.parametrize("salinity", [0.0, 35.0])
def test_a_level_stick_balances_its_drag(density, salinity):
    # Closed form: weight in water against White's drag with the printed share of a rod of L/D
    # 13.4, between 0.82 at 10 and 0.98 at 40, all worked here from the speed found.
    done = sink(SinkInput(**STICK, density_g_ml=exact(density), salinity=salinity, water_c=20))
    speed = done.level_m_s.typical
    water, thick = density_kg_m3(20, salinity), float(viscosity_pa_s(20, salinity))
    share = 0.82 + (0.98 - 0.82) * math.log(127 / 9.5 / 10) / math.log(4)
    reynolds = water * abs(speed) * 9.5e-3 / thick
    drag = (1 + 10 / reynolds ** (2 / 3)) * share / 1.20
    force = 0.5 * water * speed**2 * drag * 11.1e-4
    assert force == pytest.approx(abs(7.72e-6 * (1000 * density - water)) * GRAVITY, rel=1e-6)
    assert math.copysign(1, speed) == math.copysign(1, 1000 * density - water)
    assert done.reynolds.typical == pytest.approx(reynolds, rel=1e-6)


def test_speed_band_is_about_a_fifth_away_from_neutral():
    # Estimate of the trade's own scatter: drag of a soft shape within 40 %, its root within 20 %.
    done = sink(SinkInput(**STICK, density_g_ml=exact(1.15), water_c=20))
    assert 0.12 < done.level_m_s.half_width / done.level_m_s.typical < 0.25


def test_one_percent_of_density_near_neutral():
    # Closed form: speed goes with the root of the difference where drag hardly changes; 1010
    # against 1000.1 kg/m³ in water of 998.2 is the root of 6.2.
    heavy, light = (
        sink(SinkInput(**STICK, density_g_ml=exact(d), water_c=20)).level_m_s.typical
        for d in (1.01, 1.0001)
    )
    assert heavy / light == pytest.approx(math.sqrt(11.8 / 1.9), rel=0.25)


def test_ten_feet_in_so_many_seconds():
    # Closed form.
    done = sink(SinkInput(**STICK, density_g_ml=exact(1.15), water_c=20))
    assert done.to_depth_s is not None
    assert done.to_depth_s.typical == pytest.approx(10 * 0.3048 / done.speed_m_s.typical, rel=1e-9)


def rod(offset: float, net_kg: float = 2e-3, rig: tuple[Load, ...] = ()):
    one = np.array([1.0])
    fall = Fall(
        thick_m=0.01, length_m=0.1, shadow_m2=1e-3, rig=rig, water_kg_m3=998 * one,
        viscosity_pa_s=1e-3 * one, shape=one, end=0.5 * one, travel=0.305 * one,
    )  # fmt: skip
    return fall.steady(np.array([net_kg]), np.array([offset]))


@pytest.mark.parametrize(("offset", "degrees"), [(0.0, 90.0), (0.1525, 30.0), (0.305, 0.0)])
def test_where_the_water_holds_a_tilted_rod(offset, degrees):
    # Joessel (1870): 0.195 + 0.305·sin of the tilt; half of its travel is 30 degrees. The way is
    # that much steeper than the rod.
    done = rod(offset)
    assert float(done.path_deg[0] - done.tilt_deg[0]) == pytest.approx(degrees, abs=1e-6)


def test_a_tilted_rod_balances_its_weight():
    # Closed form: drag across and along together are the weight, the one over the other the tilt.
    done = rod(0.1)
    sine = math.sin(math.radians(float(done.path_deg[0] - done.tilt_deg[0])))
    speed = float(done.along_m_s[0])
    pressure = 0.5 * 998 * speed**2
    across_re = 998 * speed * sine * 0.01 / 1e-3
    across = pressure * sine**2 * (1 + 10 / across_re ** (2 / 3)) * 0.82 / 1.20 * 1e-3
    rub = 1.328 / math.sqrt(998 * speed * 0.1 / 1e-3) * math.pi * 1e-3
    end = 0.5 * 0.99 * math.pi / 4 * 0.01**2
    along = pressure * (1 - sine**2) * (rub + end)
    assert math.hypot(across, along) == pytest.approx(2e-3 * GRAVITY, rel=1e-6)
    assert math.tan(math.radians(float(done.tilt_deg[0]))) == pytest.approx(along / across)
    down = speed * math.sin(math.radians(float(done.path_deg[0])))
    assert float(done.down_m_s[0]) == pytest.approx(down, rel=1e-9)


def test_net_weight_of_bait_and_rig_pulls_where_levers_say():
    # Closed form: 8 g of 1.06 g/mL weigh 8·(1 - 0.9982/1.06) = 0.4664 g in water, 1.5 g of steel
    # 1.5·(1 - 0.9982/7.85) = 1.3093 g at 30 of 120 mm: pulled at (0.4664·60 + 1.3093·30)/1.7757.
    inputs = SinkInput(
        mass_g=8, density_g_ml=exact(1.06), length_mm=120, thick_mm=10, water_c=20, center_x_mm=60,
        weights=(Weight(mass_g=1.5, at_mm=30),),
    )  # fmt: skip
    done = sink(inputs)
    assert done.net_g.typical == pytest.approx(1.7757, abs=2e-4)
    assert done.offset_share.typical == pytest.approx((37.88 - 60) / 120, abs=1e-4)
    assert done.attitude is Attitude.NOSE_AHEAD
    assert done.nose_down_deg.low > 0
    # Joessel (1870): the flow meets it at 1 - 0.1843/0.305 of the sine, 23.3 degrees.
    meets = done.path_deg.typical - done.nose_down_deg.typical
    assert meets == pytest.approx(math.degrees(math.asin(1 - 0.18433 / 0.305)), abs=0.05)


def test_a_weight_drags_as_a_ball_of_its_volume():
    # Closed form: 5 g of lead of 11.3 g/mL are a ball of 9.453 mm, 70.18 mm² across.
    (one,) = loads(Draws(), (Weight(mass_g=5, metal=Metal.LEAD, at_mm=0),))
    assert float(one.drag_m2[0]) == pytest.approx(70.18e-6, rel=1e-3)
    assert float(one.size_m[0]) == pytest.approx(9.453e-3, rel=1e-3)


def test_a_weight_adds_its_own_drag():
    # Closed form from the speed found: level under 2 g, 70.18 mm² of ball beside 10 cm² of rod.
    rig = loads(Draws(), (Weight(mass_g=5, metal=Metal.LEAD, at_mm=0),))
    speed = float(rod(0.0, rig=rig).along_m_s[0])
    re = 998 * speed / 1e-3
    across = (1 + 10 / (re * 0.01) ** (2 / 3)) * 0.82 / 1.20 * 1e-3
    ball = 0.44 if re * 9.453e-3 > 1000 else 24 / (re * 9.453e-3)
    force = 0.5 * 998 * speed**2 * (across + ball * 70.18e-6)
    assert re * 9.453e-3 > 1000
    assert force == pytest.approx(2e-3 * GRAVITY, rel=1e-4)


@pytest.mark.parametrize(
    ("figures", "miss"),
    [
        # Half-widths stated in the source beside each figure: half a percent of a density, one of
        # a volume, 0.45 of a step of the scale for each of two weighings (closed form).
        ({"mass_g": 50, "density_g_ml": exact(1.1), "scale_step_g": 0.001}, 0.005 * 50 / 1.1),
        ({"mass_g": 50, "volume_ml": exact(45), "scale_step_g": 0.001}, 0.01 * 45),
        # In air and in water the scale moves what the bait weighs there by the second alone.
        ({"mass_g": 50, "hung_g": 4.6, "scale_step_g": 0.5}, 0.45 * 0.5),
    ],
)
def test_what_a_figure_may_be_off(figures, miss):
    done = sink(SinkInput(**figures, length_mm=150, thick_mm=20, water_c=20))
    assert done.net_g.half_width == pytest.approx(miss, rel=0.1)


def test_a_hook_forward_hangs_the_nose_as_levers_say():
    # Closed form: a bait of 10 g and 10 mL of water with 2 g of steel 20 mm ahead of its middle
    # and 5 mm below. Mass: 2·20/12 = 3.333 mm ahead, 0.8333 below; buoyancy: water of 0.9982 on
    # 10 and 2/7.85 mL, 0.2548·20/10.2548 = 0.4969 ahead, 0.1242 below.
    done = hang(HangInput(
        mass_g=10, volume_ml=exact(10), water_c=20, buoyancy_at_mm=50,
        weights=(Weight(mass_g=2, at_mm=30, up_mm=-5),), tie_at_mm=50, tie_up_mm=10,
    ))  # fmt: skip
    along, down = 3.3333 - 0.4969, 0.8333 - 0.1242
    assert done.free_deg is not None
    assert done.free_deg.typical == pytest.approx(math.degrees(math.atan2(along, down)), abs=0.01)
    assert done.apart_mm.typical == pytest.approx(math.hypot(along, down), abs=1e-3)
    # On the line: net 10 - 9.982 + 2·(1 - 0.9982/7.85) = 1.7637 g, which pulls at
    # 1.7457·(20 ahead, 5 below)/1.7637 of the middle, 10 mm under the tie point's height.
    ahead, below = 1.7457 * 20 / 1.7637, 1.7457 * 5 / 1.7637 + 10
    assert done.on_line_deg is not None
    assert done.on_line_deg.typical == pytest.approx(
        math.degrees(math.atan2(ahead, below)), abs=0.02
    )
    assert done.net_g.typical == pytest.approx(1.7637, abs=5e-4)


@pytest.mark.parametrize(
    ("density", "posture", "degrees"), [(1.2, Posture.NOSE_UP, -90), (0.9, Posture.NOSE_DOWN, 90)]
)
def test_a_bait_tied_at_its_nose(density, posture, degrees):
    # Levers: a sinking bait hangs from its nose, a floating one stands on it.
    done = hang(HangInput(mass_g=10, density_g_ml=exact(density), water_c=20, buoyancy_at_mm=50))
    assert done.on_line is posture
    assert done.on_line_deg is not None
    assert done.on_line_deg.typical == pytest.approx(degrees, abs=1e-6)
    assert done.free is Posture.ANY
    assert done.free_deg is None
