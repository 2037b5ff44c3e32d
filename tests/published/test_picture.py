"""The picture of a look against closed forms, printed laws and independent readers."""

from __future__ import annotations

import dataclasses
import io
import math

import colour
import numpy as np
import pytest
from manifold3d import Manifold
from PIL import Image

from pourwright.base.pixels import Pixels
from pourwright.base.record import from_json
from pourwright.body.families import FAMILIES
from pourwright.body.loft import Solid
from pourwright.body.seen_skin import eye_at, seen_skin
from pourwright.color import two_flux
from pourwright.color.dose import Dose
from pourwright.color.face import face_of, mirrored_share
from pourwright.color.predict import PredictInput, predict
from pourwright.color.slab import Placing
from pourwright.color.stack import Layers, coefficients, even_slabs
from pourwright.color.texture import hexagon_mm2
from pourwright.forecast.picture.glint import mean_glint
from pourwright.forecast.picture.light import ROOM
from pourwright.forecast.picture.picture import look_picture, scene_of
from pourwright.forecast.picture.picture_input import LookInput, PictureInput
from pourwright.spectrum.adaptation import adapted
from pourwright.spectrum.color_space import xyz_of_lab
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz

GREEN = {
    "name": "green", "per_100g": 6, "drop_mass_g": 0.036,
    "colorant": {"kind": "dye", "color_hex": "#4f6b2a"},
}  # fmt: skip
WHITE = {
    "name": "white", "per_100g": 5, "drop_mass_g": 0.036,
    "colorant": {"kind": "opaque", "color_hex": "#f2f0e8"},
}  # fmt: skip
FLAKE = {
    "name": "flake", "per_100g": 0.2, "measure": "grams",
    "colorant": {"kind": "flake", "color_hex": "#b0713a", "film_um": 25, "size_mm": 0.8},
}  # fmt: skip


def asked(*layers: dict[str, object], **more: object) -> PictureInput:
    body = {"family": {"kind": "stick"}, "layers": list(layers), "pixels": 320}
    return from_json(PictureInput, body | more)


def test_a_ball_is_as_thick_as_its_chords():
    # A sphere's chord at distance r from its middle: 2 sqrt(R² - r²); its mean 4V/S = 4R/3
    # (Cauchy, as given by Santaló, Integral Geometry and Geometric Probability, 1976).
    ball = Manifold.sphere(5.0, 256)
    seen = seen_skin(ball, eye_at(2, turn_rad=0.3, tilt_rad=0.5), columns=300, rows=300)
    assert (seen.thick_mm * seen.cover).sum() / seen.cover.sum() == pytest.approx(20 / 3, rel=2e-3)
    whole = seen.cover == 1
    out = np.linalg.norm(seen.near_mm[whole], axis=1)
    assert out == pytest.approx(np.full(whole.sum(), 5.0), abs=0.02)
    assert np.abs(seen.normal[whole] - seen.near_mm[whole] / out[:, None]).max() < 0.03
    off = np.hypot(*(seen.near_mm[whole] @ seen.eye.axes[:2].T).T)
    inner = off < 4.8
    chord = 2 * np.sqrt(25 - off[inner] ** 2)
    assert seen.thick_mm[whole][inner] == pytest.approx(chord, abs=0.05)


@pytest.mark.parametrize("key", ["stick", "paddle_tail", "craw", "tube"])
def test_every_pixel_counts_the_plastic_behind_it(key):
    # Cavalieri: chords times the area of their pixels are the volume, from any side.
    solid = FAMILIES[key]().solid()
    for eye in (eye_at(2), eye_at(1, turn_rad=0.4, tilt_rad=-0.7)):
        seen = seen_skin(solid, eye, columns=320, rows=128)
        volume = (seen.thick_mm * seen.cover).sum() * seen.pixel_mm**2
        assert volume == pytest.approx(solid.volume(), rel=6e-3)


def test_two_fluxes_are_read_back():
    # Kubelka and Munk's layer and its inverse: what went in comes out.
    k, s = np.array([[0.02, 0.4, 3.0, 0.0], [0.3, 0.02, 2.0, 0.7]])
    back, through = two_flux.layer(k, s, np.array(1.0))
    found = coefficients(back.astype(np.float32), through.astype(np.float32))
    assert found[0] == pytest.approx(k, rel=2e-3, abs=2e-3)
    assert found[1] == pytest.approx(s, rel=2e-3)


def test_layers_one_behind_the_other_are_summed():
    # Kubelka (1954): R = R1 + T1² R2 / (1 - R1 R2), T = T1 T2 / (1 - R1 R2).
    k, s = np.array([[0.3], [0.02]]), np.array([[0.1], [0.8]])
    one, two = (two_flux.layer(2 * k[i], 0.75 * s[i] - 0.25 * k[i], np.array(3.0)) for i in (0, 1))
    back = one[0] + one[1] ** 2 * two[0] / (1 - one[0] * two[0])
    through = one[1] * two[1] / (1 - one[0] * two[0])
    weights = np.zeros((1, 8, 2), np.float32)
    weights[0, :4, 0], weights[0, 4:, 1] = 1, 1
    layers = Layers(k.astype(np.float32), s.astype(np.float32))
    absorb, scatter = even_slabs(layers, weights, np.array([6.0], np.float32))
    k_even, s_even = two_flux.from_transport(absorb.astype(float), scatter.astype(float))
    even = two_flux.layer(k_even, s_even, np.array(1.0))
    assert [float(v[0, 0]) for v in even] == pytest.approx([back.item(), through.item()], rel=1e-4)


def test_a_face_mirrors_after_fresnel():
    # Born and Wolf, section 1.5: at Brewster's angle only the light across the plane is mirrored,
    # ((n² - 1)/(n² + 1))² of it; the mean over all directions is what the face's own sum says.
    n = 1.5
    brewster = np.array(math.cos(math.atan(n)))
    assert mirrored_share(brewster, n) == pytest.approx(((n * n - 1) / (n * n + 1)) ** 2 / 2)
    cosine = (np.arange(4000) + 0.5) / 4000
    mean = (mirrored_share(cosine, n) * 2 * cosine).mean()
    assert mean == pytest.approx(face_of(n).diffuse_out, abs=1e-5)


@pytest.mark.parametrize("degree", [0.0, 0.45, 1.0])
def test_getting_used_to_a_light(degree):
    # colour-science, an independent library: von Kries' rule with CAT16.
    white, some = np.array([1.1, 1.0, 0.35]), np.array([[0.4, 0.5, 0.1], [0.2, 0.1, 0.05]])
    full = colour.adaptation.matrix_chromatic_adaptation_VonKries(
        white, white_xyz() / 100, transform="CAT16"
    )
    expected = degree * some @ full.T + (1 - degree) * some
    assert some @ adapted(white, degree) == pytest.approx(expected, rel=1e-6)


def test_another_reader_sees_the_same_pixels():
    # Pillow, an independent reader of PNG.
    codes = np.arange(5 * 7 * 3, dtype=np.uint8).reshape(5, 7, 3)
    with Image.open(io.BytesIO(Pixels(codes).png())) as read:
        assert read.info["srgb"] == 0
        assert (np.asarray(read) == codes).all()


@pytest.mark.parametrize("dose", [GREEN, WHITE])
def test_a_flat_patch_has_the_color_of_its_recipe(dose):
    # The forecast of a recipe in the hand, which is checked against solved radiative transfer:
    # light sent back and light that comes through from the sheet, each at the patch's thickness.
    answer = look_picture(asked({"doses": [dose]}, sight={"sheet_hex": "#000000"}))
    patch = answer.patches[0]
    told = predict(
        PredictInput(doses=(from_json(Dose, dose),), thick_mm=patch.thick_mm, placing=Placing.HAND)
    )
    assert np.array(patch.reflectance) == pytest.approx(np.array(told.reflectance), abs=0.01)
    assert np.array(patch.transmittance) == pytest.approx(np.array(told.transmittance), abs=0.01)
    assert delta_e00(np.array(patch.lab), typical(told.lab)) < 3


def typical(bands: object) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.array([bands.lightness.typical, bands.a.typical, bands.b.typical])  # type: ignore[attr-defined]


def test_a_bait_before_a_white_sheet_glows_more():
    dark, light = (
        look_picture(asked({"doses": [GREEN]}, sight={"sheet_hex": ground})).patches[0].lab[0]
        for ground in ("#000000", "#ffffff")
    )
    assert light > dark + 5


def test_flakes_are_as_many_as_their_grams():
    # Faces of 0.2 g of 25 µm film of 1.38 g/cm³ in 100 g, over the area of a hexagon; Poisson.
    scene = scene_of(
        from_json(LookInput, {"family": {"kind": "stick"}, "layers": [{"doses": [FLAKE]}]})
    )
    faces_mm2_per_mm3 = scene.layers[0].flakes[0].faces_per_mm
    expected = faces_mm2_per_mm3 * scene.solid.volume() / (math.sqrt(3) / 2 * 0.8**2)
    assert len(scene.plates.sort) == pytest.approx(expected, abs=4 * math.sqrt(expected))
    assert hexagon_mm2(0.8) == pytest.approx(math.sqrt(3) / 2 * 0.64)
    assert scene.plates.middle_mm.mean(axis=0) == pytest.approx(_center(scene.solid), abs=2.5)


def _center(solid: Solid) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    return np.asarray((low + high) / 2)


def test_glints_leave_the_mean_as_it_is():
    # Of mirrors at random tilt under a room of one brightness each shows just that, except for
    # those whose light the face keeps in: Snell, sin 41.8° = 1/1.5, so tilts over 20.9°.
    plain = type(ROOM)(low=1, level=1, high=1, window=0, key=ROOM.key, wide=1, tall=1, soft=1)
    out = 1 - math.cos(math.asin(1 / 1.5) / 2) ** 2  # of tilts weighed by their shadow
    assert mean_glint(plain, wet=False) == pytest.approx(out * 1 + (1 - out) * 0.5, abs=0.01)


def test_the_same_asked_twice_is_the_same():
    body = asked(
        {"place": "back", "share": 0.5, "doses": [GREEN, FLAKE]}, {"place": "belly", "share": 0.5}
    )
    one, two = look_picture(body), look_picture(body)
    assert one.picture.png() == two.picture.png()
    other = look_picture(dataclasses.replace(body, seed=2))
    assert one.picture.png() != other.picture.png()


def test_white_is_white():
    # IEC 61966-2-1: XYZ of D65 at Y = 1 has the code 255; half a lightness lies near 119.
    from pourwright.forecast.picture.shown import coded  # noqa: PLC0415

    gray = xyz_of_lab(np.array([50.0, 0, 0]), white_xyz()) / 100
    assert coded(np.array([[gray]])).codes.ravel() == pytest.approx(119, abs=1)
