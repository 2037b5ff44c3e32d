"""Laws of the heat budget."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from pourwright.heat.heat_dose import history_seconds, hold_seconds
from pourwright.heat.pot_dose import fresh_to_reach, pot_dose
from pourwright.heat.scorch_budget import cook_scorch
from pourwright.heat.scorch_input import HeldBurst, LotHeat, RemeltIn, ScorchInput

temps = st.floats(20, 230)
energies = st.floats(100e3, 180e3)
doses = st.floats(0, 3)
grams = st.floats(1, 5000)


def at(value: float) -> np.ndarray:
    return np.array([value])


@given(st.lists(st.tuples(st.floats(1, 600), temps), min_size=1, max_size=6), temps, energies)
def test_a_log_is_the_integral_of_its_rate(steps, start_c, energy):
    # Adaptive quadrature of exp(E/R (1/463.15 - 1/T)) along each straight line.
    times, line = [0.0], [start_c]
    for seconds, c in steps:
        times.append(times[-1] + seconds)
        line.append(c)
    exact = 0.0
    for a, b, low, high in zip(times[:-1], times[1:], line[:-1], line[1:], strict=True):
        part, _ = quad(
            lambda x, low=low, high=high: math.exp(
                energy / 8.314462618 * (1 / 463.15 - 1 / (low + x * (high - low) + 273.15))
            ),
            0, 1, epsabs=0, epsrel=1e-10,
        )  # fmt: skip
        exact += (b - a) * part
    found = history_seconds(times, [at(c) for c in line], at(energy))
    assert found[0] == pytest.approx(exact, rel=1e-4)


@given(st.floats(1, 3000), temps, st.floats(0.5, 40), energies)
def test_hotter_or_longer_uses_more(seconds, temp_c, more_k, energy):
    less = hold_seconds(seconds, at(temp_c), at(energy))[0]
    assert hold_seconds(seconds, at(temp_c + more_k), at(energy))[0] > less
    assert hold_seconds(2 * seconds, at(temp_c), at(energy))[0] == pytest.approx(2 * less)


@given(st.lists(st.tuples(grams, doses), min_size=1, max_size=8))
def test_what_goes_into_a_pot_comes_out(parts):
    found = float(pot_dose([(g, at(d)) for g, d in parts])[0])
    total = sum(g for g, _ in parts)
    assert found * total == pytest.approx(sum(g * d for g, d in parts))
    assert min(d for _, d in parts) - 1e-9 <= found <= max(d for _, d in parts) + 1e-9


@given(grams, doses, grams, doses, grams, doses)
def test_pots_may_be_poured_together_in_any_order(a_g, a, b_g, b, c_g, c):
    first = pot_dose([(a_g, at(a)), (b_g, at(b))])
    then = pot_dose([(a_g + b_g, first), (c_g, at(c))])
    at_once = pot_dose([(c_g, at(c)), (b_g, at(b)), (a_g, at(a))])
    assert then[0] == pytest.approx(at_once[0])


@given(grams, doses, st.floats(0.05, 1))
def test_fresh_plastic_brings_a_pot_where_it_is_wanted(pot_g, dose, wanted):
    fresh = float(fresh_to_reach(pot_g, at(dose), wanted)[0])
    blended = float(pot_dose([(pot_g, at(dose)), (fresh, at(0.0))])[0])
    assert fresh >= 0
    assert blended == pytest.approx(min(dose, wanted))


def test_an_empty_pot_has_used_nothing():
    assert pot_dose([])[0] == 0
    assert pot_dose([(0.0, at(2.0))])[0] == 0


def lot(bursts: list[tuple[float, float]], remelt_g: float, fresh_g: float) -> ScorchInput:
    parts = tuple(HeldBurst(for_s=s, mean_c=c) for s, c in bursts)
    return ScorchInput(
        heats=(LotHeat(bursts=parts),), remelt=(RemeltIn(mass_g=remelt_g),), fresh_g=fresh_g
    )


bursts = st.lists(st.tuples(st.floats(5, 600), st.floats(120, 195)), min_size=1, max_size=4)


@given(bursts, grams, grams)
def test_bands_hold_and_more_fresh_never_harms(parts, remelt_g, fresh_g):
    found = cook_scorch(lot(parts, remelt_g, fresh_g))
    fresher = cook_scorch(lot(parts, remelt_g, 2 * fresh_g))
    for it in (found.dose_share, found.mean_dose_share, found.brought_share):
        assert 0 <= it.low <= it.typical <= it.high
    assert found.mean_dose_share.typical <= found.dose_share.typical
    assert found.brought_share.typical <= found.mean_dose_share.typical
    assert fresher.dose_share.typical < found.dose_share.typical
    left = [t.left_min.typical for t in found.left]
    assert left == sorted(left, reverse=True)


@given(st.permutations([(60.0, 150.0), (200.0, 172.0), (30.0, 195.0)]))
def test_order_of_the_heats_does_not_matter(parts):
    found = cook_scorch(lot(parts, 100, 100)).dose_share
    again = cook_scorch(lot(sorted(parts), 100, 100)).dose_share
    assert found.typical == pytest.approx(again.typical)
