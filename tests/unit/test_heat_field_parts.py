"""The parts of the cup in two dimensions, each against its closed form."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pourwright.heat.field.advance import FieldOven, advanced, face_c
from pourwright.heat.field.forecast import cook_section
from pourwright.heat.field.grid import Vessel, grid, vessel
from pourwright.heat.field.source import PATTERNS, Entry, Pattern, plastic_watts
from pourwright.heat.field.state import filled
from pourwright.matter import dielectric, plastisol
from pourwright.matter.flow import viscosity_pa_s
from pourwright.matter.gelation import Rate
from pourwright.matter.plastisol import conductivity_w_mk
from pourwright.physics.convection import top_film
from pourwright.physics.dielectric import penetration_depth_m

OVEN = FieldOven(power_w=480.0, entry=PATTERNS[Pattern.WALL])
COLD = plastisol.COLD_DENSITY_G_ML.typical


def usual_cup(start_c=22.0):
    cup = vessel(plastic_kg=0.498, cold_g_ml=COLD, glass_kg=0.42, diameter_m=0.089)
    return filled(cup, start_c=start_c, cold_g_ml=COLD, cell_m=0.0025)


def test_the_skin_passes_on_what_the_face_gives_off():
    # Conduction through half the uppermost cell equals the loss of its face (two resistances in
    # series: Incropera and DeWitt, 6th ed., eq. 3.12).
    hot = usual_cup(165.0)
    face = face_c(hot, OVEN)
    assert face < hot.upper_c - 2
    assert face_c(hot, replace(OVEN, loss=0.0)) == pytest.approx(hot.upper_c)
    film = 0.7 * top_film(np.array([165.0]), air_c=25.0, diameter_m=0.089, emissivity=0.9)[0]
    inward = 2 * (hot.upper_c - face) / hot.cells.rows_m[-1]
    raised = film * (face - 22) / inward / conductivity_w_mk(np.array(165.0))
    assert raised == pytest.approx(1.0, rel=0.05)


def test_nothing_fuses_that_has_not_gelled():
    never = Rate(reference_c=95.0, per_s=1e-12, energy_j_mol=95e3)
    hot = advanced(usual_cup(150.0), replace(OVEN, gel=never), 60, on=True)
    assert hot.hottest_c > 160
    assert hot.fused.max() < 1e-6
    usual = advanced(usual_cup(150.0), OVEN, 60, on=True)
    assert (usual.fused <= usual.gelled + 1e-12).all()


def test_conductivity_falls_with_heat_within_what_is_published():
    cold, hot = conductivity_w_mk(np.array([25.0, 150.0]))
    assert plastisol.CONDUCTIVITY_W_MK.band.low <= hot < cold
    assert cold <= plastisol.CONDUCTIVITY_W_MK.band.high


def test_waves_come_in_from_both_walls():
    # Two waves that fade toward each other add up to a hyperbolic cosine (Lambert's law).
    cells = grid(Vessel(0.05, 0.05, 0.004, 0.005), cell_m=0.0025)
    cold = np.full((len(cells.rows_m) - 2, cells.plastic_columns), 60.0)
    watts = plastic_watts(cells, Entry(1.0, 0.0, 0.0), cold, 1.0)
    density = (watts / cells.volume_m3[cells.plastic])[0]
    real, loss = dielectric.permittivity(np.array(60.0))
    rings = cells.columns_m[: cells.plastic_columns]
    radii = np.cumsum(rings) - rings / 2
    wanted = np.cosh(radii / penetration_depth_m(real, loss, dielectric.OVEN_HZ))
    assert density / density[0] == pytest.approx(wanted / wanted[0])


def test_the_bottom_is_the_middle_of_the_lowest_layer():
    state = usual_cup()
    temp = state.temp_c.copy()
    row, half = state.cells.glass_rows, state.cells.plastic_columns // 2
    temp[row, :half], temp[row, half:] = 50.0, 90.0
    assert replace(state, temp_c=temp).bottom_c == pytest.approx(50)


def test_a_stir_leaves_a_tenth_of_every_difference():
    told = cook_section.answer({"bursts": [{"on_s": 200, "rest_s": 0}]})["moments"]
    before, after = (m["hottest_c"] - m["mean_c"] for m in told)
    assert not told[0]["stirred"]
    # In heat content rather than kelvins, so not quite a tenth.
    assert after == pytest.approx(before / 10, rel=0.1)


def test_hotter_plastic_runs_more_easily():
    hot = np.array([150.0, 170.0, 200.0])
    melt = viscosity_pa_s(hot, np.ones(3), np.ones(3))
    liquid = viscosity_pa_s(np.array([20.0, 40.0, 60.0]), np.zeros(3), np.zeros(3))
    for falls in (melt, liquid):
        assert (np.diff(falls) < 0).all()
