"""Promises that sinking, hanging and pressing keep."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pourwright.base.band import Band, exact
from pourwright.blend.hang import HangInput, hang
from pourwright.blend.press import Known, Press
from pourwright.blend.press_test import PressInput, press_test
from pourwright.blend.rig import Weight
from pourwright.blend.sink import SinkInput, sink
from pourwright.matter.metal import Metal

steady = settings(derandomize=True, deadline=None, max_examples=15)

DENSITY = st.floats(0.9, 1.3)
SALT = st.floats(0, 40)
PLACES = st.floats(-0.1, 1.0)


@st.composite
def weights(draw, length_mm):
    return Weight(
        metal=draw(st.sampled_from(list(Metal))),
        mass_g=draw(st.floats(0.1, 15)),
        at_mm=length_mm * draw(PLACES),
        up_mm=draw(st.floats(-15, 15)),
    )


@st.composite
def sinkings(draw):
    length = draw(st.floats(40, 250))
    return SinkInput(
        mass_g=draw(st.floats(1, 60)),
        density_g_ml=exact(draw(DENSITY)),
        length_mm=length,
        thick_mm=length * draw(st.floats(0.05, 0.4)),
        salinity=draw(SALT),
        water_c=draw(st.one_of(st.none(), st.floats(1, 35))),
        weights=tuple(draw(st.lists(weights(length), max_size=2))),
    )


def ordered(band: Band) -> bool:
    return band.low <= band.typical <= band.high


@steady
@given(sinkings())
def test_a_bait_goes_the_way_its_weight_in_water_points(inputs):
    done = sink(inputs)
    for band in (done.speed_m_s, done.level_m_s, done.end_first_m_s, done.net_g, done.reynolds):
        assert ordered(band)
    assert done.speed_m_s.typical * done.net_g.typical >= 0
    assert (done.to_depth_s is None) == (done.net_g.typical <= 0)
    assert 0 <= done.sinks_share <= 1
    assert done.path_deg.low >= 0
    assert sink(inputs) == done


@steady
@given(sinkings())
def test_no_bait_goes_slower_than_half_its_level_fall_nor_faster_than_end_first(inputs):
    done = sink(inputs)
    level, end, real = (
        abs(b.typical) for b in (done.level_m_s, done.end_first_m_s, done.speed_m_s)
    )
    # A rod a few degrees off its length falls as fast as along it, or a hair faster.
    assert min(level, end) / 2 <= real <= max(level, end) * 1.01


@steady
@given(sinkings(), st.floats(0.01, 0.2))
def test_a_heavier_bait_sinks_faster(inputs, more):
    heavier = dataclasses.replace(inputs, density_g_ml=exact(inputs.density_g_ml.typical + more))
    heavier = dataclasses.replace(
        heavier,
        mass_g=inputs.mass_g * heavier.density_g_ml.typical / inputs.density_g_ml.typical,
    )
    assert sink(heavier).level_m_s.typical > sink(inputs).level_m_s.typical


@steady
@given(sinkings(), st.floats(1, 20))
def test_saltier_water_carries_more(inputs, more):
    assume(inputs.salinity + more <= 42)
    saltier = dataclasses.replace(inputs, salinity=inputs.salinity + more)
    first, second = sink(inputs), sink(saltier)
    assert second.net_g.typical < first.net_g.typical
    assert second.water_kg_m3.typical > first.water_kg_m3.typical
    assert second.level_m_s.typical < first.level_m_s.typical


@steady
@given(sinkings())
def test_turned_end_for_end_it_falls_the_same(inputs):
    turned = dataclasses.replace(
        inputs,
        weights=tuple(
            dataclasses.replace(w, at_mm=inputs.length_mm - w.at_mm) for w in inputs.weights
        ),
    )
    first, second = sink(inputs), sink(turned)
    assert second.offset_share.typical == pytest.approx(-first.offset_share.typical, abs=1e-9)
    assert second.speed_m_s.typical == pytest.approx(first.speed_m_s.typical, rel=1e-6)
    assert second.nose_down_deg.typical == pytest.approx(-first.nose_down_deg.typical, abs=1e-6)


@steady
@given(st.floats(2, 40), st.floats(0.95, 1.2))
def test_all_roads_to_mass_and_volume_agree(mass_g, density):
    volume = mass_g / density
    hung = mass_g - volume * 0.9982063
    roads = (
        {"mass_g": mass_g, "density_g_ml": exact(density)},
        {"volume_ml": exact(volume), "density_g_ml": exact(density)},
        {"mass_g": mass_g, "volume_ml": exact(volume)},
        {"mass_g": mass_g, "hung_g": hung},
        {"volume_ml": exact(volume), "hung_g": hung},
    )
    nets = [
        sink(SinkInput(**road, length_mm=120, thick_mm=10, water_c=20)).net_g.typical
        for road in roads
    ]
    assert nets == pytest.approx([nets[0]] * 5, abs=1e-4 * mass_g)


@st.composite
def hangings(draw):
    mass_g = draw(st.floats(2, 40))
    return HangInput(
        mass_g=mass_g,
        density_g_ml=exact(draw(DENSITY)),
        water_c=20.0,
        buoyancy_at_mm=60.0,
        buoyancy_up_mm=draw(st.floats(-5, 5)),
        weights=(
            Weight(
                mass_g=mass_g * draw(st.floats(0.2, 1)),
                at_mm=60 + draw(st.floats(-50, 50)),
                up_mm=draw(st.floats(-20, -12)),
            ),
        ),
        tie_at_mm=draw(st.floats(0, 60)),
        tie_up_mm=draw(st.floats(0, 20)),
    )


@steady
@given(hangings(), st.floats(5, 60), st.floats(-20, 20))
def test_angles_do_not_care_where_one_measures_from(inputs, along, up):
    moved = dataclasses.replace(
        inputs,
        buoyancy_at_mm=inputs.buoyancy_at_mm + along,
        buoyancy_up_mm=inputs.buoyancy_up_mm + up,
        weights=tuple(
            dataclasses.replace(w, at_mm=w.at_mm + along, up_mm=w.up_mm + up)
            for w in inputs.weights
        ),
        tie_at_mm=inputs.tie_at_mm + along,
        tie_up_mm=inputs.tie_up_mm + up,
    )
    first, second = hang(inputs), hang(moved)
    assert first.free_deg is not None
    assert first.on_line_deg is not None
    assert second.free_deg is not None
    assert second.on_line_deg is not None
    assert second.free_deg.typical == pytest.approx(first.free_deg.typical, abs=1e-6)
    assert second.on_line_deg.typical == pytest.approx(first.on_line_deg.typical, abs=1e-6)
    assert second.apart_mm.typical == pytest.approx(first.apart_mm.typical, abs=1e-9)


@steady
@given(hangings())
def test_a_weight_under_the_belly_keeps_the_back_up(inputs):
    done = hang(inputs)
    assert done.free_deg is not None
    assert ordered(done.free_deg)
    assert -90 < done.free_deg.typical < 90
    weight = inputs.weights[0].at_mm
    assume(abs(weight - 60) > 1e-3)  # level but for rounding
    # A weight ahead of the middle lowers the nose.
    assert (done.free_deg.typical > 0) == (weight < 60)
    assert hang(inputs) == done


@steady
@given(hangings())
def test_upside_down_is_half_a_turn_away(inputs):
    done = hang(inputs)
    turned = hang(dataclasses.replace(
        inputs, buoyancy_up_mm=-inputs.buoyancy_up_mm,
        weights=tuple(dataclasses.replace(w, up_mm=-w.up_mm) for w in inputs.weights),
    ))  # fmt: skip
    assert done.free_deg is not None
    assert turned.free_deg is not None
    assert abs(turned.free_deg.typical) == pytest.approx(180 - abs(done.free_deg.typical))
    assert turned.free.value == "turned over"


@st.composite
def pressings(draw):
    ball = draw(st.floats(6, 25))
    return Press(
        ball_mm=ball,
        load_g=draw(st.floats(30, 300)),
        indent_mm=max(0.3, ball * draw(st.floats(0.08, 0.4))),
        puck_mm=draw(st.floats(15, 40)),
    )


@steady
@given(pressings(), st.floats(1.05, 2))
def test_a_deeper_dent_is_softer_and_more_weight_firmer(press, more):
    assume(press.indent_mm * more <= press.ball_mm / 2)
    base, deeper, heavier = (
        press_test(PressInput(press=p)).modulus_kpa.typical
        for p in (
            press,
            dataclasses.replace(press, indent_mm=press.indent_mm * more),
            dataclasses.replace(press, load_g=press.load_g * more),
        )
    )
    assert deeper < base
    assert heavier == pytest.approx(more * base, rel=1e-9)


@steady
@given(pressings(), st.floats(20, 60))
def test_a_puck_pressed_like_the_known_one_is_as_hard(press, known_oo):
    known = Known(indent_mm=press.indent_mm, puck_mm=press.puck_mm, hardness_oo=known_oo)
    done = press_test(PressInput(press=press, known=known))
    assert done.hardness_oo is not None
    assert done.hardness_oo.typical == pytest.approx(known_oo, abs=0.01)
    assert done.firmer_ratio is not None
    assert done.firmer_ratio.typical == pytest.approx(1)
    assert done.hardness_oo.half_width < 15
