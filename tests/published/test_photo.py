"""Colors read off generated photos, against their truth and against printed figures."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np
import pytest

from photo_booth import (
    LIGHTS,
    Camera,
    Photo,
    Scene,
    Shot,
    camera,
    dyed_pucks,
    library_samples,
    taken,
    true_lab,
)
from pourwright.base.picture import Picture
from pourwright.color.photo.answer import PhotoAnswer
from pourwright.color.photo.camera import root_monomials
from pourwright.color.photo.corner import plane, through
from pourwright.color.photo.read import PhotoInput, photo
from pourwright.color.photo.spot import LINEAR, Disk, Point, Spot
from pourwright.color.photo.target import ColorPatches, GrayStrip, Target
from pourwright.spectrum.color_space import lab_of, xyz_of_hex
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz
from pourwright.spectrum.patches import PATCH_REFLECTANCE

# Grays of a printed strip, invented.
SHARES = (0.9, 0.55, 0.3, 0.16, 0.08, 0.035)
PUCKS = np.concatenate([library_samples(), dyed_pucks(101, 5)])[
    np.random.default_rng(3).permutation(200)
]
SHEET = 12
EXPOSURE = 0.55


def asked(target: Target, shot: Photo, *, card: bool = True) -> PhotoAnswer:
    """The answer to a photo, every puck tapped."""
    return photo(
        PhotoInput(
            photo=Picture(shot.codes),
            target=target,
            corners=tuple(Point(x_px=x, y_px=y) for x, y in shot.corners),
            spots=tuple(
                Spot(name=f"puck {i}", x_px=x, y_px=y, radius_px=shot.radius)
                for i, (x, y) in enumerate(shot.pucks)
            ),
            card=tuple(Disk(x_px=x, y_px=y, radius_px=5) for x, y in shot.card) if card else (),
        )
    )


@dataclass(frozen=True)
class Study:
    """What came of reading 200 pucks off 17 photos, each by another camera and light."""

    miss: np.ndarray
    stated: np.ndarray
    inside: np.ndarray
    half_width: np.ndarray
    plain: np.ndarray
    reflectance_inside: float
    reflectance_miss: float
    left_out_90: float


def study(*, phone: bool, strip: bool = False, card: bool = True) -> Study:
    return _studied(phone, strip, card)


@functools.cache
def _studied(phone: bool, strip: bool, card: bool) -> Study:
    found: list[tuple[np.ndarray, ...]] = []
    left_out = []
    for i in range(0, len(PUCKS), SHEET):
        pucks, seen = PUCKS[i : i + SHEET], _seen(i, phone, strip)
        target: Target = GrayStrip(shares=SHARES) if strip else ColorPatches()
        answer = asked(target, seen, card=card)
        left_out.append(answer.left_out_90_de00)
        found += list(zip(*_judged(answer, pucks, seen), strict=True))
    miss, stated, inside, half, plain, r_in, r_miss = (
        np.array(c) for c in zip(*found, strict=True)
    )
    return Study(
        miss, stated, inside, half, plain, float(r_in.mean()),
        float(np.sqrt((r_miss**2).mean())), float(np.mean(left_out)),
    )  # fmt: skip


@functools.cache
def _seen(first: int, phone: bool, strip: bool) -> Photo:
    grays = np.repeat(np.array(SHARES)[:, None], 31, axis=1)
    scene = Scene(grays if strip else PATCH_REFLECTANCE, 6, PUCKS[first : first + SHEET])
    return taken(scene, camera(first, phone=phone, exposure=EXPOSURE), _shot(first))


def _shot(seed: int) -> Shot:
    draw = np.random.default_rng(100 + seed)
    right, down = draw.normal(0, 0.2, 2)
    return Shot(
        light=LIGHTS[seed // SHEET % len(LIGHTS)],
        fall=(right, down, abs(draw.normal(0, 0.1))),
        tilt=draw.uniform(0, 0.25),
        turn_deg=draw.uniform(-15, 15),
        seed=seed,
    )


def _judged(answer: PhotoAnswer, pucks: np.ndarray, seen: Photo) -> tuple[np.ndarray, ...]:
    truth = true_lab(pucks)
    bands = [(s.lab.lightness, s.lab.a, s.lab.b) for s in answer.spots]
    typical = np.array([[b.typical for b in three] for three in bands])
    low = np.array([[b.low for b in three] for three in bands])
    high = np.array([[b.high for b in three] for three in bands])
    shape = np.array([[(b.low, b.typical, b.high) for b in s.reflectance] for s in answer.spots])
    codes = [seen.codes[int(y), int(x)] for x, y in seen.pucks]
    plain = np.array([xyz_of_hex("#{:02x}{:02x}{:02x}".format(*c)) for c in codes]) / EXPOSURE
    return (
        delta_e00(typical, truth),
        np.array([s.miss_de00 for s in answer.spots]),
        (low <= truth) & (truth <= high),
        (high - low) / 2,
        delta_e00(lab_of(plain, white_xyz()), truth),
        ((shape[..., 0] <= pucks) & (pucks <= shape[..., 2])).mean(axis=1),
        np.sqrt(((shape[..., 1] - pucks) ** 2).mean(axis=1)),
    )


@pytest.mark.parametrize("phone", [False, True])
def test_24_patches_read_200_pucks_as_well_as_studies_say(phone):
    # A simulation apart from this one, with other cameras and code, found for root polynomials of
    # second degree and 1.5 % noise: mean dE00 1.83 in daylight, 1.88 under an LED, 2.44 under a
    # filament lamp (estimate). Here a third of the photos has each light, on top of a fall-off.
    got = study(phone=phone)
    mean, most = float(got.miss.mean()), float(np.quantile(got.miss, 0.9))
    assert mean < 2.44
    assert most < 2 * 2.44


def test_a_target_at_least_halves_the_miss_of_a_bare_photo():
    # A study of phones found more than 10 dE00 for bare sRGB and about half with a target
    # (abstract read, author and year not noted; estimate).
    got = study(phone=True)
    assert got.miss.mean() < got.plain.mean() / 2


@pytest.mark.parametrize(
    ("phone", "strip", "card", "widest"),
    [(False, False, True, 7), (True, False, True, 7), (True, False, False, 10),
     (False, False, False, 10), (True, True, True, 12)],
)  # fmt: skip
def test_the_miss_stated_is_the_miss_met(phone, strip, card, widest):
    # By the definition of a 90 % band; stated too wide it would be of no use.
    got = study(phone=phone, strip=strip, card=card)
    assert (got.miss <= got.stated).mean() >= 0.87
    assert got.inside.mean(axis=0).min() >= 0.83
    assert np.median(got.stated) < widest
    assert got.half_width[:, 1:].mean() < widest
    assert got.reflectance_inside >= 0.87


def test_lightness_of_dark_and_light_pucks_is_stated_alike():
    # L* was made so that equal steps look equal (CIE 1976), and a photo's 8 bits are spread so too.
    got, light = study(phone=False), true_lab(PUCKS)[:, 0]
    dark, bright = (got.half_width[pick, 0] for pick in (light < 35, light > 70))
    assert 0.4 < np.median(dark) / np.median(bright) < 1.3


def test_left_out_patches_foretell_the_pucks():
    got = study(phone=False)
    assert got.left_out_90 == pytest.approx(np.quantile(got.miss, 0.9), rel=0.3)


def test_a_strip_says_how_much_less_it_knows():
    assert np.median(study(phone=True, strip=True).stated) > 1.4 * np.median(
        study(phone=True).stated
    )


def test_reflectance_is_nearer_than_the_mean_of_all():
    # The spread of the pucks about their own mean is what a guess without a photo would miss.
    got = study(phone=False)
    assert got.reflectance_miss < 0.5 * PUCKS.std(axis=0).mean()


@pytest.mark.parametrize("fall", [0.0, 0.4, 0.8])
def test_the_fall_off_of_light_is_measured(fall):
    # Truth: light falls by exp(fall) across the target's width and is even down it.
    scene = Scene(PATCH_REFLECTANCE, 6, PUCKS[:6])
    answer = asked(ColorPatches(), taken(scene, camera(1), Shot(fall=(fall, 0, 0))))
    assert answer.light_ratio == pytest.approx(np.exp(fall), rel=0.06)


def test_a_bent_curve_is_found():
    # The square root of light, which no screen shows: codes of a perfect sRGB camera, each taken
    # to the power that turns light to its root.
    true = Scene(PATCH_REFLECTANCE, 6, PUCKS[:6])
    seen = taken(true, camera(2, exposure=0.9), Shot())
    bent = LINEAR[seen.codes] ** (1 / 1.25)
    curve = np.where(bent <= 0.0031308, 12.92 * bent, 1.055 * bent ** (1 / 2.4) - 0.055)
    codes = np.round(curve * 255).astype(np.uint8)
    straight = asked(ColorPatches(), seen)
    answer = asked(ColorPatches(), Photo(codes, seen.corners, seen.pucks, seen.card, seen.radius))
    assert answer.bend / straight.bend == pytest.approx(1.25, rel=0.06)


def test_curve_of_a_screen():
    # IEC 61966-2-1:1999: 0.04045 / 12.92 at the knee, ((C + 0.055) / 1.055)^2.4 above.
    assert LINEAR[[0, 10, 128, 255]] == pytest.approx(
        [0, 10 / 255 / 12.92, ((128 / 255 + 0.055) / 1.055) ** 2.4, 1], abs=1e-12
    )


def test_root_polynomials_of_second_degree_have_six_terms_and_scale_with_light():
    # Finlayson, Mackiewicz and Hurlbert (2015): r, g, b, and the roots of rg, gb, rb; exposure
    # comes out as a factor.
    color = np.array([[0.3, 0.5, 0.1]])
    assert root_monomials(color).shape == (1, 3, 6)
    assert root_monomials(2 * color) == pytest.approx(2 * root_monomials(color))


def test_a_plane_keeps_lines_straight():
    # Projective geometry: the middle of the square lies where the diagonals of its image cross.
    corners = np.array([[10, 20], [300, 40], [260, 210], [30, 160.0]])
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = corners
    meet = np.linalg.solve([[cx - ax, bx - dx], [cy - ay, by - dy]], [bx - ax, by - ay])[0]
    crossing = corners[0] + meet * (corners[2] - corners[0])
    view = plane(corners)
    assert through(view, np.array([[0.5, 0.5]]))[0] == pytest.approx(crossing)
    assert through(view, np.array([[0, 0], [1, 0], [1, 1], [0, 1.0]])) == pytest.approx(corners)


def test_cameras_of_the_booth_differ_from_the_eye():
    # Guards the study: a camera that sees as the eye does would be read without a miss.
    assert isinstance(camera(0), Camera)
    scene = Scene(PATCH_REFLECTANCE, 6, PUCKS[:12])
    clean = Camera(camera(4).sensitivity, noise=0)
    answer = asked(ColorPatches(), taken(scene, clean, Shot()))
    typical = np.array(
        [[s.lab.lightness.typical, s.lab.a.typical, s.lab.b.typical] for s in answer.spots]
    )
    assert delta_e00(typical, true_lab(PUCKS[:12])).mean() > 0.3
