"""Promises that every flake keeps."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.color.cover import flake_cover
from pourwright.color.cover_entry import CoverInput
from pourwright.color.dose import Dose, Measured
from pourwright.color.kinds.dye import Dye
from pourwright.color.kinds.flake import Flake
from pourwright.color.predict import PredictInput, predict
from pourwright.color.slab import Placing
from pourwright.color.texture import plates

few = settings(max_examples=12)
SIZES = st.floats(0.05, 6)
GRAMS = st.floats(0, 30)
DEPTHS = st.floats(0.2, 60)
FILMS = st.floats(8, 250)
HEXES = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")


def tint(color_hex, grams):
    colorant = Dye(color_hex=color_hex, strength=1, hiding=0.01)
    return Dose(name="tint", per_100g=grams, measure=Measured.GRAMS, colorant=colorant)


@few
@given(SIZES, FILMS, GRAMS, DEPTHS, HEXES, st.sampled_from(Placing))
def test_shares_are_shares_and_grow_with_depth(size, film, grams, thick, color, placing):
    answer = flake_cover(
        CoverInput(
            size_mm=size, film_um=film, grams_per_100g=grams, thick_mm=thick, color_hex=color,
            placing=placing,
        )
    )  # fmt: skip
    for shares in (answer.cover_by_depth, answer.signal_by_depth):
        ends = [b.typical for b in shares]
        assert ends == sorted(ends)
        assert ends[0] >= 0
        assert ends[-1] <= 1 + 1e-9
    assert all(b.low >= 0 for b in (*answer.contrast_by_depth, *answer.flake_de00_by_depth))
    assert answer.cover_by_depth[-1] == answer.cover


@few
@given(SIZES, GRAMS, DEPTHS, st.integers(0, 99))
def test_a_pattern_is_small_and_lies_in_the_bait(size, grams, thick, seed):
    answer = flake_cover(
        CoverInput(size_mm=size, film_um=20, grams_per_100g=grams, thick_mm=thick, seed=seed)
    )
    shown = answer.close_up
    assert 0 < shown.window_mm <= 10
    # Poisson's number, 300 on average at most.
    assert len(shown.plates) < 300 + 6 * 300**0.5
    depths = [p.depth_mm for p in shown.plates]
    assert depths == sorted(depths, reverse=True)
    for plate in shown.plates:
        assert 0 <= plate.depth_mm <= thick + 1e-3
        x, y = np.array(plate.corners_mm).reshape(6, 2).T
        assert np.ptp(x) <= 1.1548 * size + 2e-3
        assert np.ptp(y) <= 1.1548 * size + 2e-3


@few
@given(HEXES, HEXES, st.floats(0, 3), st.floats(0, 2), DEPTHS)
def test_the_color_from_afar_is_that_of_predict(color, tinted, grams, tint_grams, thick):
    # Two rooms that use one property agree on it.
    flake = Flake(color_hex=color, film_um=25)
    dosed = Dose(name="flake", per_100g=grams, measure=Measured.GRAMS, colorant=flake)
    seen = predict(PredictInput(doses=(tint(tinted, tint_grams), dosed), thick_mm=thick))
    answer = flake_cover(
        CoverInput(
            size_mm=1, film_um=25, grams_per_100g=grams, color_hex=color, thick_mm=thick,
            doses=(tint(tinted, tint_grams),),
        )
    )  # fmt: skip
    assert answer.whole_hex == seen.srgb_hex
    bands = (seen.lab.lightness, seen.lab.a, seen.lab.b)
    np.testing.assert_allclose(answer.whole_lab, [b.typical for b in bands], atol=1e-6)


@few
@given(HEXES, st.floats(0, 3), DEPTHS)
def test_plastic_touches_its_flakes_however_the_bait_lies(color, grams, thick):
    given_placing = {
        placing: flake_cover(
            CoverInput(
                size_mm=1, film_um=25, grams_per_100g=1, thick_mm=thick, color_hex=color,
                doses=(tint("#4f6b2a", grams),), placing=placing,
            )
        )
        for placing in (Placing.CONTACT, Placing.AIR_GAP, Placing.HAND)
    }  # fmt: skip
    assert len({answer.flake_hex for answer in given_placing.values()}) == 1


@given(st.floats(0.1, 5), st.integers(0, 9))
def test_a_seed_gives_one_pattern(size, seed):
    one, same = (
        plates(per_mm3=0.2, size_mm=size, thick_mm=4, seed=seed, widest_mm=10, most=300)
        for _ in range(2)
    )
    assert np.array_equal(one.corners_mm, same.corners_mm)
    assert one.window_mm == same.window_mm
