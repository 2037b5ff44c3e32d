"""Layers, faces and flake against printed values and closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad

from pourwright.color import two_flux
from pourwright.color.cover import flake_cover, flakes_per_gram
from pourwright.color.face import PLASTIC_FACE, Face, face_of
from pourwright.color.kinds.flake import Flake, face_mm2_per_g
from pourwright.color.layer import mixture, sight
from pourwright.color.slab import Placing
from pourwright.spectrum.light import BANDS


@pytest.mark.parametrize(
    ("index", "straight", "diffuse_out", "diffuse_in"),
    [
        # Judd, J. Res. NBS 29 (1942) 329, for 1.5 (from memory); the others by Walsh's formula
        # as reproduced in a public optics note on diffuse reflection (closed form).
        (1.50, 0.0400, 0.0918, 0.5963),
        (1.52, 0.0426, 0.0947, 0.6082),
        (1.45, 0.0337, 0.0844, 0.5645),
        (1.5 / 1.333, 0.0035, 0.0303, 0.2342),  # plastic under water
    ],
)
def test_fresnel_shares_of_a_face(index, straight, diffuse_out, diffuse_in):
    face = face_of(index)
    assert face.straight == pytest.approx(straight, abs=6e-5)
    assert face.diffuse_out == pytest.approx(diffuse_out, abs=6e-5)
    assert face.diffuse_in == pytest.approx(diffuse_in, abs=6e-5)


@pytest.mark.parametrize("index", [1.05, 1.33, 1.5, 1.7])
def test_diffuse_share_is_the_hemisphere_of_fresnel(index):
    # Fresnel's equations (closed form), averaged over Lambert's cosine.
    def fresnel(sine: float) -> float:
        into, onto = math.sqrt(1 - sine**2), math.sqrt(1 - (sine / index) ** 2)
        across = ((into - index * onto) / (into + index * onto)) ** 2
        along = ((onto - index * into) / (onto + index * into)) ** 2
        return float((across + along) / 2)

    average, _ = quad(lambda s: 2 * s * fresnel(s), 0, 1)
    assert face_of(index).diffuse_out == pytest.approx(average, abs=1e-7)


def test_saunderson_of_a_half():
    # Saunderson, J. Opt. Soc. Am. 32 (1942) 727: k1 + (1-k1)(1-k2)R/(1-k2·R) with k1 = 0.04,
    # k2 = 0.6, R = 0.5 is 11/35 (closed form); `seen` leaves the mirror light k1 out.
    face = Face(straight=0.04, diffuse_out=0.09, diffuse_in=0.6)
    assert 0.04 + float(face.seen(np.array(0.5))) == pytest.approx(11 / 35, abs=1e-12)


def test_saunderson_has_its_inverse():
    inside, face = np.linspace(0, 1, 11), PLASTIC_FACE[False]
    assert face.inside(face.seen(inside)) == pytest.approx(inside, abs=1e-12)


def test_a_perfect_ground_under_gap_loses_nothing():
    # Conservation of energy (closed form); a black one leaves the face alone.
    assert float(PLASTIC_FACE[False].ground_under_gap(np.array(1.0))) == pytest.approx(1.0)
    black = float(PLASTIC_FACE[False].ground_under_gap(np.array(0.0)))
    assert black == pytest.approx(PLASTIC_FACE[False].diffuse_in)


def test_endless_layer_by_the_kubelka_munk_function():
    # Kubelka and Munk (1931): K/S = (1-R)²/(2R), so R = 0.5 where K/S = 0.25.
    reflect, transmit = two_flux.layer(np.array(0.25), np.array(1.0), np.array(80.0))
    assert float(reflect) == pytest.approx(0.5, abs=1e-12)
    assert float(transmit) < 1e-20


@pytest.mark.parametrize("absorb", [0.0, 1e-14, 1e-9])
def test_layer_that_does_not_absorb(absorb):
    # Kubelka (1948): K = 0 gives R = Sd/(1 + Sd), one half at Sd = 1.
    reflect, transmit = two_flux.layer(np.array(absorb), np.array(0.2), np.array(5.0))
    assert float(reflect) == pytest.approx(0.5, abs=1e-7)
    assert float(transmit) == pytest.approx(0.5, abs=1e-7)


@pytest.mark.parametrize("scatter", [0.0, 1e-14])
def test_layer_that_does_not_scatter(scatter):
    # Bouguer and Lambert: T = exp(-Kd); over a ground, R = Rg·exp(-2Kd).
    reflect, transmit = two_flux.layer(np.array(0.3), np.array(scatter), np.array(4.0))
    assert float(reflect) == pytest.approx(0, abs=1e-12)
    assert float(transmit) == pytest.approx(math.exp(-1.2))
    over = two_flux.over(reflect, transmit, np.array(0.8))
    assert float(over) == pytest.approx(0.8 * math.exp(-2.4))


@pytest.mark.parametrize(("absorb", "scatter", "thick"), [(0.1, 0.5, 3.0), (2.0, 0.1, 1.5)])
def test_layer_by_the_hyperbolic_form(absorb, scatter, thick):
    # Kubelka (1948): R0 = sinh(bSd)/(a·sinh + b·cosh), T = b/(a·sinh + b·cosh).
    a = (scatter + absorb) / scatter
    b = math.sqrt(a * a - 1)
    x = b * scatter * thick
    below = a * math.sinh(x) + b * math.cosh(x)
    reflect, transmit = two_flux.layer(np.array(absorb), np.array(scatter), np.array(thick))
    assert float(reflect) == pytest.approx(math.sinh(x) / below)
    assert float(transmit) == pytest.approx(b / below)


def test_two_halves_make_the_whole():
    # Kubelka (1948): R = R1 + T1²·R2/(1 - R1·R2), T = T1·T2/(1 - R1·R2).
    k, s = np.array(0.07), np.array(0.3)
    r1, t1 = two_flux.layer(k, s, np.array(2.0))
    r2, t2 = two_flux.layer(k, s, np.array(5.0))
    reflect, transmit = two_flux.layer(k, s, np.array(7.0))
    assert float(reflect) == pytest.approx(float(two_flux.over(r1, t1, r2)))
    assert float(transmit) == pytest.approx(float(t1 * t2 / (1 - r1 * r2)))


def test_film_area_of_a_gram():
    # Closed form: 1 m² of 25 µm film at 1.38 g/cm³ (polyester, handbook; from memory) is 34.5 g.
    assert 1e6 / float(face_mm2_per_g(np.array(25.0))) == pytest.approx(34.5)


@pytest.mark.parametrize(("grams", "thick", "cover"), [(1.0, 5.0, 0.515), (1.0, 10.0, 0.765)])
def test_cover_of_a_boolean_model(grams, thick, cover):
    # Closed form: 1 - exp(-λ/2); λ = 1 g in 100 mL × 290 cm²/g × depth, half by Cauchy's mean
    # shadow of a flat plate. In clear plastic over black a flake shows wherever it is met.
    flake = Flake(color_hex="#b0b0b0", film_um=25)
    # 1 g in 100 mL is 1/1.052 g in 100 g of cold plastic.
    stuff = flake.stuff(np.array([grams / 1.052]), {"film_um": np.array([25.0])})
    clear = np.zeros((1, BANDS)), np.zeros((1, BANDS))
    seen = sight(mixture(clear, [stuff]), thick_mm=thick, ground=0.0, placing=Placing.CONTACT)
    assert seen.reflectance[0] / flake.shown() == pytest.approx(np.full(BANDS, cover), abs=2e-3)


def test_a_flake_deep_in_dark_plastic_is_not_seen():
    # Bouguer and Lambert (closed form): straight there and back exp(-2Kz), so that a deep layer
    # shows (λ/2)/(λ/2 + 2K) of its flakes. Diffuse light on its way out goes up to twice as far,
    # and what the face turns back, 0.596 of it in clear plastic, is lost here.
    flake = Flake(color_hex="#b0b0b0", film_um=25)
    stuff = flake.stuff(np.array([1.0]), {"film_um": np.array([25.0])})
    dark = np.full((1, BANDS), 0.4), np.zeros((1, BANDS))
    seen = sight(mixture(dark, [stuff]), thick_mm=10, ground=0.0, placing=Placing.CONTACT)
    half = float(stuff.faces_per_mm[0]) / 2
    straight = half / (half + 2 * 0.4)
    slanted = half / (half + 3 * 0.4) * (1 - 0.596 * stuff.faces_show.max())
    share = seen.reflectance[0] / flake.shown()
    assert slanted < share.mean() < straight


@pytest.mark.parametrize(("size_in", "count"), [(0.015, 230_569), (0.040, 32_424)])
def test_hexagons_in_a_gram(size_in, count):
    # Closed form: a regular hexagon measured flat to flat has (√3/2)·f²; 25 µm film, 1.38 g/cm³.
    # Room for the inches as printed.
    found = flakes_per_gram(size_in * 25.4, np.array([25.0]))
    assert float(found[0]) == pytest.approx(count, rel=1e-3)


def test_cover_of_a_dose_by_depth():
    # Closed form, as above: λ = 0.5 g/100 g × 1.052 g/mL × 290 cm²/g × depth; cover 1 - exp(-λ/2).
    answer = flake_cover.answer(
        {"size_mm": 0.4, "film_um": 25, "grams_per_100g": 0.5, "thick_mm": 8}
    )
    for depth, cover in zip(answer["depths_mm"], answer["cover_by_depth"], strict=True):
        thickness_of_faces = 0.5 / 100 * 1.052e-3 * 1e3 / (1.38 * 25e-3) * depth
        assert cover["typical"] == pytest.approx(1 - math.exp(-thickness_of_faces / 2))
