"""Laws of the cup, the oven, the pour window and the mold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from pourwright.base.draws import Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.record import to_json
from pourwright.heat import cup as cups
from pourwright.heat.bait_cooling import BaitCoolingInput, Shape, cool_bait
from pourwright.heat.coupling import CookReading, CouplingInput, coupling
from pourwright.heat.course import Burst
from pourwright.heat.cup import BOTTOM, CORE, MEAN, STEP_S, Cup, State, q95
from pourwright.heat.forecast import CookInput, cook_forecast
from pourwright.heat.oven import Oven, drawn_oven
from pourwright.heat.round import MOST_ROUNDS, next_bursts, rounds
from pourwright.heat.surface import mean_behind, stirring_c, unstirred_c
from pourwright.heat.water_test import WaterTestInput, water_test
from pourwright.heat.window import Vessel, WindowInput, cool_window
from pourwright.matter import glass, plastisol
from pourwright.matter.mold_material import MoldMaterial
from pourwright.physics.convection import top_film, wall_film

lawful = settings(derandomize=True, deadline=None, max_examples=30)
few = settings(derandomize=True, deadline=None, max_examples=10)

masses = st.floats(80, 900)
powers = st.floats(250, 700)
times = st.floats(20, 240)


def filled(draws: Draws, plastic_g: float) -> Cup:
    return cups.filled_cup(
        plastic_kg=plastic_g / 1000,
        cold_g_ml=draws.known(1.05),
        glass_kg=draws.known(0.42),
        diameter_m=draws.known(0.089),
    )


def oven(draws: Draws, power_w: float, *, spread: float = 0.0, loss: float = 1.0) -> Oven:
    return drawn_oven(
        draws,
        power_w=power_w * np.exp(spread * draws.scores("power")),
        loss=draws.known(loss),
        surface_offset_k=3.0 * draws.scores("offset"),
        reading_bias_k=draws.known(0.0),
        heat_ratio=draws.known(1.0),
        ambient_c=draws.known(22.0),
    )


def cold(draws: Draws) -> State:
    return cups.cold_start(draws.known(22.0))


def cook(**about) -> CookInput:
    return CookInput(**({"plastic_g": 400.0, "power_w": 450.0} | about))


@lawful
@given(masses, powers, times, st.floats(1.02, 1.5))
def test_more_power_is_never_cooler(plastic_g, power_w, seconds, more):
    draws = Draws(count=20)
    cup = filled(draws, plastic_g)
    less, plenty = (
        cups.advance(cold(draws), cup, oven(draws, p), seconds, on=True)
        for p in (power_w, power_w * more)
    )
    assert (plenty.mean_c > less.mean_c).all()
    assert (plenty.hottest_c > less.hottest_c).all()
    assert (plenty.fused >= less.fused).all()
    assert (plenty.dose >= less.dose).all()


@lawful
@given(masses, st.integers(0, 3), st.floats(0, 3600))
def test_no_burst_no_rise(plastic_g, count, rest_s):
    idle = tuple(Burst(on_s=0, rest_s=rest_s) for _ in range(count))
    done = cook_forecast(cook(plastic_g=plastic_g, bursts=idle, start_c=22, ambient_c=22))
    for moment in done.moments:
        for band in (moment.mean_c, moment.hottest_c, moment.coldest_c):
            assert (band.low, band.typical, band.high) == pytest.approx((22, 22, 22), abs=1e-9)
    assert done.events == ()


@lawful
@given(masses, powers, times)
def test_heat_of_a_sealed_cup_is_all_accounted_for(plastic_g, power_w, seconds):
    # Without losses the oven's work is in the plastic and the glass: to 0.1 %.
    draws = Draws(count=4)
    cup, sealed = filled(draws, plastic_g), oven(draws, power_w, loss=0.0)
    state = cups.advance(cold(draws), cup, sealed, seconds, on=True)
    rested = cups.advance(state, cup, sealed, 120, on=False)
    for end in (state, rested):
        mean, glass_c = float(end.mean_c[0]), float(end.glass_c[0])
        plastic_j, _ = quad(lambda c: float(plastisol.heat_capacity_j_kgk(np.array(c))), 22, mean)
        glass_j = 0.42 * glass.HEAT_CAPACITY_J_KGK.typical * (glass_c - 22)
        held = plastic_g / 1000 * plastic_j + glass_j
        assert held == pytest.approx(power_w * seconds, rel=1e-3)


@lawful
@given(masses, st.floats(60, 200))
def test_losses_leave_through_the_films(plastic_g, hot_c):
    # Over one short step the cup gives off what the films of the textbook carry.
    draws, dt = Draws(count=4), 0.1
    cup, idle = filled(draws, plastic_g), oven(draws, 0.0)
    one, zero = np.ones((3, 5)), np.zeros(5)
    hot = State(draws.known(hot_c), draws.known(hot_c), zero, zero, one, one, zero, stirred=False)
    after = cups.advance(hot, cup, idle, dt, on=False)
    cp = float(plastisol.heat_capacity_j_kgk(np.array(hot_c)))
    fall = plastic_g / 1000 * cp * (hot_c - after.mean_c[0])
    fall += 0.42 * glass.HEAT_CAPACITY_J_KGK.typical * (hot_c - after.glass_c[0])
    at = np.array([hot_c])
    side = wall_film(at, air_c=25.0, height_m=cup.height_m, emissivity=0.9)[0] * cup.side_m2[0]
    top = top_film(at, air_c=25.0, diameter_m=0.089, emissivity=0.9)[0] * cup.top_m2[0]
    watts = (side + top + 3.0 * cup.top_m2[0]) * (hot_c - 22)
    assert fall / dt == pytest.approx(watts, rel=0.01)


@lawful
@given(masses, powers, times)
def test_halving_the_step_changes_little(plastic_g, power_w, seconds):
    draws = Draws(count=20)
    cup, hot = filled(draws, plastic_g), oven(draws, power_w, spread=0.05)
    ends = []
    for step_s in (STEP_S, STEP_S / 2):
        state = cups.advance(cold(draws), cup, hot, seconds, on=True, step_s=step_s)
        ends.append(cups.advance(state, cup, hot, 60, on=False, step_s=step_s).mean_c)
    assert np.abs(ends[0] - ends[1]).max() < 0.3


@lawful
@given(masses, powers, st.lists(st.tuples(times, st.floats(0, 90), st.booleans()), max_size=3))
def test_order_of_places_and_shares(plastic_g, power_w, parts):
    draws = Draws(count=20)
    cup, hot, state = filled(draws, plastic_g), oven(draws, power_w, spread=0.1), cold(draws)
    for seconds, rest, stir in parts:
        before = state
        state = cups.advance(state, cup, hot, seconds, on=True)
        state = cups.advance(state, cup, hot, rest, on=False)
        assert (state.dose >= before.dose).all()
        state = cups.stirred(state) if stir else state
        assert (state.hottest_c >= state.mean_c).all()
        assert (state.mean_c >= state.bottom_c).all()
        assert ((state.fused >= 0) & (state.fused <= state.gelled + 1e-12)).all()
        assert (state.gelled <= 1).all()
        for zones in (state.gelled, state.fused):
            assert (zones[CORE] >= zones[MEAN] - 1e-9).all()
            assert (zones[MEAN] >= zones[BOTTOM] - 1e-9).all()


@settings(max_examples=5)
@given(masses, powers, times, st.integers(0, 9))
def test_same_in_same_out(plastic_g, power_w, seconds, seed):
    asked = cook(plastic_g=plastic_g, power_w=power_w, bursts=(Burst(on_s=seconds),), seed=seed)
    assert answer_or_refusal(asked) == answer_or_refusal(asked)


def answer_or_refusal(asked):
    """What a forecast says; a little plastic in a strong oven is refused, in the same words."""
    try:
        return to_json(cook_forecast(asked))
    except NoAnswer as refused:
        return str(refused)


@few
@given(st.floats(250, 700), st.floats(0.02, 0.25), st.sampled_from([174.0, 180.0, 190.0, 200.0]))
def test_rounds_keep_the_limit(power_w, spread, limit_c):
    draws = Draws(count=80)
    cup, hot = filled(draws, 450), oven(draws, power_w, spread=spread)
    found = rounds(cup, hot, cold(draws), target_c=172, limit_c=limit_c)
    assert 1 <= len(found) <= MOST_ROUNDS
    for one in found:
        assert q95(one.hot.hottest_c) <= limit_c
    # The first burst stops as the gel starts, so that the cup can still be stirred.
    assert found[0].hot.mean_c[0] < 85
    assert found[0].after.gelled[MEAN, 0] < 0.5
    assert found[-1].after.mean_c[0] > 160


@few
@given(st.floats(300, 700), st.floats(0.02, 0.1), st.sampled_from([175.0, 185.0, 200.0]))
def test_table_for_paper(power_w, spread, limit_c):
    draws = Draws(count=80)
    cup, hot = filled(draws, 450), oven(draws, power_w, spread=spread)
    reads = tuple(float(c) for c in range(80, 180, 10))
    rows = next_bursts(cup, hot, readings_c=reads, target_c=172, limit_c=limit_c)
    assert tuple(r.reads_c for r in rows) == reads
    seconds = [r.on_s for r in rows]
    assert seconds == sorted(seconds, reverse=True)
    for row in rows:
        assert 0 <= row.low_s <= row.on_s <= row.high_s
        assert row.high_s - row.low_s <= 0.6 * row.on_s + 40
    cooler = next_bursts(cup, hot, readings_c=reads, target_c=160, limit_c=limit_c)
    assert all(c.on_s <= r.on_s for c, r in zip(cooler, rows, strict=True))
    careful = next_bursts(cup, hot, readings_c=reads, target_c=172, limit_c=limit_c - 8)
    assert all(c.on_s <= r.on_s for c, r in zip(careful, rows, strict=True))
    assert any(c.limited for c in careful)


@few
@given(st.floats(400, 1200), st.floats(140, 175), st.floats(4, 25))
def test_hotter_reading_means_more_power(label_w, surface_c, hotter_k):
    def power(*seen: float) -> tuple[float, float]:
        readings = tuple(CookReading(plastic_g=498, on_s=360, surface_c=c) for c in seen)
        band = coupling(CouplingInput(label_w=label_w, readings=readings)).plastic_power_w
        return band.typical, band.half_width / band.typical

    assert power(surface_c + hotter_k)[0] > power(surface_c)[0]
    assert power(surface_c, surface_c)[1] <= power(surface_c)[1] < power()[1]


@lawful
@given(st.floats(250, 1500), st.floats(5, 40), st.floats(40, 120), st.integers(0, 4))
def test_water_test(water_g, rise_k, on_s, repeats):
    def asked(rise: float) -> WaterTestInput:
        return WaterTestInput(
            water_g=water_g, start_c=20, end_c=20 + rise, on_s=on_s,
            repeats_end_c=(20 + rise,) * repeats,
        )  # fmt: skip

    less, more = water_test(asked(rise_k)).power_w, water_test(asked(rise_k * 1.2)).power_w
    assert more.typical == pytest.approx(1.2 * less.typical)
    assert less.low < less.typical < less.high
    assert more.half_width / more.typical < 1.05 * less.half_width / less.typical
    plastic = water_test(asked(rise_k)).plastic_power_w
    assert plastic.low < plastic.typical < less.typical


@lawful
@given(
    st.floats(3, 30), st.floats(15, 40), st.sampled_from(list(Shape)),
    st.sampled_from(list(MoldMaterial)), st.booleans(),
)  # fmt: skip
def test_mold_opening(thickest_mm, mold_c, shape, material, open_face):
    def opening(**changed):
        known = {
            "thickest_mm": thickest_mm, "mold_c": mold_c, "shape": shape,
            "material": material, "open_face": open_face,
        }  # fmt: skip
        return cool_bait(BaitCoolingInput(**(known | changed))).open_s

    band = opening()
    assert 0 < band.low < band.typical < band.high < 12 * band.typical
    assert opening(thickest_mm=thickest_mm * 1.2).typical > band.typical
    assert opening(mold_c=mold_c + 5).typical > band.typical
    assert opening(firm_c=50).typical > opening(firm_c=65).typical
    assert opening(shape=Shape.FLAT, open_face=False).typical >= opening(
        shape=Shape.ROUND, open_face=False
    ).typical  # fmt: skip
    if not open_face and shape is Shape.FLAT and material is MoldMaterial.ALUMINUM:
        assert opening(open_face=True).typical > band.typical


@few
@given(masses, st.floats(160, 200))
def test_cup_window(plastic_g, melt_c):
    done = cool_window(
        WindowInput(vessel=Vessel.CUP, melt_c=melt_c, plastic_g=plastic_g, least_c=150)
    )
    at = [t.after_s.typical for t in done.times]
    assert at == sorted(at)
    assert [t.limit_c for t in done.times] == sorted((t.limit_c for t in done.times), reverse=True)
    assert done.window_s == next(t.after_s for t in done.times if t.limit_c == 150)
    more = WindowInput(vessel=Vessel.CUP, melt_c=melt_c, plastic_g=plastic_g * 1.3, least_c=150)
    assert cool_window(more).window_s.typical > done.window_s.typical


@lawful
@given(st.floats(20, 230), st.floats(-9, 9))
def test_mean_behind_a_reading(mean_c, offset_k):
    offset = np.array([offset_k])
    face = stirring_c(np.array([mean_c]), offset)
    assert mean_behind(face, offset)[0] == pytest.approx(mean_c)
    # A stirred face is nearer to the mean than one that was left alone.
    hot = np.array([170.0])
    assert np.abs(stirring_c(hot, 0 * offset) - hot) < np.abs(unstirred_c(hot, 0 * offset) - hot)


def test_an_oven_off_heats_nothing():
    draws = Draws(count=4)
    cup, hot = filled(draws, 300), oven(draws, 500)
    warm = cups.advance(cold(draws), cup, hot, 60, on=True)
    off = replace(hot, power_w=draws.known(0.0))
    assert (
        cups.advance(warm, cup, off, 30, on=True).mean_c[0]
        == cups.advance(warm, cup, hot, 30, on=False).mean_c[0]
        < warm.mean_c[0]
    )
