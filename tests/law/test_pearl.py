"""Promises that every pearl powder keeps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.color.dose import Dose, Measured
from pourwright.color.film.grade import Grade, films_of, hue_miss
from pourwright.color.film.pile import plates_per_mm
from pourwright.color.film.plate import Plate, mirrored, sheen_table
from pourwright.color.film.powder import Powder
from pourwright.color.kinds import COLORANTS
from pourwright.color.kinds.pearl import Pearl
from pourwright.color.kinds.pearl_film import PearlFilm
from pourwright.color.pearl.answer import pearl_film
from pourwright.color.sheen import SHEEN_ANGLES_RAD
from pourwright.color.swatch import swatch
from pourwright.matter.titania import Titania
from pourwright.spectrum.color_space import lab_of, xyz_of_hex
from pourwright.spectrum.light import BANDS, white_xyz

steady = settings(derandomize=True, deadline=None, max_examples=40)
few = settings(steady, max_examples=15)
FILMS = st.floats(15, 400)
PLATES = st.builds(
    Plate,
    form=st.sampled_from(Titania),
    film_index=st.none() | st.floats(1.8, 2.8),
    core_nm=st.floats(50, 2000),
    core_spread=st.floats(0, 0.9),
    around=st.floats(1.3, 1.6),
)
POWDERS = st.builds(
    PearlFilm, grade=st.sampled_from(Grade), film_nm=st.none() | FILMS, quality=st.floats(0.02, 3)
)


@steady
@given(PLATES, FILMS, st.floats(0, 1.4))
def test_a_flake_mirrors_a_share_of_the_light(plate, film_nm, angle_rad):
    share = mirrored(plate, np.array([film_nm]), np.array([angle_rad]))
    assert 0 <= share.min() <= share.max() < 1


@steady
@given(PLATES, FILMS)
def test_a_flake_is_a_mirror_at_a_grazing_angle(plate, film_nm):
    share = mirrored(plate, np.array([film_nm]), np.array([1.5707]))
    assert np.median(share) > 0.9  # bands that run along the film as in a light guide aside


@steady
@given(PLATES, st.floats(1e-6, 1e-3))
def test_without_its_film_a_flake_hardly_shows(plate, film_nm):
    """Mica in plastic differs by 0.3 of index at most: ((n² - m²)/(n² + m²))² at its best."""
    share = mirrored(plate, np.array([film_nm]), np.zeros(1))
    assert share.max() < ((1.58**2 - 1.3**2) / (1.58**2 + 1.3**2)) ** 2 + 1e-4


@steady
@given(FILMS)
def test_a_table_starts_at_light_met_straight_on(film_nm):
    table = sheen_table(Plate(), film_nm)
    assert table.shape == (len(SHEEN_ANGLES_RAD), BANDS)
    assert table[0] == pytest.approx(mirrored(Plate(), np.array([film_nm]), np.zeros(1))[0, 0])
    assert not table.flags.writeable


@steady
@given(POWDERS, st.floats(0.001, 5), st.floats(1, 4))
def test_more_powder_scatters_in_proportion_and_absorbs_nothing(powder, grams, more):
    values = {"quality": np.array([powder.quality])}
    one, two = (powder.stuff(np.array([g]), values) for g in (grams, grams * more))
    assert not one.absorb_mm.any()
    assert not one.faces_per_mm.any()
    assert two.scatter_mm == pytest.approx(more * one.scatter_mm)


@steady
@given(POWDERS, st.floats(0.001, 5))
def test_the_sheen_and_the_flat_color_count_the_same_flakes(powder, grams):
    values = {"quality": np.array([powder.quality])}
    sheen = powder.sheen(np.array([grams]), values)
    scatter = powder.stuff(np.array([grams]), values).scatter_mm[0]
    straight = sheen.reflect[0]
    assert 0.75 * scatter == pytest.approx(sheen.plates_per_mm * straight / (1 - straight))


@few
@given(st.sampled_from(Grade), st.sampled_from(Titania), st.none() | st.floats(2.3, 2.8))
def test_a_grade_is_found_within_its_hue(grade, form, film_index):
    plate = Plate(form=form, film_index=film_index)
    films = films_of(plate, grade.hue_deg)
    assert [f.film_nm for f in films] == sorted(f.film_nm for f in films)
    for film in films:
        assert abs(film.hue_miss_deg) <= 20
        assert (film.chroma < 12) == (grade is Grade.SILVER)


@pytest.mark.parametrize("form", list(Titania))
def test_a_film_has_the_index_entered_for_589_nm(form):
    assert Plate(form=form, film_index=2.3).index(np.array(589.3)) == pytest.approx(2.3)


def test_both_films_count_in_the_thickness_of_a_flake():
    grams = np.array([0.4])
    powder = Powder(film_nm=50, core_nm=400)
    assert powder.plates(grams, 0.5) == pytest.approx(0.5 * plates_per_mm(grams, 500.0))


@pytest.mark.parametrize(("hue", "asked", "miss"), [(10, 350, 20), (350, 10, -20), (80, 90, -10)])
def test_hues_close_their_circle(hue, asked, miss):
    turned = np.radians([hue])
    lab = np.stack([[50.0], 30 * np.cos(turned), 30 * np.sin(turned)], axis=1)
    assert hue_miss(lab, asked) == pytest.approx(miss)


def test_pores_ask_for_a_thicker_film():
    dense, porous = (Powder(grade=Grade.BLUE, film_index=n).film() for n in (2.6, 2.3))
    assert porous == pytest.approx(dense * 2.6 / 2.3, rel=0.03)


@steady
@given(st.floats(0.05, 1), st.floats(1.2, 3))
def test_better_flakes_are_lighter_over_dark(quality, better):
    light = []
    for q in (quality, quality * better):
        powder = PearlFilm(grade=Grade.SILVER, quality=q)
        dose = Dose(name="p", per_100g=0.3, measure=Measured.GRAMS, colorant=powder)
        hex_ = swatch([dose], thick_mm=3).over_dark
        light.append(lab_of(xyz_of_hex(hex_), white_xyz())[0])
    assert light[1] > light[0]


@few
@given(st.floats(0, 5), st.floats(0.3, 20))
def test_a_known_film_has_a_narrow_answer(grams, thick):
    given_ = {"film_nm": 50, "quality": 0.4, "grams_per_100g": grams, "thick_mm": thick}
    plain = {"haze_share": 0.04, "yellow_share": 0.05}
    answer = pearl_film.answer(given_ | {"plastic": plain})
    for way in ("over_dark", "over_white", "held_to_light"):
        for band in answer[way]["lab"].values():
            assert band["low"] <= band["typical"] <= band["high"]
            assert band["high"] - band["low"] < 12


@pytest.mark.parametrize("key", sorted(set(COLORANTS) - {"pearl", "pearl_film", "measured"}))
def test_nothing_else_has_a_sheen(key):
    kind = COLORANTS[key]
    shown = {"color_hex": "#806040"} if "color_hex" in kind.__dataclass_fields__ else {}
    assert kind(**shown).sheen(np.ones(1), {}) is None


def test_a_powder_known_by_its_color_alone_mirrors_it_at_every_angle():
    laid = Pearl(color_hex="#ff2020").sheen(np.array([0.5]), {"strength": np.array([1.0])})
    silver = Powder().lays(0.5, 0.4)
    assert laid.plates_per_mm == pytest.approx(silver.plates_per_mm)
    tint = laid.reflect / silver.reflect
    assert tint == pytest.approx(np.broadcast_to(tint[0], tint.shape))
    assert tint[0, -1] > 5 * tint[0, 10]
