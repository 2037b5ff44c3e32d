"""Pearl flakes against a general library for thin films, closed forms and printed figures."""

from __future__ import annotations

import numpy as np
import pytest
import tmm  # type: ignore[import-untyped]

from pourwright.color import two_flux
from pourwright.color.film.grade import FILMS_NM, film_labs
from pourwright.color.film.pile import pile_scatter, plates_per_mm
from pourwright.color.film.plate import Plate, mirrored
from pourwright.color.film.stack import Layer, mirrored_s_p
from pourwright.color.kinds.flake import faces_per_mm
from pourwright.color.pearl.answer import pearl_film
from pourwright.matter import mica
from pourwright.matter.mica import QUALITY
from pourwright.matter.titania import (
    Titania,
    dense_index,
    rutile_extraordinary,
    rutile_ordinary,
)
from pourwright.spectrum.light import WAVELENGTHS_NM

STRAIGHT = np.zeros(1)


def by_library(layers, around, angle_rad, nm):
    """S. J. Byrnes, tmm 0.2.0 (library): coherent transfer matrices."""
    indices = [around, *(n for n, _ in layers), around]
    depths = [np.inf, *(d for _, d in layers), np.inf]
    return [tmm.coh_tmm(p, indices, depths, angle_rad, nm)["R"] for p in "sp"]


def ours(layers, around, angle_rad, nm):
    stack = [Layer(np.array(n), np.array(d)) for n, d in layers]
    return mirrored_s_p(stack, around=around, angle_rad=np.array(angle_rad), wave_nm=np.array(nm))


@pytest.mark.parametrize("angle_rad", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("nm", [400.0, 550.0, 700.0])
def test_a_coated_flake_is_what_a_thin_film_library_says(angle_rad, nm):
    layers = [(2.71, 62.0), (1.58, 431.0), (2.45, 118.0)]
    found = ours(layers, 1.5, angle_rad, nm)
    assert found == pytest.approx(by_library(layers, 1.5, angle_rad, nm), abs=1e-9)


def test_light_leaks_through_a_layer_that_turns_it_back():
    layers = [(2.6, 80.0), (1.4, 150.0), (2.6, 80.0)]  # 1.2 rad lies beyond the critical angle
    found = ours(layers, 1.7, 1.2, 550.0)
    assert found == pytest.approx(by_library(layers, 1.7, 1.2, 550.0), abs=1e-9)


def test_a_powder_is_the_mean_of_its_flakes():
    """Library, flake by flake; a fine comb of mica thicknesses, evenly spread."""
    plate, nm = Plate(core_spread=0.5), 560.0
    film = float(plate.index(np.array(nm)))
    cores = 400 * (1 + 0.5 * (2 * (np.arange(400) + 0.5) / 400 - 1))
    shares = [by_library([(film, 90.0), (1.58, c), (film, 90.0)], 1.5, 0.4, nm) for c in cores]
    found = mirrored(plate, np.array([90.0]), np.array([0.4]), np.array([nm]))
    assert float(found[0, 0, 0]) == pytest.approx(np.mean(shares), abs=2e-4)


@pytest.mark.parametrize("angle_deg", [0, 40])
def test_the_answer_is_the_librarys_at_the_angle_asked_for(angle_deg):
    asked = {
        "film_nm": 90, "film_index": 2.5, "core_spread": 0, "core_nm": 300, "medium_index": 1.48,
        "angles_deg": [angle_deg], "wavelengths_nm": [589.3],
    }  # fmt: skip
    layers = [(2.5, 90.0), (1.58, 300.0), (2.5, 90.0)]
    wanted = np.mean(by_library(layers, 1.48, np.deg2rad(angle_deg), 589.3))
    found = pearl_film.answer(asked)["by_angle"][0]["reflectance"]
    assert found == pytest.approx([wanted], abs=1e-9)


def test_quarter_and_half_wave_films():
    """Closed form, Born and Wolf, Principles of Optics, 1.6.4: R = ((n0² - n1²)/(n0² + n1²))²."""
    quarter = ours([(2.6, 550 / 4 / 2.6)], 1.53, 0.0, 550.0)
    assert quarter == pytest.approx([0.23577566252468973] * 2, abs=1e-9)
    assert ours([(2.6, 550 / 2 / 2.6)], 1.53, 0.0, 550.0) == pytest.approx([0, 0], abs=1e-9)


@pytest.mark.parametrize("angle_rad", [0.3, 0.9])
def test_the_dark_order_moves_to_shorter_waves_with_the_angle(angle_rad):
    """Closed form: a film mirrors nothing where 2·n·d·cos(angle inside) is a whole wave."""
    inside = np.arcsin(1.5 / 2.6 * np.sin(angle_rad))
    nm = 2 * 2.6 * 110 * np.cos(inside)
    assert nm < 2 * 2.6 * 110
    assert ours([(2.6, 110.0)], 1.5, angle_rad, nm) == pytest.approx([0, 0], abs=1e-12)


def test_brewsters_angle_mirrors_no_p_light():
    """Closed form (Brewster 1815): the tangent of the angle is the ratio of the indices."""
    s, p = ours([(2.6, 70.0)], 1.5, np.arctan(2.6 / 1.5), 550.0)
    assert p == pytest.approx(0, abs=1e-12)
    assert s > 0.5


def test_rutile():
    """J. R. Devore, J. Opt. Soc. Am. 41 (1951) 416: 2.6131 and 2.9089 at 589 nm."""
    assert float(rutile_ordinary(589.0)) == pytest.approx(2.6131, abs=5e-4)
    assert float(rutile_extraordinary(589.0)) == pytest.approx(2.9089, abs=5e-4)
    assert 2.6131 < float(dense_index(Titania.RUTILE, 589.0)) < 2.9089


@pytest.mark.parametrize(
    ("nm", "index"),
    # A. Jolivet et al., Appl. Surf. Sci. 608 (2023) 155214, table of the film at 300 °C.
    [(400, 2.7733), (450, 2.636), (550, 2.517), (589, 2.492), (650, 2.463), (700, 2.447)],
)
def test_anatase_film(nm, index):
    assert float(dense_index(Titania.ANATASE, nm)) == pytest.approx(index, abs=1e-3)


def test_mica():
    """US patent 4,146,403 (1979): mean index of mica "about 1.58"."""
    assert mica.INDEX.typical == pytest.approx(1.58, abs=0.01)


@pytest.mark.parametrize(
    ("grade", "low", "high"),
    # Maile, Pfaff and Reynders, Prog. Org. Coat. 54 (2005) 150: titania on mica (from memory).
    [("silver", 40, 60), ("gold", 60, 80), ("red", 80, 100), ("blue", 100, 140),
     ("green", 120, 160)],
)  # fmt: skip
def test_grades_have_the_printed_films(grade, low, high):
    assert low <= pearl_film.answer({"grade": grade})["film_nm"] <= high


def test_grades_follow_each_other_as_the_film_grows():
    """The order in which the same paper (from memory) has them."""
    order = ("silver", "gold", "red", "violet", "blue", "turquoise", "green")
    films = [pearl_film.answer({"grade": g})["film_nm"] for g in order]
    assert films == sorted(set(films))


def test_silver_is_lightest_where_it_is_grayest():
    """The printed silver films of 40 to 60 nm, as above (from memory)."""
    labs = film_labs(Plate())[FILMS_NM < 70]
    lightest = FILMS_NM[np.argmax(labs[:, 0])]
    grayest = FILMS_NM[np.argmin(np.hypot(labs[:, 1], labs[:, 2]))]
    assert 45 <= grayest <= lightest <= 60


def test_a_pile_of_plates_scatters_as_stokes_has_it():
    """G. G. Stokes, Proc. R. Soc. London 11 (1862) 545 (from memory): plate laid upon plate."""
    share, count = 0.37, 12
    back, through = 0.0, 1.0
    for _ in range(count):
        between = 1 - back * share
        back, through = back + through**2 * share / between, through * (1 - share) / between
    scatter = 0.75 * pile_scatter(np.array([count / 5.0]), np.array([share]))
    found = two_flux.layer(np.zeros((1, 1)), scatter, np.array(5.0))
    assert np.ravel(found) == pytest.approx([back, through], abs=1e-12)


def test_flakes_tilted_every_way_scatter_three_eighths():
    """Closed form: a mirror meets the light by the cosine of its tilt and turns it by twice that.

    Reduced scattering weighs by one less the cosine of the turn; the two-flux layer takes three
    quarters of it (Mudgett and Richards, Appl. Opt. 10 (1971) 1485; from memory).
    """
    tilt = (np.arange(20_000) + 0.5) / 20_000
    turned_back = 1 + (2 * tilt**2 - 1)
    share = 0.75 * np.mean(tilt * turned_back)
    assert share == pytest.approx(3 / 8, abs=1e-6)
    assert QUALITY.band.low < share < QUALITY.band.high


def test_plates_and_flakes_count_faces_alike():
    """Closed form, twice in the color room: mass over density and thickness."""
    grams = np.array([0.3, 2.0])
    assert plates_per_mm(grams, 500.0) == pytest.approx(faces_per_mm(grams, np.array(0.5), 2.9))


@pytest.mark.parametrize("grade", ["gold", "red", "violet", "blue", "turquoise", "green"])
def test_color_over_dark_its_complement_through_and_little_over_white(grade):
    """What interference powders are known for; common practice, no source."""
    answer = pearl_film.answer({"grade": grade, "grams_per_100g": 0.2, "thick_mm": 3})
    dark, white, held = (
        np.array([answer[way]["lab"][c]["typical"] for c in "ab"])
        for way in ("over_dark", "over_white", "held_to_light")
    )
    assert np.hypot(*dark) > 20
    assert np.hypot(*white) < 0.3 * np.hypot(*dark)
    assert dark @ held < -0.5 * np.hypot(*dark) * np.hypot(*held)


def test_a_clear_flake_keeps_all_light():
    """Energy: what a dull, clear layer does not send back it lets through (no source needed)."""
    share = mirrored(Plate(), np.array([50.0, 115.0]), STRAIGHT)
    assert share.shape == (2, 1, len(WAVELENGTHS_NM))
    scatter = 0.75 * pile_scatter(np.array([2.0]), share[1, 0])
    back, through = two_flux.layer(np.zeros_like(scatter), scatter, np.array(4.0))
    assert back + through == pytest.approx(np.ones_like(back), abs=1e-12)
