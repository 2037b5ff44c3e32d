"""The cup in two dimensions against closed forms, its own books, and what makers see."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.special import j0, j1, jn_zeros

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.units import convert
from pourwright.heat.field.advance import FieldOven, advanced, face_c
from pourwright.heat.field.forecast import cook_section
from pourwright.heat.field.grid import Vessel, grid, vessel
from pourwright.heat.field.source import PATTERNS, Pattern, plastic_watts
from pourwright.heat.field.state import ENTHALPY, filled, stirred
from pourwright.matter import dielectric, glass, plastisol
from pourwright.matter.gelation import Rate

OVEN = FieldOven(power_w=480.0, entry=PATTERNS[Pattern.WALL])
COLD = plastisol.COLD_DENSITY_G_ML.typical


def usual_cup(start_c=22.0, cell_m=0.0025):
    cup = vessel(plastic_kg=0.498, cold_g_ml=COLD, glass_kg=0.42, diameter_m=0.089)
    return filled(cup, start_c=start_c, cold_g_ml=COLD, cell_m=cell_m)


def held_j(state, over_c=22.0):
    plastic = state.cells.plastic
    heat = ENTHALPY.of_c(state.plastic_c) - ENTHALPY.of_c(np.array(over_c))
    mine = (heat * state.mass_kg[plastic]).sum()
    outside = (1 - state.cells.is_plastic) * state.mass_kg * (state.temp_c - over_c)
    return float(mine + glass.HEAT_CAPACITY_J_KGK.typical * outside.sum())


def test_vessel_has_its_glass():
    cup = usual_cup()
    mass = ((1 - cup.cells.is_plastic) * cup.mass_kg).sum()
    assert mass == pytest.approx(0.42, rel=1e-3)
    assert cup.mass_kg[cup.cells.plastic].sum() == pytest.approx(0.498, rel=1e-9)


@pytest.mark.parametrize("pattern", list(Pattern))
def test_energy_closes(pattern):
    # First law: what came in is held or lost, within 0.1 %.
    oven = replace(OVEN, entry=PATTERNS[pattern])
    hot = advanced(usual_cup(), oven, 240, on=True)
    rested = advanced(stirred(hot, evens=0.9), oven, 60, on=False)
    again = advanced(rested, oven, 100, on=True)
    assert again.gained_j == pytest.approx(480 * 340, rel=1e-9)
    assert held_j(again) + again.lost_j == pytest.approx(again.gained_j, rel=1e-3)
    assert 0.02 < again.lost_j / again.gained_j < 0.15


def test_a_stir_keeps_the_heat():
    hot = advanced(usual_cup(), OVEN, 200, on=True)
    assert held_j(stirred(hot, evens=0.9)) == pytest.approx(held_j(hot), rel=1e-9)
    even = stirred(hot, evens=1.0)
    assert np.ptp(even.plastic_c) < 1e-6
    assert even.mean_c == pytest.approx(hot.mean_c, abs=1e-6)


def test_sealed_cup_warms_as_its_heat_capacity_says():
    # m·c·dT = P·t with no losses and no glass: the definition of heat capacity.
    cup = usual_cup()
    oven = replace(OVEN, glass_share=0.0, loss=0.0, currents=0.0)
    hot = advanced(cup, oven, 30, on=True)
    gained = ENTHALPY.of_c(hot.plastic_c) * hot.mass_kg[hot.cells.plastic]
    before = ENTHALPY.of_c(cup.plastic_c) * cup.mass_kg[cup.cells.plastic]
    into_glass = held_j(hot) - (gained.sum() - before.sum())
    assert gained.sum() - before.sum() + into_glass == pytest.approx(480 * 30, rel=1e-6)


def test_cooling_follows_the_product_solution():
    """A short cylinder whose faces are held: product of cylinder and slab.

    Source: Incropera and DeWitt, 6th ed., sec. 5.8.2 (product), eqs. 5.39 and 5.49 in the limit of
    a large Biot number; mean over the body by Carslaw and Jaeger, 2nd ed., sec. 7.6 and 3.4. The
    cells are cut loose from glass and loss, and their outer faces held cold.
    """
    radius, height, k, c, rho = 0.04, 0.08, 0.14, 1900.0, 1052.0
    alpha = k / (rho * c)
    cup = Vessel(2 * radius, height, 1e-9, 1e-9)
    cells = grid(cup, cell_m=0.002)
    rings = cells.columns_m[: cells.plastic_columns]
    rows = cells.rows_m[cells.glass_rows :]
    left = mean_left_after(rings, rows, k=k, heat=rho * c, seconds=2000)
    n = np.arange(1, 200)
    slab = sum(8 / ((2 * i - 1) ** 2 * np.pi**2)
               * np.exp(-(((2 * i - 1) * np.pi / 2) ** 2) * alpha * 2000 / (height / 2) ** 2)
               for i in n)  # fmt: skip
    zeros = jn_zeros(0, 200)
    rod = (4 / zeros**2 * np.exp(-(zeros**2) * alpha * 2000 / radius**2)).sum()
    assert left == pytest.approx(slab * rod, abs=0.002)
    # The series themselves: at the start nothing is lost.
    assert (4 / jn_zeros(0, 4000) ** 2).sum() == pytest.approx(1, abs=2e-4)
    assert j0(zeros[0]) == pytest.approx(0, abs=1e-12)
    assert j1(zeros[0]) == pytest.approx(0.5191, abs=1e-4)


def mean_left_after(rings, rows, *, k, heat, seconds):
    """The model's own flows, run in a loop of explicit steps with held outer faces."""
    from pourwright.heat.field.advance import Flows, gains  # noqa: PLC0415

    edges = np.concatenate([[0.0], np.cumsum(rings)])
    flat = np.pi * np.diff(edges**2)
    radial = 2 * np.pi * edges[1:-1][None, :] * rows[:, None]
    outer = 2 * np.pi * edges[-1] * rows
    per_m = 2 * k
    flows = Flows(
        across=per_m / (rings[1:] + rings[:-1])[None, :] * radial,
        up=per_m / (rows[1:] + rows[:-1])[:, None] * flat[None, :],
        wall=per_m / rings[-1] * outer,
        face=per_m / rows[-1] * flat,
        base=per_m / rows[0] * flat,
        watts=np.zeros((len(rows), len(rings))),
    )
    temp = np.ones((len(rows), len(rings)))
    volume = rows[:, None] * flat[None, :]
    dt = 1.0
    for _ in range(int(seconds / dt)):
        gain, _ = gains(temp, flows, 0.0)
        temp = temp + dt * gain / (heat * volume)
    return float((temp * volume).sum() / volume.sum())


@pytest.mark.parametrize("power_w", [320.0, 480.0, 700.0])
def test_halving_the_step_moves_the_mean_little(power_w):
    oven = replace(OVEN, power_w=power_w)
    ends = []
    for step_s in (0.5, 0.25):
        hot = advanced(usual_cup(), oven, 250, on=True, longest_step_s=step_s)
        ends.append(advanced(hot, oven, 30, on=False, longest_step_s=step_s))
    assert abs(ends[0].mean_c - ends[1].mean_c) < 0.3
    assert abs(ends[0].hottest_c - ends[1].hottest_c) < 0.5


def test_finer_cells_move_the_mean_little():
    ends = [advanced(usual_cup(cell_m=cell), OVEN, 300, on=True) for cell in (0.0025, 0.0018)]
    assert abs(ends[0].mean_c - ends[1].mean_c) < 0.5
    assert abs(ends[0].hottest_c - ends[1].hottest_c) < 2.0


def test_waves_fade_by_the_penetration_depth():
    # Lambert: in a cold cup the power density falls by 1/e over one penetration depth, which for
    # little loss is λ·√ε' / (2π·ε") (Metaxas and Meredith, 1983, eq. 2.53, from memory).
    cells = grid(Vessel(0.4, 0.08, 0.005, 0.006), cell_m=0.005)
    cold = np.full((len(cells.rows_m) - 2, cells.plastic_columns), 25.0)
    only_wall = replace(PATTERNS[Pattern.WALL], wall=1.0, face=0.0, base=0.0)
    watts = plastic_watts(cells, only_wall, cold, 1.0)
    density = (watts / cells.volume_m3[cells.plastic])[0]
    real, loss = dielectric.permittivity(np.array(25.0))
    depth = 0.1224 * np.sqrt(real) / (2 * np.pi * loss)
    step = cells.columns_m[0]
    fall = np.log(density[-1] / density[-5]) / (4 * step)
    assert real == pytest.approx(2.6, abs=0.1)
    assert loss == pytest.approx(0.41, abs=0.05)
    assert 1 / fall == pytest.approx(depth, rel=0.1)
    assert watts.sum() == pytest.approx(1, rel=1e-9)


@pytest.mark.parametrize(("cold", "hot"), [(25.0, 100.0), (100.0, 170.0)])
def test_depth_changes_with_heat(cold, hot):
    real, loss = dielectric.permittivity(np.array([cold, hot]))
    assert abs(loss[1] - loss[0]) > 0.1
    assert (real > 2.3).all()


def test_common_practice_in_one_go():
    """4:00 a jelly, 6:00 hot on top and underdone at the bottom: common practice, no source."""
    jelly = advanced(usual_cup(), OVEN, 240, on=True)
    assert jelly.mean(jelly.gelled) > 0.85
    assert jelly.mean(jelly.fused) < 0.1
    six = advanced(jelly, OVEN, 120, on=True)
    assert six.mean(six.fused) > 0.6
    assert six.fused[0].mean() < 0.4
    assert six.hottest_c > six.mean_c + 12
    assert six.bottom_c < six.mean_c - 25
    # 338 °F at the face: within what the skin of a face at rest leaves open.
    assert abs(face_c(six, OVEN) - convert(338, "f", "c")) < 20
    ready = advanced(stirred(six, evens=0.9), OVEN, 38, on=True)
    assert ready.mean(ready.fused) > 0.9


def test_without_currents_and_kinetics_it_is_conduction_alone():
    # A gel never formed and currents off: factors of one, so that hot plastic lies still.
    still = Rate(reference_c=95.0, per_s=1e-12, energy_j_mol=95e3)
    oven = replace(OVEN, currents=0.0, gel=still, fuse=still)
    moved = advanced(usual_cup(), OVEN, 120, on=True)
    lain = advanced(usual_cup(), oven, 120, on=True)
    assert np.ptp(lain.plastic_c) > np.ptp(moved.plastic_c) + 3


def test_section_answers_its_example():
    told = cook_section.answer(dict(cook_section.example))
    last = told["moments"][-1]
    assert last["stirred"]
    assert told["power_j"] == pytest.approx(480 * (240 - 2 + 120 - 2), rel=1e-6)
    assert told["peak_c"] >= max(m["hottest_c"] for m in told["moments"]) - 1e-9
    assert len(last["rows"][0]["temps_c"]) == len(told["columns_mm"])
    assert told["moments"][1]["bottom_c"] < told["moments"][1]["mean_c"] - 25


def test_section_refuses_fire_and_long_hours():
    with pytest.raises(NoAnswer, match="smokes and burns"):
        cook_section.answer({"power_w": 2000, "bursts": [{"on_s": 600}]})
    with pytest.raises(BadInput, match=r"bursts: may last one hour"):
        cook_section.answer({"bursts": [{"on_s": 1200, "rest_s": 3600}]})
    with pytest.raises(BadInput, match="bursts"):
        cook_section.answer({"bursts": []})


@pytest.mark.parametrize(
    ("plastic_g", "wide_mm", "deep_mm"), [(2500, 89, 382), (60, 100, 7), (2500, 40, 1891)]
)
def test_section_refuses_what_is_no_cup(plastic_g, wide_mm, deep_mm):
    asked = {"plastic_g": plastic_g, "cup_diameter_mm": wide_mm, "bursts": [{"on_s": 10}]}
    with pytest.raises(BadInput, match=f"{deep_mm} mm deep") as refused:
        cook_section.answer(asked)
    assert refused.value.field == "cup_diameter_mm"


def test_a_heavy_glass_weighs_what_it_weighs():
    cup = vessel(plastic_kg=0.06, cold_g_ml=COLD, glass_kg=2.5, diameter_m=0.06)
    state = filled(cup, start_c=22, cold_g_ml=COLD, cell_m=0.0025)
    mass = ((1 - state.cells.is_plastic) * state.mass_kg).sum()
    assert mass == pytest.approx(2.5, rel=1e-3)
