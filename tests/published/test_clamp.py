"""Clamp, flash, vents, bubbles and settling against printed figures and closed forms."""

from __future__ import annotations

import math

import iapws
import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from pourwright.base.band import exact
from pourwright.base.draws import Draws
from pourwright.fill.air import AirInput, Vent, air, vent_flow_m3_s
from pourwright.fill.bubbles import BubblesInput, bubbles, steam_ml, swelling, wider_in
from pourwright.fill.clamp import ClampInput, clamp
from pourwright.fill.clamp_kinds import Bar, Bolt, Spring, Toggle
from pourwright.fill.flash import CLOSING, creep_m
from pourwright.fill.settle import round_radius_m, settle
from pourwright.fill.settle_input import Particle, SettleInput, State
from pourwright.matter.air import ATMOSPHERE_PA, viscosity_pa_s
from pourwright.physics.settling import (
    CLEAN_BUBBLE,
    DISK_AT_RANDOM,
    DISK_BROADSIDE,
    DISK_EDGEWISE,
    ball_speed_m_s,
    disk_speed_m_s,
    hindered,
)

GRAVITY = 9.80665


def test_push_over_bore_times_shadow():
    # Closed form (Pascal): 113 N on a bore of 35 mm is 117.45 kPa, on 38 cm² 446.3 N.
    done = clamp(ClampInput(shadow_cm2=38, push_n=113, bore_mm=35))
    assert done.pressure_kpa.typical == pytest.approx(117.45, abs=0.01)
    assert done.needed_n.typical == pytest.approx(446.3, abs=0.1)


@pytest.mark.parametrize(("bore_mm", "kpa"), [(30, 159.86), (50, 57.55)])
def test_a_small_bore_presses_harder(bore_mm, kpa):
    # Closed form.
    done = clamp(ClampInput(shadow_cm2=38, push_n=113, bore_mm=bore_mm))
    assert done.pressure_kpa.typical == pytest.approx(kpa, abs=0.02)


@pytest.mark.parametrize(
    ("one", "newton"),
    [
        # Shigley, Mechanical Engineering Design, T = K·F·d with K 0.2 (from memory).
        (Bolt(bolt_mm=5, torque_n_m=0.5), 500.0),
        (Bolt(bolt_mm=8, torque_n_m=4), 2500.0),
        # Application notes of a maker of toggle clamps: half of the holding capacity.
        (Toggle(holding_n=900), 450.0),
        # Common practice, no source.
        (Spring(), 150.0),
        (Bar(), 800.0),
    ],
)
def test_what_clamps_press_with(one, newton):
    draws = Draws()
    assert float(one.force_n(draws, "")[0]) == pytest.approx(newton)


def test_a_held_push_brings_the_force_needed_to_the_force_had():
    # Closed form.
    first = ClampInput(shadow_cm2=38, push_n=110, bore_mm=35, clamps=(Spring(grip_n=100),))
    done = clamp(first)
    again = clamp(ClampInput(
        shadow_cm2=38, push_n=done.push_held_n.typical, bore_mm=35, clamps=first.clamps,
    ))  # fmt: skip
    assert again.needed_n.typical == pytest.approx(200, rel=1e-9)
    assert again.had_ratio.typical == pytest.approx(1, rel=1e-9)


def test_what_is_left_of_a_closing_slot():
    # Closed form: ∫ (1 - √τ)³ dτ = 2·B(2, 4) = 0.1; and the integral itself.
    found, _ = quad(lambda tau: (1 - math.sqrt(tau)) ** 3, 0, 1)
    assert pytest.approx(found, abs=1e-9) == CLOSING


def test_flash_against_a_march():
    # Independent: dL/dt = P·h_open³/(12·η·h·L) with the gap closing by both skins, marched in time.
    gap, push, thick, growth = 2e-4, 1.2e5, 3.0, 1.5e-4
    shut = (gap / 2 / growth) ** 2

    def grows(t, length):
        opened = gap - 2 * growth * math.sqrt(t)
        return [push * max(opened, 0) ** 3 / (12 * thick * gap * max(length[0], 1e-12))]

    run = solve_ivp(grows, (0, shut), [1e-7], method="LSODA", rtol=1e-8, atol=1e-12)
    one = np.array([1.0])
    found = creep_m(gap_m=gap, push_pa=push * one, viscosity_pa_s=thick * one, growth_m_rs=growth)
    assert float(found[0]) == pytest.approx(float(run.y[0, -1]), rel=2e-3)


def test_flash_grows_with_the_square_of_the_gap():
    # Closed form, and about a third of a millimeter at 0.1 mm (common practice, no source: a slip
    # of paper between halves just shows).
    small, large = (
        clamp(ClampInput(shadow_cm2=38, push_n=113, bore_mm=35, gap_mm=g, mold_c=30, melt_c=175))
        for g in (0.1, 0.2)
    )
    assert large.flash_mm.typical == pytest.approx(4 * small.flash_mm.typical, rel=1e-9)
    assert 0.1 < small.flash_mm.typical < 1
    seen = small.visible_gap_mm.typical
    there = clamp(ClampInput(
        shadow_cm2=38, push_n=113, bore_mm=35, gap_mm=seen, mold_c=30, melt_c=175,
    ))  # fmt: skip
    assert there.flash_mm.typical == pytest.approx(0.5, rel=1e-6)


@pytest.mark.parametrize("temp_c", [0.0, 20.0, 100.0])
def test_viscosity_of_air(temp_c):
    # Library: iapws, dry air after Lemmon and others.
    assert float(viscosity_pa_s(temp_c)) == pytest.approx(
        iapws.humidAir.Air(T=temp_c + 273.15, P=0.101325).mu, rel=0.01
    )


@pytest.mark.parametrize(("depth_mm", "ml_s"), [(0.05, 10.55), (0.02, 0.675)])
def test_air_through_a_vent_done_on_paper(depth_mm, ml_s):
    # Closed form: 4 mm wide, 10 mm long, 58.5 kPa over the open: w·h³·P/(12·μ·L) less the half of
    # P/(P₀ + P) that thinning takes, at μ = 1.9e-5.
    vent = Vent(depth_mm=depth_mm)
    plain = 4e-3 * (depth_mm * 1e-3) ** 3 * 58.5e3 / (12 * 1.9e-5 * 0.01)
    thinned = plain * (1 - 58.5 / (2 * (101.325 + 58.5)))
    found = 1e6 * float(vent_flow_m3_s(vent, np.array([58.5e3]), np.array([1.9e-5]))[0])
    assert found == pytest.approx(1e6 * thinned, rel=1e-9)
    assert found == pytest.approx(ml_s, rel=0.01)


def test_half_of_the_push_drives_the_air():
    # Closed form: 110 N on 35 mm are 114.33 kPa, half of it 57.17; four vents of 4 x 0.05 x 10 mm,
    # air of 60 °C with 20.0 µPa·s (Incropera and DeWitt, table A.4, between 184.6e-7 at 300 K and
    # 208.2e-7 at 350 K, from memory).
    done = air(
        AirInput(cavity_ml=30, push_n=110, bore_mm=35, vents=(Vent(count=4, depth_mm=0.05),))
    )
    plain = 4e-3 * (5e-5) ** 3 * 57.17e3 / (12 * 20.0e-6 * 0.01)
    flow = 4 * plain * (1 - 57.17 / (2 * 158.49))
    assert done.flow_ml_s is not None
    assert done.flow_ml_s.typical == pytest.approx(1e6 * flow, rel=3e-3)
    assert done.out_s is not None
    assert done.out_s.typical == pytest.approx(30e-6 / flow, rel=3e-3)


def test_isothermal_slot_against_a_march():
    # Independent: dp/dx = -12·μ·G·R·T/(w·h³·p), flow at the entry from the mass flow.
    vent, inside, thin = Vent(depth_mm=0.05), ATMOSPHERE_PA + 60e3, 2e-5
    flow = float(vent_flow_m3_s(vent, np.array([60e3]), np.array([thin]))[0])
    moles = flow * inside

    def falls(_x, p):
        return [-12 * thin * moles / p[0] / (4e-3 * (5e-5) ** 3)]

    run = solve_ivp(falls, (0, 0.01), [inside], rtol=1e-9)
    assert float(run.y[0, -1]) == pytest.approx(ATMOSPHERE_PA, rel=1e-5)


def test_a_deep_vent_chokes():
    # Isentropic flow of a gas of two atoms (texts on gas dynamics, from memory): choked flux is
    # 0.6847·P/√(R·T); over the density P/(R·T) that is 0.6847·√(R·T), at 293 K 198.6 m/s.
    vent = Vent(depth_mm=1.0, length_mm=0.5)
    flow = float(vent_flow_m3_s(vent, np.array([2e5]), np.array([1.9e-5]))[0])
    assert flow / (4e-3 * 1e-3) == pytest.approx(0.6847 * math.sqrt(287.05 * 293.15), rel=2e-3)


@pytest.mark.parametrize(("push_n", "share"), [(113.0, 0.4632), (144.32, 0.4032)])
def test_air_left_in_a_tight_mold(push_n, share):
    # Boyle: P₀/(P₀ + P); 144.32 N on 35 mm are 150.0 kPa, 101.325/251.325.
    done = air(AirInput(cavity_ml=30, push_n=push_n, bore_mm=35))
    assert done.trapped_share.typical == pytest.approx(share, abs=1e-4)
    assert done.out_s is None


def test_stokes_bubble():
    # Stokes (1851): 1 mm, 1040 kg/m³ lighter, 5 Pa·s: 1e-6·1040·9.80665/90 = 0.11332 mm/s; a clean
    # skin half as fast again (Hadamard 1911).
    rigid, clean = (
        float(ball_speed_m_s(diameter_m=1e-3, lighter_kg_m3=1040, viscosity_pa_s=5, **skin))
        for skin in ({}, {"skin": CLEAN_BUBBLE})
    )
    assert rigid == pytest.approx(1.13321e-4, rel=1e-5)
    assert clean / rigid == pytest.approx(1.5)


@pytest.mark.parametrize(("bubble_mm", "minutes"), [(0.1, 175), (0.3, 19.4), (0.5, 7.0), (1, 1.75)])
def test_minutes_to_rise(bubble_mm, minutes):
    # Closed form: 60 mm over d²·ρ·g/(18·η) at 1 Pa·s and 1052 kg/m³.
    plain = 0.06 * 18 * 1.0 / ((bubble_mm / 1000) ** 2 * 1052 * GRAVITY) / 60
    done = bubbles(BubblesInput(bubble_mm=bubble_mm, viscosity_pa_s=1, liquid_c=25))
    assert done.rest_min.typical == pytest.approx(plain, rel=1e-9)
    assert done.rest_min.typical == pytest.approx(minutes, rel=0.01)
    # A clean skin is the fast end of the band.
    assert done.rest_min.low == pytest.approx(plain / 1.5, rel=0.05)
    # The rest at hand and the bubble it clears: d² for t.
    assert done.smallest_gone_mm.typical == pytest.approx(
        bubble_mm * math.sqrt(plain / 15), rel=1e-9
    )


def test_a_bubble_in_a_vacuum():
    # Boyle: 101.325/3 kPa is 33.775 of the volume, its cube root 3.23245 of the width.
    assert wider_in(30.0) == pytest.approx(3.23245, abs=1e-5)
    assert float(swelling(0.02, 30.0)) == pytest.approx(1 + 0.02 * 32.775, rel=1e-9)
    done = bubbles(BubblesInput(bubble_mm=0.2, chamber_hpa=30))
    assert done.vacuum_min is not None
    assert done.rest_min.typical / done.vacuum_min.typical == pytest.approx(3.23245**2, rel=1e-4)


def test_steam_of_a_milligram():
    # Library: iapws, saturated steam at 100 °C: 1.672 m³/kg, that is mL to a mg; ideal within 2 %.
    steam = iapws.IAPWS97(T=373.15, x=1).v
    assert steam_ml(1.0, 100.0) == pytest.approx(steam, rel=0.02)


def test_a_disk_sinks_by_its_attitude():
    # Happel and Brenner (1983), thin disk: 16·η·a·U broadside, 32/3 edgewise, half as fast again;
    # at random 12, the mean of the mobilities; broadside 8/(3π) of the drag of a ball as wide.
    assert pytest.approx(1.5) == DISK_BROADSIDE / DISK_EDGEWISE
    assert pytest.approx(12) == DISK_AT_RANDOM
    assert DISK_BROADSIDE / (6 * math.pi) == pytest.approx(8 / (3 * math.pi))
    speed = disk_speed_m_s(
        radius_m=2e-4, thick_m=25e-6, heavier_kg_m3=440, viscosity_pa_s=2, attitude=16
    )
    assert float(speed) == pytest.approx(math.pi * 2e-4 * 25e-6 * 440 * GRAVITY / 32, rel=1e-9)


def test_a_hexagon_as_a_disk():
    # Closed form: √3/2·s² = π·r².
    assert math.pi * round_radius_m(0.4) ** 2 == pytest.approx(math.sqrt(3) / 2 * 0.16, rel=1e-12)


@pytest.mark.parametrize(("share", "left"), [(0.0, 1.0), (0.1, 0.6127), (0.4, 0.0930)])
def test_a_crowd_hinders_itself(share, left):
    # Richardson and Zaki (1954): (1 - φ)^4.65, worked by hand.
    assert float(hindered(share)) == pytest.approx(left, abs=1e-4)


def test_salt_in_hot_plastic_done_on_paper():
    # Stokes with the cube's 0.92 (Pettyjohn and Christiansen 1948): 0.2 mm, 2165 in 949 kg/m³, at
    # 3 Pa·s: 4e-8·1216·9.80665/54 = 8.833e-6 m/s, 0.530 mm a minute, times 0.92.
    done = settle(SettleInput(particle=Particle.SALT, size_mm=0.2, melt_pa_s=exact(3)))
    assert done.rate_mm_min.typical == pytest.approx(0.530 * 0.92, rel=2e-3)
    assert done.in_cup_mm.typical == pytest.approx(done.rate_mm_min.typical, rel=1e-9)


def test_flake_in_hot_plastic_done_on_paper():
    # Disk at random: π·a·t·Δρ·g/(12·η), a = 0.525·0.4 mm, 25 µm, 1380 in 949 kg/m³, 2 Pa·s.
    done = settle(SettleInput(size_mm=0.4, film_um=25))
    plain = math.pi * 0.52504 * 4e-4 * 25e-6 * 431 * GRAVITY / 24 * 60_000
    assert done.rate_mm_min.typical == pytest.approx(plain, rel=1e-4)
    # Common practice, no source: flake stays up for the minute a cup stands.
    assert abs(done.in_cup_mm.high) < 1


def test_hollow_glass_rises_in_the_jug():
    # Stokes: 0.06 mm, 0.2 in 1.052 g/mL, 1.5 Pa·s at 25 °C: -3.6e-9·852·9.80665/27 m/s.
    done = settle(SettleInput(
        particle=Particle.HOLLOW_GLASS, size_mm=0.06, plastic=State.LIQUID, plastic_c=25,
    ))  # fmt: skip
    assert done.rate_mm_min.typical == pytest.approx(-3.6e-9 * 852 * GRAVITY / 27 * 6e4, rel=1e-6)
    assert done.in_mold_mm is None
