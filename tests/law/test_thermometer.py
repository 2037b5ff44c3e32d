"""Laws of a thermometer check."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.heat.gun_pairs import Pair, excess_of
from pourwright.heat.thermometer_check import thermometer_check
from pourwright.heat.thermometer_input import ProbeAndGun, ThermometerInput
from pourwright.matter.boiling import boiling_c, standard_pressure_pa

heights = st.floats(-400, 5000)
offsets = st.floats(-9, 9)


@given(heights, offsets, st.integers(1, 6))
def test_a_probe_off_by_so_much_is_found_at_any_altitude(altitude_m, offset_k, count):
    reads = float(boiling_c(standard_pressure_pa(altitude_m))) + offset_k
    found = thermometer_check(ThermometerInput(boiling_c=(reads,) * count, altitude_m=altitude_m))
    assert found.bias_k.typical == pytest.approx(offset_k, abs=1e-9)
    assert found.bias_k.low < offset_k < found.bias_k.high


@given(heights, st.floats(1, 400))
def test_higher_up_water_boils_cooler(altitude_m, climb_m):
    low, high = (boiling_c(standard_pressure_pa(z)) for z in (altitude_m, altitude_m + climb_m))
    assert high < low
    # About 1 °C for 300 m: between 1 for 360 and 1 for 240.
    assert 1 / 360 < float(low - high) / climb_m < 1 / 240


@given(offsets, offsets, st.lists(st.floats(150, 190), min_size=1, max_size=8))
def test_a_gun_is_found_through_a_probe_that_is_off(probe_k, gun_k, temps_c):
    pot = float(boiling_c(101325.0)) + probe_k
    read = tuple(ProbeAndGun(probe_c=c + probe_k, infrared_c=c + gun_k) for c in temps_c)
    asked = ThermometerInput(boiling_c=(pot,), pressure_hpa=1013.25, pairs=read)
    found = thermometer_check(asked)
    assert found.bias_k.typical == pytest.approx(gun_k, abs=1e-9)
    assert found.odd_pairs == ()
    before, after = found.unchecked_final_c, found.checked_final_c
    assert before.low < after.low < after.typical == 175 < after.high < before.high


@given(
    st.lists(st.tuples(st.floats(120, 190), st.floats(-4, 4)), min_size=3, max_size=9),
    st.floats(14, 35), st.booleans(), st.integers(0, 8),
)  # fmt: skip
def test_one_wild_pair_changes_nothing(seen, wild_k, above, place):
    calm = [Pair(c, c - 3 + k / 4) for c, k in seen]
    wild = Pair(175.0, 172.0 + (wild_k if above else -wild_k))
    at = min(place, len(calm))
    mixed = excess_of([*calm[:at], wild, *calm[at:]], working_c=175)
    assert [i for i, _ in mixed.odd] == [at]
    assert mixed.excess_k == pytest.approx(excess_of(calm, working_c=175).excess_k, abs=1e-9)


@given(st.permutations([(150.0, 145.0), (165.0, 161.5), (175.0, 171.0), (180.0, 175.0)]))
def test_order_of_the_pairs_does_not_matter(seen):
    found = excess_of([Pair(*p) for p in seen], working_c=175)
    again = excess_of([Pair(*p) for p in sorted(seen)], working_c=175)
    assert found.excess_k == pytest.approx(again.excess_k)
    assert found.noise_k == pytest.approx(again.noise_k)
