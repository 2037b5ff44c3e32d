"""Promises that clamps, vents, bubbles and settling keep."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.band import Band
from pourwright.base.draws import Draws
from pourwright.fill.air import AirInput, Vent, air
from pourwright.fill.bubbles import BubblesInput, bubbles
from pourwright.fill.clamp import ClampInput, clamp
from pourwright.fill.clamp_kinds import CLAMPS, Bolt, Spring
from pourwright.fill.settle import settle
from pourwright.fill.settle_input import Particle, SettleInput, State
from pourwright.matter.mold_material import MoldMaterial

steady = settings(derandomize=True, deadline=None, max_examples=25)

MAYBE_PUSH = st.one_of(st.none(), st.floats(30, 400))
MAYBE_BORE = st.one_of(st.none(), st.floats(15, 60))


@st.composite
def clampings(draw):
    clamps = draw(st.lists(st.builds(CLAMPS[draw(st.sampled_from(list(CLAMPS)))]), max_size=3))
    return ClampInput(
        shadow_cm2=draw(st.floats(5, 200)),
        push_n=draw(MAYBE_PUSH),
        bore_mm=draw(MAYBE_BORE),
        clamps=tuple(clamps),
        gap_mm=draw(st.one_of(st.none(), st.floats(0.01, 0.4))),
        melt_c=draw(st.floats(155, 185)),
        mold_c=draw(st.floats(15, 60)),
        material=draw(st.sampled_from(list(MoldMaterial))),
    )


def ordered(band: Band) -> bool:
    return band.low <= band.typical <= band.high


@steady
@given(clampings())
def test_every_answer_is_ordered_and_says_the_caution(inputs):
    done = clamp(inputs)
    for band in (done.needed_n, done.had_n, done.had_ratio, done.flash_mm, done.visible_gap_mm):
        assert ordered(band)
        assert band.low >= 0
    assert 0 <= done.lift_share <= 1
    assert any("face shield" in note for note in done.notes)
    assert done.advice
    assert clamp(inputs) == done


@steady
@given(clampings(), st.integers(1, 6))
def test_more_clamps_lift_less(inputs, count):
    more = dataclasses.replace(inputs, clamps=(*inputs.clamps, Spring(count=count)))
    first, second = clamp(inputs), clamp(more)
    assert second.lift_share <= first.lift_share
    assert second.had_n.typical == pytest.approx(first.had_n.typical + 150 * count)
    assert second.needed_n == first.needed_n


@steady
@given(clampings(), st.floats(1.1, 3))
def test_force_grows_with_shadow_and_flash_with_gap(inputs, more):
    first = clamp(dataclasses.replace(inputs, gap_mm=0.1))
    wide = clamp(dataclasses.replace(inputs, gap_mm=0.1, shadow_cm2=inputs.shadow_cm2 * more))
    gaping = clamp(dataclasses.replace(inputs, gap_mm=0.1 * more))
    assert wide.needed_n.typical == pytest.approx(more * first.needed_n.typical)
    assert wide.lift_share >= first.lift_share
    assert wide.flash_mm == first.flash_mm
    assert gaping.flash_mm.typical > first.flash_mm.typical


@steady
@given(clampings())
def test_metal_flashes_least(inputs):
    metal, rubber = (
        clamp(dataclasses.replace(inputs, material=m))
        for m in (MoldMaterial.ALUMINUM, MoldMaterial.SILICONE)
    )
    assert rubber.flash_mm.typical > metal.flash_mm.typical


@steady
@given(st.floats(0.1, 5), st.floats(3, 8), st.floats(1.1, 3))
def test_a_bolt_presses_with_its_torque(torque, across, more):
    def force(**values):
        return float(Bolt(**values).force_n(Draws(), "")[0])

    base = force(torque_n_m=torque, bolt_mm=across)
    assert force(torque_n_m=torque * more, bolt_mm=across) == pytest.approx(more * base)
    assert force(torque_n_m=torque, bolt_mm=across * more) == pytest.approx(base / more)


@steady
@given(
    st.floats(2, 200), MAYBE_PUSH, MAYBE_BORE, st.floats(0.02, 0.15), st.integers(1, 12),
    st.floats(1.1, 2),
)  # fmt: skip
def test_air_gets_out_sooner_by_more_and_deeper_vents(volume, push, bore, depth, count, more):
    def asked(**vent):
        vents = (Vent(**vent),)
        return air(AirInput(cavity_ml=volume, push_n=push, bore_mm=bore, vents=vents))

    first = asked(depth_mm=depth, count=count)
    second, deeper = (
        asked(depth_mm=depth, count=count + 1),
        asked(depth_mm=depth * more, count=count),
    )
    assert first.out_s is not None
    assert second.out_s is not None
    assert deeper.out_s is not None
    assert second.out_s.typical < first.out_s.typical
    assert deeper.out_s.typical < first.out_s.typical
    assert first.creep_mm is not None
    assert deeper.creep_mm is not None
    assert deeper.creep_mm.typical > first.creep_mm.typical
    assert deeper.in_time_share >= first.in_time_share
    assert 0 < first.trapped_share.low <= first.trapped_share.high < 1


@steady
@given(st.floats(0.05, 2), st.floats(10, 200), st.floats(0.1, 10), st.floats(1.1, 3))
def test_large_bubbles_in_thin_liquid_rise_first(bubble, depth, thick, more):
    base = BubblesInput(bubble_mm=bubble, depth_mm=depth, viscosity_pa_s=thick)
    first = bubbles(base)
    larger = bubbles(dataclasses.replace(base, bubble_mm=bubble * more))
    thicker = bubbles(dataclasses.replace(base, viscosity_pa_s=thick * more))
    assert larger.rest_min.typical == pytest.approx(first.rest_min.typical / more**2)
    assert thicker.rest_min.typical == pytest.approx(first.rest_min.typical * more)
    assert larger.smallest_gone_mm.typical == pytest.approx(first.smallest_gone_mm.typical)


@steady
@given(st.floats(0.05, 2), st.floats(8, 900))
def test_a_vacuum_only_helps_and_only_raw_liquid(bubble, pressure):
    done = bubbles(BubblesInput(bubble_mm=bubble, chamber_hpa=pressure))
    assert done.vacuum_min is not None
    assert done.vacuum_min.typical < done.rest_min.typical
    assert done.wider_ratio is not None
    assert done.wider_ratio > 1
    assert done.fill_most_share is not None
    assert 0 < done.fill_most_share <= 1 / 3
    assert any("never hot plastic" in note for note in done.notes)


@steady
@given(
    st.sampled_from(list(Particle)), st.sampled_from(list(State)), st.floats(0.03, 0.8),
    st.floats(0, 20), st.floats(1.1, 3),
)  # fmt: skip
def test_coarse_heavy_and_lonely_things_move_fastest(particle, state, size, grams, more):
    base = SettleInput(
        particle=particle, size_mm=size, film_um=25, plastic=state, density_g_ml=1.8,
        grams_per_100g=grams,
    )  # fmt: skip
    first = settle(base)
    assert first.rate_mm_min.low > 0
    assert ordered(first.rate_mm_min)
    coarser = settle(dataclasses.replace(base, size_mm=size * more))
    heavier = settle(dataclasses.replace(base, density_g_ml=1.8 * more))
    crowded = settle(dataclasses.replace(base, grams_per_100g=grams + 10))
    power = 1 if particle is Particle.FLAKE else 2
    assert coarser.rate_mm_min.typical == pytest.approx(first.rate_mm_min.typical * more**power)
    assert heavier.rate_mm_min.typical > first.rate_mm_min.typical
    assert crowded.rate_mm_min.typical < first.rate_mm_min.typical
    assert coarser.stir_every_s.typical <= first.stir_every_s.typical
    light = settle(dataclasses.replace(base, density_g_ml=0.5))
    assert light.rate_mm_min.high < 0
