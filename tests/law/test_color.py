"""Promises that every layer, colorant kind and color keeps."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.color import spoon, two_flux
from pourwright.color.colorant import Colorant
from pourwright.color.constants import Constants
from pourwright.color.count import dripped, weighed
from pourwright.color.dose import Dose
from pourwright.color.dose import Measured as Counted
from pourwright.color.face import PLASTIC_FACE
from pourwright.color.ground import Backing
from pourwright.color.kinds import COLORANTS
from pourwright.color.kinds.measured import Measured
from pourwright.color.predict import PredictInput, predict
from pourwright.color.recipe import RecipeInput, recipe_scale
from pourwright.color.shown import Shown
from pourwright.color.slab import Placing
from pourwright.color.starter import puck_shows, starter_absorb
from pourwright.color.swatch import swatch
from pourwright.spectrum.color_space import hex_of, lab_of, srgb_of, xyz_of_hex, xyz_of_lab
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz, xyz_of
from pourwright.spectrum.smooth import BLACKEST, WHITEST, smooth_spectrum

steady = settings(derandomize=True, deadline=None, max_examples=60)
# For whole predictions with their bands.
few = settings(derandomize=True, deadline=None, max_examples=30)

HEXES = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")
LABS = st.tuples(st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100)).map(np.array)
RATES = st.one_of(st.just(0.0), st.floats(1e-14, 200))
SHARES = st.floats(0, 1)
DEPTHS = st.floats(0.2, 60)
CONSTANTS = Constants(absorb_mm=(0.02,) * 31, scatter_mm=(0.1,) * 31)


def known(key: str, color_hex: str) -> Colorant:
    """A colorant of each kind, in a color where it has one."""
    kind = COLORANTS[key]
    if issubclass(kind, Shown):
        return kind(color_hex=color_hex)
    return kind(constants=CONSTANTS) if issubclass(kind, Measured) else kind()


KINDS = st.sampled_from(list(COLORANTS))


@st.composite
def doses(draw):
    colorant = known(draw(KINDS), draw(HEXES))
    return Dose(name="x", per_100g=draw(st.floats(0, 5)), measure=Counted.GRAMS, colorant=colorant)


@steady
@given(RATES, RATES, DEPTHS, SHARES)
def test_a_layer_makes_no_light(absorb, scatter, thick, ground):
    reflect, transmit = two_flux.layer(np.array(absorb), np.array(scatter), np.array(thick))
    assert 0 <= reflect <= 1
    assert 0 <= transmit <= 1
    assert reflect + transmit <= 1 + 1e-12
    assert 0 <= two_flux.over(reflect, transmit, np.array(ground * 0.999)) <= 1


@steady
@given(RATES, RATES, DEPTHS, SHARES, st.floats(1, 10))
def test_more_absorber_is_never_lighter_over_any_ground(absorb, scatter, thick, ground, more):
    less, least = (_over(absorb * m, scatter, thick, ground) for m in (1, more))
    assert least <= less + 1e-9


@steady
@given(RATES, RATES, DEPTHS, SHARES, st.floats(1, 10))
def test_more_scatter_is_never_darker_over_any_ground(absorb, scatter, thick, ground, more):
    some, lots = (_over(absorb, scatter * m, thick, ground) for m in (1, more))
    assert lots >= some - 1e-9


def _over(absorb: float, scatter: float, thick: float, ground: float) -> float:
    reflect, transmit = two_flux.layer(np.array(absorb), np.array(scatter), np.array(thick))
    return float(two_flux.over(reflect, transmit, np.array(ground * 0.999)))


@steady
@given(st.floats(0, 0.999), st.floats(0, 0.999))
def test_faces_keep_order_and_range(one, two):
    low, high = sorted((one, two))
    for through in (PLASTIC_FACE[False].seen, PLASTIC_FACE[False].ground_under_gap):
        assert 0 <= through(np.array(low)) <= through(np.array(high)) <= 1


@steady
@given(HEXES)
def test_a_smooth_spectrum_shows_its_color(color_hex):
    white = white_xyz()
    wanted = np.clip(xyz_of_hex(color_hex), BLACKEST * white, WHITEST * white)
    found = smooth_spectrum(xyz_of_hex(color_hex))
    assert found.min() > 0
    assert found.max() < 1
    assert xyz_of(found) == pytest.approx(wanted, abs=1e-5)


@pytest.mark.parametrize("corner", list(itertools.product((0, 255), repeat=3)))
def test_every_corner_of_the_screen_has_a_spectrum(corner):
    found = smooth_spectrum(xyz_of_hex("#{:02x}{:02x}{:02x}".format(*corner)))
    assert 0 < found.min() <= found.max() < 1


@steady
@given(HEXES, st.floats(0.0005, 1.5))
def test_the_reference_puck_shows_the_color_entered(color_hex, scatter_mm):
    shown = smooth_spectrum(xyz_of_hex(color_hex))
    scatter = np.array([scatter_mm])
    absorb = starter_absorb(shown, scatter)
    assert absorb.min() >= 0
    share = puck_shows(absorb, scatter[:, None])[0] / shown
    assert share.max() <= 1 + 1e-6
    assert share == pytest.approx(np.full(len(shown), share[0]), rel=1e-4)
    lightest = puck_shows(np.zeros((1, len(shown))), scatter[:, None])[0]
    assert share[0] == pytest.approx(min(1, (lightest / shown).min()), rel=1e-4)


@few
@given(st.lists(doses(), max_size=4), DEPTHS, SHARES, st.sampled_from(list(Placing)))
def test_every_recipe_reflects_between_nothing_and_all(recipe, thick, ground, placing):
    answer = predict(
        PredictInput(
            doses=tuple(recipe), thick_mm=thick, backing=Backing.OTHER, ground_share=ground,
            placing=placing,
        )
    )  # fmt: skip
    assert 0 <= min(answer.reflectance) <= max(answer.reflectance) <= 1
    assert 0 <= min(answer.transmittance) <= max(answer.transmittance) <= 1


@few
@given(st.lists(doses(), max_size=3), KINDS, HEXES)
def test_a_dose_of_nothing_changes_nothing(recipe, kind, color_hex):
    nothing = Dose(name="none", per_100g=0, colorant=known(kind, color_hex))
    without = predict(PredictInput(doses=tuple(recipe)))
    with_it = predict(PredictInput(doses=(*recipe, nothing)))
    assert with_it.reflectance == pytest.approx(without.reflectance, abs=1e-12)
    assert with_it.transmittance == pytest.approx(without.transmittance, abs=1e-12)
    assert with_it.lab.lightness.low == pytest.approx(without.lab.lightness.low, abs=1e-9)


@few
@given(st.lists(doses(), max_size=4), DEPTHS)
def test_the_swatch_is_the_typical_prediction(recipe, thick):
    quick = swatch(recipe, thick_mm=thick)
    for backing, shown in ((Backing.WHITE, quick.over_white), (Backing.DARK, quick.over_dark)):
        full = predict(PredictInput(doses=tuple(recipe), thick_mm=thick, backing=backing))
        ours, theirs = (
            np.array([int(h[i : i + 2], 16) for i in (1, 3, 5)]) for h in (shown, full.srgb_hex)
        )
        # The prediction goes to the screen by Lab, against a white that differs in the third digit.
        assert np.abs(ours - theirs).max() <= 1


@steady
@given(st.lists(doses(), min_size=1, max_size=4))
def test_the_order_of_doses_does_not_matter(recipe):
    assert swatch(recipe, thick_mm=8) == swatch(recipe[::-1], thick_mm=8)


@steady
@given(HEXES)
def test_a_screen_color_survives_the_way_to_xyz_and_back(color_hex):
    screen, inside = srgb_of(xyz_of_hex(color_hex))
    assert inside
    assert hex_of(screen) == color_hex


@steady
@given(LABS)
def test_lab_survives_the_way_to_xyz_and_back(lab):
    white = white_xyz()
    # A negative cube root has no tristimulus value; the cone of real colors has none.
    if xyz_of_lab(lab, white).min() > 0:
        assert lab_of(xyz_of_lab(lab, white), white) == pytest.approx(lab, abs=1e-9)


@steady
@given(LABS, LABS)
def test_differences_are_even_and_vanish_at_home(one, two):
    assert delta_e00(one, one) == pytest.approx(0, abs=1e-9)
    assert delta_e00(one, two) == pytest.approx(float(delta_e00(two, one)), abs=1e-9)
    assert delta_e00(one, two) >= 0


@st.composite
def recipes(draw):
    measures = st.sampled_from(list(Counted))
    amounts = st.floats(0, 20)
    count = draw(st.integers(1, 4))
    return RecipeInput(
        plastic_g=draw(st.floats(20, 2000)),
        doses=tuple(
            Dose(
                name=f"m{i}", per_100g=draw(amounts), measure=draw(measures), spoon_g=2.5,
                colorant=known(draw(KINDS), draw(HEXES)),
            )
            for i in range(count)
        ),
        scale_step_g=draw(st.sampled_from([0.01, 0.1, 1.0])),
    )  # fmt: skip


@steady
@given(recipes())
def test_rounding_errors_add_up(recipe):
    answer = recipe_scale(recipe)
    measured = sum(d.measured_g for d in answer.doses)
    wanted = sum(d.grams.typical for d in answer.doses)
    assert sum(d.error_g for d in answer.doses) == pytest.approx(measured - wanted, abs=1e-6)
    for dose in answer.doses:
        assert dose.error_share * dose.grams.typical == pytest.approx(dose.error_g, abs=1e-6)
        assert abs(dose.scale_g - dose.measured_g) <= recipe.scale_step_g / 2 + 1e-9
    assert answer.color_shift is not None
    assert answer.color_shift >= 0


@steady
@given(recipes())
def test_twice_the_plastic_takes_twice_the_grams(recipe):
    double = RecipeInput(
        plastic_g=2 * recipe.plastic_g, doses=recipe.doses, scale_step_g=recipe.scale_step_g
    )
    for one, two in zip(recipe_scale(recipe).doses, recipe_scale(double).doses, strict=True):
        assert two.grams.typical == pytest.approx(2 * one.grams.typical)
        assert two.grams.low == pytest.approx(2 * one.grams.low)
        assert two.grams.high == pytest.approx(2 * one.grams.high)


@steady
@given(st.floats(0, 500))
def test_whole_drops_miss_by_half_a_drop_at_most(wanted):
    assert abs(dripped(wanted).amount - wanted) <= 0.5 + 1e-6


@steady
@given(st.floats(0, 500), st.sampled_from([0.01, 0.1, 0.5, 1.0]))
def test_the_scale_misses_by_half_a_step_at_most(wanted, step):
    assert abs(weighed(wanted, step).amount - wanted) <= step / 2 + 1e-6


@steady
@given(
    st.floats(0.01, 3),
    st.sampled_from([(1.0, 0.5, 0.25), (1.0, 1 / 3, 0.25), (0.5, 0.3), (1.0, 0.5, 0.25, 0.125)]),
)
def test_no_other_spoons_are_closer_or_fewer(wanted, sizes):
    spoons = spoon.spooned(wanted, sizes)
    ours = round(abs(spoon.total(spoons) - wanted), 6), sum(n for _, n in spoons)
    every = itertools.product(range(7), repeat=len(sizes))
    best = min(
        (round(abs(sum(n * s for n, s in zip(c, sizes, strict=True)) - wanted), 6), sum(c))
        for c in every
    )
    assert ours <= best
