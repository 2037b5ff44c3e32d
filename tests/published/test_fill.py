"""Filling against printed values, closed forms, a reference library and facts of the trade."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.special import erf, erfcx, gamma, j0, j1, jn_zeros
from scipy.stats import beta

from fill_bench import COLD, feed, grub, one, piece, push, stick, tubes, worm
from pourwright.base.draws import Draws
from pourwright.base.record import from_json
from pourwright.base.units import convert
from pourwright.fill.air_way import Air
from pourwright.fill.branch import BranchPart, branch_chain, sets_seconds
from pourwright.fill.chance import chance
from pourwright.fill.gate import Gate, gate_seconds
from pourwright.fill.held import GATHERED, Standing, held
from pourwright.fill.hold import fill_hold
from pourwright.fill.join import fill_join
from pourwright.fill.march import march
from pourwright.fill.narrowed import way_of
from pourwright.fill.odds import OddsInput, fill_odds
from pourwright.fill.outcome import outcome
from pourwright.fill.push import ONE_HAND_N, head, plunger
from pourwright.fill.setup import one_push
from pourwright.fill.skin import Chill, chill, standing_skin_m, steady_skin_m
from pourwright.matter.flow import melt_viscosity_pa_s
from pourwright.matter.mold_material import MoldMaterial
from pourwright.physics.conduction import Solid, center_fourier, roots, weights
from pourwright.physics.cooled_section import (
    bar_seconds,
    middle_left,
    middle_seconds,
    profile_left,
)
from pourwright.physics.duct import (
    LAMINAR_NUSSELT,
    ellipse_resistance,
    hydraulic_diameter_m,
    nusselt_of_root,
    round_resistance,
    slot_resistance,
    thin_slot_resistance,
)
from pourwright.physics.two_layer import flows, line_for

# Ducts.


def test_glycerine_in_a_tube():
    # Bird, Stewart and Lightfoot, 2nd ed. (2002), ex. 2.3-1 (from memory): 40 psi over 1 ft of
    # 0.1 in bore move 0.00398 ft3/min of glycerine, hence 4.92 g/(cm s).
    flow = 0.00398 * 0.3048**3 / 60
    pressure = 40 * 6894.757
    found = pressure / (flow * round_resistance(1.0, 0.3048, 0.05 * 0.0254))
    assert found == pytest.approx(0.492, rel=5e-3)


def test_round_is_the_ellipse_of_equal_axes():
    # White, Viscous Fluid Flow: identity.
    assert ellipse_resistance(2.0, 0.1, 0.003, 0.003) == pytest.approx(
        round_resistance(2.0, 0.1, 0.003), rel=1e-12
    )


@pytest.mark.parametrize(("flat", "friction"), [(2, 16.823), (4, 18.240), (8, 19.146)])
def test_elliptic_ducts(flat, friction):
    # Shah and London, Laminar Flow Forced Convection in Ducts (1978), elliptical ducts: Fanning
    # friction factor times Reynolds number (from memory).
    a, b = 0.004, 0.004 / flat
    across = hydraulic_diameter_m(a, b)
    assert ellipse_resistance(1.0, 1.0, a, b) == pytest.approx(
        2 * friction / (across**2 * math.pi * a * b), rel=5e-4
    )


def test_slot_of_ten_to_one():
    # White, Viscous Fluid Flow, rectangular duct: 1.0672 times the wide slot (from memory).
    thin = thin_slot_resistance(1.0, 1.0, 0.01, 0.001)
    assert slot_resistance(1.0, 1.0, 0.01, 0.001) / thin == pytest.approx(1.0672, rel=1e-4)
    # Same work: a square duct has 56.91 for the Darcy factor times Reynolds number.
    assert slot_resistance(1.0, 1.0, 0.01, 0.01) == pytest.approx(56.91 / 2 / 0.01**4, rel=1e-4)


def test_entry_law_of_leveque():
    # Closed form of Lévêque (1928): (8/9)^(1/3) / gamma(4/3) at one place of a round tube.
    assert nusselt_of_root(20.0) / 20 == pytest.approx((8 / 9) ** (1 / 3) / gamma(4 / 3), rel=1e-3)
    # Bird, Stewart and Lightfoot, table 14.2-1 (from memory): its mean is half as much again, 1.62.
    assert 1.5 * nusselt_of_root(20.0) / 20 == pytest.approx(1.62, abs=0.006)
    # Incropera and DeWitt, 6th ed., table 8.1: 3.66 far down a round tube of one wall temperature.
    assert nusselt_of_root(0.1) == LAMINAR_NUSSELT == 3.66


# Cooling of sections whose face is held.


def test_first_terms():
    # Cengel, Heat and Mass Transfer, table 4-2, Bi endless: 1.5708, 1.2732; 2.4048, 1.6021.
    for solid, root, weight in ((Solid.SLAB, 1.5708, 1.2732), (Solid.CYLINDER, 2.4048, 1.6021)):
        late = middle_left(solid, np.array([0.5, 1.5]))
        assert late[0] == pytest.approx(weight * math.exp(-(root**2) * 0.5), rel=3e-4)
        assert math.log(late[0] / late[1]) == pytest.approx(root**2, rel=1e-4)


def test_half_of_the_heat():
    # Crank, The Mathematics of Diffusion, 2nd ed. (1975): a sheet of thickness l is half done at
    # Dt/l2 = 0.049 (from memory); early on both follow 4/sqrt(pi) times area over volume.
    assert _mean_left(Solid.SLAB, 4 * 0.0492) == pytest.approx(0.5, abs=5e-4)
    early = 1e-3
    gone = 1 - _mean_left(Solid.SLAB, early)
    assert gone == pytest.approx(2 / math.sqrt(math.pi) * math.sqrt(early), rel=5e-3)
    gone = 1 - _mean_left(Solid.CYLINDER, early)
    assert gone == pytest.approx(4 / math.sqrt(math.pi) * math.sqrt(early) - early, rel=5e-3)


def _mean_left(solid, fourier):
    edge = np.linspace(0, 1, 2001)
    volume = np.diff(edge ** (2 if solid is Solid.CYLINDER else 1))
    return float(profile_left(solid, np.array([fourier]), (edge[1:] + edge[:-1]) / 2)[0] @ volume)


def test_profile_early_is_the_error_function():
    # Carslaw and Jaeger, 2nd ed., sec. 2.4: erf(x / 2 sqrt(at)) under the face of a thick body.
    depth = np.array([0.1, 0.2])
    found = profile_left(Solid.SLAB, np.array([0.01]), 1 - depth)[0]
    assert found == pytest.approx([math.erf(d / 0.2) for d in depth], abs=1e-4)


def test_a_square_bar_is_two_slabs_at_once():
    # Carslaw and Jaeger, 2nd ed., sec. 1.15; late by the first term: 1.2732^2 exp(-2 (pi/2)^2 Fo).
    size, alpha = 4e-3, 0.075e-6
    square, slab, wide = (
        t.item()
        for t in (
            bar_seconds(thick_m=one(size), width_m=one(size), alpha_m2_s=one(alpha), left=one(0.1)),
            middle_seconds(Solid.SLAB, thick_m=one(size), alpha_m2_s=one(alpha), left=one(0.1)),
            bar_seconds(thick_m=one(size), width_m=one(1), alpha_m2_s=one(alpha), left=one(0.1)),
        )
    )
    exact = math.log(1.27324**2 / 0.1) / (2 * (math.pi / 2) ** 2) * (size / 2) ** 2 / alpha
    assert square == pytest.approx(exact, rel=1e-3)
    assert wide == pytest.approx(slab, rel=1e-6)
    assert slab == pytest.approx(
        math.log(1.27324 / 0.1) / (math.pi / 2) ** 2 * (size / 2) ** 2 / alpha, rel=1e-3
    )


# Skin.


def test_skin_grows_by_the_error_function():
    # Abramowitz and Stegun, table 7.1: erf(0.5) = 0.5204998778.
    at = Chill(one(100), one(0), one(52.04998778), one(0.09e-6), one(0))
    assert at.growth.item() == pytest.approx(math.sqrt(0.09e-6), rel=1e-8)


def test_skin_under_a_steady_flow():
    # Closed form: far down, heat through the melt Nu k (T - Ts)/D equals heat through the skin
    # k (Ts - T0)/d with Nu 3.66; near the entry by 1.0767 cbrt(4 Q / (pi a x)).
    at = Chill(one(170), one(30), one(130), one(0.1e-6), one(0))
    far = steady_skin_m(one(4e-3), one(0.01), at.stand_off, one(0))
    assert far.item() == pytest.approx(100 / 40 * 4e-3 / 3.66, rel=1e-9)
    # In the last slice of two tubes side by side, the flow shared.
    chain = tubes((80, 4, 2))
    way, flow = way_of(chain, at), 10e-6
    root = (way.pace_root * np.cbrt(flow) / way.entry_root[-1]).item()
    graetz = 4 * flow / 2 / (math.pi * 0.1e-6 * chain.reach_m[-1])
    assert root == pytest.approx(graetz ** (1 / 3), rel=1e-9)
    near = steady_skin_m(one(4e-3), one(root), at.stand_off, one(0))
    assert near.item() == pytest.approx(100 / 40 * 4e-3 / (1.0767 * root), rel=1e-3)


def test_skin_behind_a_film():
    # Incropera and DeWitt, 6th ed., eq. 5.60: erf(y) + exp(-y2) erfcx(y + z) of the excess is left
    # at a depth x, y = x/2√(αt) and z = h√(αt)/k; with k/h as the length of the film.
    film, alpha, face, sets = 0.14e-3, 0.075e-6, 34, 130
    at = Chill(one(165), one(face), one(sets), one(alpha), one(film))
    left = (sets - face) / (165 - face)

    def exact(depth, seconds):
        y = depth / 2 / math.sqrt(alpha * seconds)
        return erf(y) + math.exp(-y * y) * erfcx(y + math.sqrt(alpha * seconds) / film) - left

    def skin(seconds):
        return standing_skin_m(one(seconds), at.growth, at.starts_s, at.film_m).item()

    start = at.starts_s.item()
    assert exact(0, start) == pytest.approx(0, abs=1e-9)
    assert skin(start) == skin(start / 2) == 0
    for seconds in (2 * start, 0.1, 0.5, 2.0):
        depth = brentq(exact, 0, 0.01, args=(seconds,))
        assert depth - 0.2 * film < skin(seconds) <= depth * (1 + 1e-6)
    assert skin(500) == pytest.approx(brentq(exact, 0, 0.05, args=(500,)), rel=2e-3)
    bare = Chill(one(165), one(face), one(sets), one(alpha), one(0))
    thick = standing_skin_m(one(0.5), bare.growth, bare.starts_s, bare.film_m)
    assert thick == pytest.approx(bare.growth * math.sqrt(0.5))


def test_film_in_a_steady_flow():
    # Closed form: film and skin in series carry what the melt brings: (Ts - T0) / (d + k/h).
    bare, filmed = (
        steady_skin_m(one(4e-3), one(0.01), one(2.5), one(f)).item() for f in (0, 0.2e-3)
    )
    assert bare - filmed == pytest.approx(0.2e-3)
    assert steady_skin_m(one(4e-3), one(50), one(0.5), one(0.2e-3)).item() == 0


@pytest.mark.parametrize("solid", [Solid.SLAB, Solid.CYLINDER])
def test_a_gate_behind_a_film(solid):
    # Incropera and DeWitt, 6th ed., sec. 5.5 and 5.6: the exact series with the film, Bi = 10.
    film, alpha, half = 0.2e-3, 0.075e-6, 2e-3
    cold = Chill(one(165), one(30), one(100), one(alpha), one(film))
    root = roots(solid, half / film, 12)[:, None]
    exact = center_fourier(cold.left, root, weights(solid, root)) * half**2 / alpha
    flat = {"width_mm": 200.0} if solid is Solid.SLAB else {}
    gate = Gate(thick_mm=4, **flat)
    assert gate_seconds(gate, cold).item() == pytest.approx(exact.item(), rel=0.03)


def test_face_of_hot_plastic():
    # Incropera and DeWitt, 6th ed., eq. 5.63, done on paper with k 0.14, a 0.075e-6 of the plastic
    # (effusivity 511.2), aluminum 167, 2700, 897 (20111) and silicone 0.20, 1150, 1500 (587.4).
    draws = Draws(count=1)
    for material, cold in ((MoldMaterial.ALUMINUM, 20111), (MoldMaterial.SILICONE, 587.4)):
        found = chill(
            draws, melt_c=draws.known(175), mold_c=draws.known(30), material=material
        ).face_c[0]
        assert found == pytest.approx((511.2 * 175 + cold * 30) / (511.2 + cold), abs=0.02)


# The march.


@pytest.mark.parametrize(("length", "bore", "pressure", "viscosity"), [
    (100, 6, 1e5, 3.0), (60, 4, 6e4, 5.0), (7, 2, 2e5, 0.4),
])  # fmt: skip
def test_a_tube_at_a_constant_push(length, bore, pressure, viscosity):
    # Closed form of Hagen and Poiseuille, no setting: t = 4 eta L^2 / (P R^2).
    found = march(push(tubes((length, bore, 1)), pressure=pressure, viscosity=viscosity))
    exact = 4 * viscosity * (length / bore * 2) ** 2 / pressure
    assert found.going.all()
    assert found.clock_s.item() == pytest.approx(exact, rel=1e-9)


def test_tubes_in_a_row_and_side_by_side():
    # Closed form: V1 R1/2P, then V2 (R1 + R2/2)/P, with R = 8 eta L/(pi r^4 n).
    found = march(push(tubes((40, 8, 1), (70, 5, 3)), pressure=8e4, viscosity=2.5))
    r1 = 8 * 2.5 * 0.04 / (math.pi * 0.004**4)
    r2 = 8 * 2.5 * 0.07 / (math.pi * 0.0025**4) / 3
    v1, v2 = math.pi * 0.004**2 * 0.04, 3 * math.pi * 0.0025**2 * 0.07
    assert found.clock_s.item() == pytest.approx((v1 * r1 / 2 + v2 * (r1 + r2 / 2)) / 8e4, rel=1e-9)
    assert found.volume_m3.item() == pytest.approx(v1 + v2, rel=1e-9)


def test_a_plunger_at_its_fastest():
    # Closed form: volume over flow.
    found = march(push(tubes((200, 8, 1)), pressure=1e9, most=5e-6))
    assert found.clock_s.item() == pytest.approx(math.pi * 0.004**2 * 0.2 / 5e-6, rel=1e-9)
    assert found.peak_m3_s.item() == pytest.approx(5e-6)


@pytest.mark.parametrize("pressure", [50e3, 150e3])
def test_a_mold_that_lets_no_air_out(pressure):
    # Boyle (1662): P0/(P0 + P) of it stays empty, 40 % at 150 kPa.
    chain = tubes((100, 8, 1))
    found = march(push(chain, pressure=pressure, viscosity=0.1, air=1e30))
    share = found.volume_m3.item() / chain.volume_m3.sum()
    assert not found.going.any()
    assert share == pytest.approx(pressure / (101325 + pressure), abs=0.02)


def test_air_that_leaks():
    # Closed form: a leak in series is one more resistance; but air shut in at a tenth of the way
    # presses back with no more than 101325/9 Pa (Boyle).
    def flow(leak, filled):
        return Air(one(leak)).lets_flow(push_pa=one(1e5), resistance=one(3e9), filled=filled).item()

    assert flow(1e9, 0.9) == pytest.approx(1e5 / 4e9)
    assert flow(1e15, 0.1) == pytest.approx((1e5 - 101325 / 9) / 3e9)
    assert flow(1e15, 0.6) == pytest.approx(1e5 / (1e15 + 3e9))


def test_finer_slices_change_little():
    # The same way cut seven times finer; a mold that just fills, skins and all.
    coarse, fine = (
        march(push(tubes(*[(120 / n, 7, 1)] * n), chill=COLD, viscosity=3.0)) for n in (1, 199)
    )
    assert coarse.going.all()
    assert coarse.clock_s.item() == pytest.approx(fine.clock_s.item(), rel=0.02)


# Branches.


def test_a_leg_is_a_frustum_and_a_tube_in_its_turn():
    # Closed form: volume pi L/12 (D^2 + D d + d^2) of both copies; without taper and setting it
    # fills as a tube does, in 4 eta L^2 / (P R^2).
    leg = BranchPart(path_mm=60, branch_mm=20, least_thick_mm=1.5, root_thick_mm=4)
    volume = 2 * math.pi * 20 / 12 * (4**2 + 4 * 1.5 + 1.5**2)
    assert branch_chain(leg, 2).volume_m3.sum() * 1e9 == pytest.approx(volume, rel=2e-3)
    even = BranchPart(path_mm=60, branch_mm=20, least_thick_mm=2, root_thick_mm=2)
    found = march(push(branch_chain(even, 3), pressure=5e4, viscosity=3.0))
    assert found.clock_s.item() == pytest.approx(4 * 3 * 0.02**2 / (5e4 * 0.001**2), rel=1e-9)


def test_a_leg_sets_as_a_rod_and_a_fin_as_a_slab():
    # Cengel, table 4-2, Bi endless, first terms: rod 2.4048 and 1.6021, slab 1.5708 and 1.2732.
    cold = Chill(one(165), one(30), one(70), one(0.08e-6), one(0))
    for flat, root, weight in ((False, 2.4048, 1.6021), (True, 1.5708, 1.2732)):
        part = BranchPart(path_mm=60, least_thick_mm=2, flat=flat)
        exact = math.log(weight / (40 / 135)) / root**2 * 0.001**2 / 0.08e-6
        assert sets_seconds(part, cold).item() == pytest.approx(exact, rel=2e-3)


# Push.


@pytest.mark.parametrize(("bore", "kpa"), [(35, 117.4), (30, 159.9), (50, 57.6)])
def test_push_over_bore(bore, kpa):
    # Arithmetic: 113 N on 35, 30 and 50 mm are 117, 160 and 58 kPa.
    drive = plunger(force_n=one(113), bore_m=one(bore / 1000), speed_m_s=one(0.05))
    assert drive.pressure_pa.item() / 1000 == pytest.approx(kpa, abs=0.1)
    assert drive.most_m3_s.item() == pytest.approx(math.pi / 4 * (bore / 1000) ** 2 * 0.05)


def test_push_of_a_hand():
    # Seo, Armstrong et al., Human Factors 50 (2008) 227, table 2: means of 107, 113 and 136 N.
    low, _, high = ONE_HAND_N.ends
    assert all(low < mean < high for mean in (107, 113, 136))


def test_head_of_plastic():
    # Closed form: rho g h, and Torricelli's sqrt(2 g h) through the mouth.
    drive = head(head_m=one(0.04), density_kg_m3=one(950), mouth_m2=1e-4)
    assert drive.pressure_pa.item() == pytest.approx(950 * 9.80665 * 0.04)
    assert drive.most_m3_s.item() == pytest.approx(1e-4 * math.sqrt(2 * 9.80665 * 0.04))


def test_melt_thins_by_arrhenius():
    # Closed form: exp(5500 (1/423.15 - 1/443.15)) = 1.7979.
    assert melt_viscosity_pa_s(one(150), 2.0, 5500.0) == pytest.approx(2 * 1.7979, rel=1e-4)


# Hold.


def test_what_sinks_in_late():
    # Closed form: late in a slab the profile is a cosine. With the middle at A of the excess and
    # setting at c, the soft share s has cos(pi s/2) = c/A; means are sines over their shares.
    draws = Draws(count=1)
    standing = Standing(
        draws, (Gate(thick_mm=11, width_mm=200),), 14.0, Solid.SLAB, draws.known(165),
        draws.known(30), MoldMaterial.ALUMINUM,
    )  # fmt: skip
    done, cold = held(standing), standing.chill()
    # The film stands for k/h = 0.14/1000 m of plastic on either face.
    fourier, bare = 0.075e-6 * done.hold_s[0] / 0.00714**2, 7 / 7.14
    middle, sets = 4 / math.pi * math.exp(-(math.pi**2) / 4 * fourier), cold.left[0]
    soft = 2 / math.pi * math.acos(sets / middle)
    inside = middle * math.sin(math.pi * soft / 2) / (math.pi * soft / 2)
    rim = math.sin(math.pi * bare / 2)
    shell = middle * (rim - math.sin(math.pi * soft / 2)) * 2 / math.pi / (bare - soft)
    excess = 165 - cold.face_c[0]
    assert 0.2 < soft < 0.8
    assert done.soft_share[0] == pytest.approx(soft / bare, abs=0.02)
    sink = 7.5e-4 * soft / bare * (inside - shell) * excess
    assert done.sink_share[0] == pytest.approx(sink, rel=0.04)
    # A dish over the slab, two thirds of its depth on average.
    assert done.dent_mm[0] == pytest.approx(1.5 * 14 * done.sink_share[0] * GATHERED.band.typical)
    mean = cold.face_c[0] + excess * middle * rim * 2 / math.pi / bare
    # The second term of the series still gives some of it.
    assert done.mean_c[0] == pytest.approx(mean, abs=0.8)
    assert done.shrink_share(22)[0] == pytest.approx(7.5e-4 * (mean - 22), rel=1e-2)


def test_what_sinks_into_a_rod():
    # Carslaw and Jaeger, 2nd ed., sec. 7.6: sum of 2 J0(z r) / (z J1(z)) exp(-z2 Fo) over the roots
    # of J0; the soft core reaches to where that is the setting excess, its mean and that of the
    # shell by SciPy's quadrature.
    draws = Draws(count=1)
    standing = Standing(
        draws, (Gate(thick_mm=10),), 14.0, Solid.CYLINDER, draws.known(165), draws.known(30),
        MoldMaterial.ALUMINUM,
    )  # fmt: skip
    done, cold = held(standing), standing.chill()
    roots = jn_zeros(0, 20)
    # The film stands for k/h = 0.14/1000 m of plastic all around.
    kept = 2 / (roots * j1(roots)) * np.exp(-(roots**2) * 0.075e-6 * done.hold_s[0] / 0.00714**2)
    bare = 7 / 7.14
    core = brentq(lambda r: kept @ j0(roots * r) - cold.left[0], 0, 1)
    within, beyond = (
        2 * quad(lambda r: r * (kept @ j0(roots * r)), *ends)[0]
        for ends in ((0, core), (core, bare))
    )
    assert 0.2 < core**2 < 0.8
    assert done.soft_share[0] == pytest.approx((core / bare) ** 2, abs=0.005)
    apart = within / core**2 - beyond / (bare**2 - core**2)
    sink = 7.5e-4 * (core / bare) ** 2 * apart * (165 - cold.face_c[0])
    assert done.sink_share[0] == pytest.approx(sink, rel=0.01)
    # All of it in one groove half as wide as the rod, two thirds of its depth on average:
    # pi/4 D^2 share = 2/3 (D/2) depth.
    assert done.dent_mm[0] == pytest.approx(3 / 4 * math.pi * 14 * done.sink_share[0])


def test_gates_shut_in_seconds_and_long_before_the_body():
    # Common practice, no source: hold some five to fifteen seconds through a gate of 4 mm; the
    # fat end of a bait takes the better part of a minute, and dents where the hold was short.
    told = fill_hold.answer({"gates": [{"thick_mm": 4}], "thickest_mm": 13, "mold_c": 30})
    assert 3 < told["hold_s"]["typical"] < 15
    assert 30 < told["body_sets_s"]["typical"] < 120
    assert 0.2 < told["dent_mm"]["typical"] < 3


# Layers.


@pytest.mark.parametrize("thicker", [0.3, 1.0, 4.0])
def test_two_liquids_of_equal_depth(thicker):
    # Bird, Stewart and Lightfoot, 2nd ed. (2002), eqs. 2.5-20 and 2.5-21: mean speeds
    # b^2/12mI (7mI + mII)/(mI + mII) and b^2/12mII (mI + 7mII)/(mI + mII) for layers of depth b
    # (from memory; at equal viscosity both are the b^2/3m of one slot).
    first, second = flows(0.5, thicker)
    assert first == pytest.approx(0.5 * 0.25 / 12 * (7 + thicker) / (1 + thicker))
    assert second == pytest.approx(0.5 * 0.25 / 12 / thicker * (1 + 7 * thicker) / (1 + thicker))


def test_line_between_like_colors_is_where_the_flows_part():
    # Closed form: in one liquid the flow below y is 3 y^2 - 2 y^3 of the whole.
    assert line_for(3 * 0.3**2 - 2 * 0.3**3, 1.0) == pytest.approx(0.3, abs=1e-9)


def test_like_layers_meet_halfway():
    # Incropera and DeWitt, eq. 5.63 with equal effusivities: the mean.
    told = fill_join.answer({"first_c": 60, "second_c": 175})
    assert told["join_c"]["typical"] == pytest.approx(117.5)
    # Common practice, no source: hot on hot welds, hot on cold peels.
    assert told["holds"]["typical"] < 0.3
    assert fill_join.answer({"first_c": 170, "second_c": 175})["holds"]["typical"] > 0.85


# Odds.


def test_interval_of_a_count():
    # SciPy's beta distribution; Brown, Cai and DasGupta (2001): Jeffreys, 0 and 1 at the ends.
    flags = np.array([True] * 13 + [False] * 28)
    found = chance(np.append(False, flags))
    assert found.typical == pytest.approx(13 / 41)
    assert (found.low, found.high) == pytest.approx(beta.interval(0.9, 13.5, 28.5))
    never, ever = (chance(np.full(41, v)) for v in (False, True))
    assert (never.low, never.typical) == (0, 0)
    assert (ever.typical, ever.high) == (1, 1)
    assert never.high == pytest.approx(beta.ppf(0.95, 0.5, 40.5))


@pytest.mark.parametrize("mold", [worm(3), stick(4), grub(2)], ids=["worms", "sticks", "grubs"])
def test_cold_plastic_is_trouble_and_hot_is_fine(mold):
    # Common practice, no source: under about 155 °C trouble, over 170 °C fine; insulating molds
    # and fewer cavities fill more easily. The molds are invented.
    def odds(**known):
        inputs = from_json(OddsInput, mold | known)
        return chance(outcome(one_push(Draws(), inputs)).full).typical

    cold, edge, hot = (odds(melt_c=c) for c in (148, 155, 172))
    assert cold < 0.8
    assert cold < edge < hot
    assert hot > 0.95
    assert odds(melt_c=150, material="silicone") > odds(melt_c=150) + 0.05


def test_thin_tails_fill_hot_in_a_warm_mold():
    # Common practice, no source: worms with a thin tail fill at 170 to 177 °C in a warm mold of
    # aluminum, and stay short in a cool one at 155. The mold is invented, its ribbon 1.2 mm.
    ribbon = [*feed(2), piece(98, 10, 10, 2), piece(100, 9, 1.2, 2)]

    def odds(**known):
        inputs = from_json(OddsInput, {"chain": ribbon, "cavities": 2, "bore_mm": 35} | known)
        return chance(outcome(one_push(Draws(), inputs)).full).typical

    assert odds(melt_c=175, mold_c=50) > 0.5
    assert odds(melt_c=155, mold_c=25) < 0.25


def test_a_worm_poured_by_hand():
    # Common practice, no source: a closed mold of cold metal does not fill by hand, a warm one of
    # silicone may. The worm is invented; no published value of the viscosity was found.
    mold = {"chain": [s for s in worm(1)["chain"] if s["part"] in {"sprue", "cavity"}]}
    known = mold | {"melt_c": 175, "push": "hand pour", "head_mm": 40, "melt_pa_s": 1.0}
    metal, silicone = (
        fill_odds.answer(known | kind)
        for kind in ({"mold_c": 30}, {"mold_c": 60, "material": "silicone"})
    )
    assert metal["odds"]["typical"] < 0.3
    assert silicone["odds"]["typical"] > metal["odds"]["typical"] + 0.3
    assert metal["pressure_kpa"]["typical"] < 0.5
    assert metal["helps"][0]["change"] == "injector instead of pouring"


def test_force_in_pounds():
    # NIST SP 811 (2008), app. B.8: 4.448 222 N to the pound-force; 110 N are 24.7 lbf.
    assert convert(110, "n", "lbf") == pytest.approx(110 / 4.448222, rel=1e-6)
