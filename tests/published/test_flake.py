"""Flake against closed forms: hexagons, Cauchy's mean shadow, the Boolean model, straight light."""

from __future__ import annotations

import math

import numpy as np
import pytest

from pourwright.color.cover import flake_cover
from pourwright.color.texture import hexagon_mm2, merging_distance_m, plates

CLEAR = {"haze_share": 0, "yellow_share": 0}
# 1 g in 100 mL is 1/1.052 g in 100 g of cold plastic.
PER_100ML = 1 / 1.052


def ask(**changes):
    given = {
        "size_mm": 0.4, "film_um": 25, "grams_per_100g": PER_100ML, "thick_mm": 10,
        "backing": "other", "ground_share": 0, "plastic": CLEAR, "color_hex": "#b8b8b8",
    }  # fmt: skip
    return flake_cover.answer(given | changes)


def absorbing(per_mm):
    """A gray absorber and nothing else, in place of the plastic."""
    return {"constants": {"absorb_mm": [per_mm] * 31, "scatter_mm": [0.0] * 31}}


def typical(bands):
    return [b["typical"] for b in bands]


@pytest.mark.parametrize(
    ("size_in", "mm2", "film_um", "count"),
    [
        # Closed form: (√3/2)·f², and 1 g over area × film × 1.38 g/cm³ (polyester film, polymer
        # handbooks; from memory).
        (0.008, 0.0358, 25, 810_593),
        (0.008, 0.0358, 50, 405_297),
        (0.015, 0.1257, 25, 230_569),
        (0.035, 0.6844, 50, 21_175),
        (0.062, 2.148, 25, 13_496),
        (0.094, 4.937, 25, 5_871),
    ],
)
def test_hexagons_and_their_number_in_a_gram(size_in, mm2, film_um, count):
    size_mm = size_in * 25.4
    assert hexagon_mm2(size_mm) == pytest.approx(mm2, rel=2e-3)
    answer = ask(size_mm=size_mm, film_um=film_um)
    assert answer["flakes_per_gram"]["typical"] == pytest.approx(count, rel=1e-3)


@pytest.mark.parametrize(
    ("grams", "thick", "cover"),
    [(1.0, 5.0, 0.515), (1.0, 10.0, 0.765), (0.25, 10.0, 0.304)],
)
def test_cover_of_grams_in_100_ml(grams, thick, cover):
    # Closed form: 1 - exp(-λ/2), λ = grams in 100 mL × 290 cm²/g × depth.
    answer = ask(grams_per_100g=grams * PER_100ML, thick_mm=thick)
    assert answer["cover"]["typical"] == pytest.approx(cover, abs=6e-4)


@pytest.mark.parametrize("size_mm", [0.3, 1.0])
def test_the_drawn_pattern_covers_what_the_boolean_model_says(size_mm):
    # Boolean model (closed form): 1 - exp(-λ/2), here λ/2 = 0.7 and the cover 0.503.
    faces_per_mm, thick_mm = 0.28, 5.0
    found = [
        _painted(plates(
            per_mm3=faces_per_mm / hexagon_mm2(size_mm), size_mm=size_mm, thick_mm=thick_mm,
            seed=seed, widest_mm=10, most=300,
        ))
        for seed in range(40)
    ]  # fmt: skip
    error = np.std(found) / math.sqrt(len(found))
    assert error < 0.012
    assert np.mean(found) == pytest.approx(1 - math.exp(-0.7), abs=3 * error)


def _painted(pattern):
    """Share of a fine lattice of points in the window that hexagons hide."""
    line = (np.arange(30) + 0.5) / 30 * pattern.window_mm
    points = np.stack(np.meshgrid(line, line), axis=-1).reshape(-1, 2)
    return float(_hold(pattern.corners_mm, points).any(axis=1).mean())


def _hold(outlines, points):
    """Which convex outlines hold which points, (points, outlines)."""
    sides = np.roll(outlines, -1, axis=1) - outlines
    off = points[:, None, None, :] - outlines
    turn = sides[..., 0] * off[..., 1] - sides[..., 1] * off[..., 0]
    return (turn > 0).all(axis=-1) | (turn < 0).all(axis=-1)


def test_shadows_are_half_the_faces():
    # Cauchy's formula (closed form): the mean shadow of a flat plate is half its area.
    pattern = plates(per_mm3=20, size_mm=0.5, thick_mm=1, seed=2, widest_mm=30, most=20_000)
    x, y = pattern.corners_mm[..., 0], pattern.corners_mm[..., 1]
    shoelace = abs((x * np.roll(y, -1, 1) - y * np.roll(x, -1, 1)).sum(axis=1)) / 2
    assert len(shoelace) > 15_000
    assert shoelace.mean() == pytest.approx(hexagon_mm2(0.5) / 2, rel=0.02)
    assert shoelace.max() <= hexagon_mm2(0.5) * (1 + 1e-9)


def test_flakes_in_sight_are_those_no_other_lies_over():
    # Closed form: cover over mean shadow. Count, in drawn patterns, the middles nothing hides.
    size_mm, faces_per_mm, thick_mm = 0.5, 0.3, 6.0
    cover = 1 - math.exp(-faces_per_mm * thick_mm / 2)
    expected = cover / (hexagon_mm2(size_mm) / 2)
    found = []
    for seed in range(40):
        pattern = plates(
            per_mm3=faces_per_mm / hexagon_mm2(size_mm), size_mm=size_mm, thick_mm=thick_mm,
            seed=seed, widest_mm=10, most=300,
        )  # fmt: skip
        found.append(_in_sight(pattern) / pattern.window_mm**2)
    error = np.std(found) / math.sqrt(len(found))
    assert np.mean(found) == pytest.approx(expected, abs=3 * error)
    grams = faces_per_mm / (PER_100ML * 0.01 * 1.052e-3 * 1e6 / (1.38 * 25)) * PER_100ML
    answer = ask(size_mm=size_mm, grams_per_100g=grams, thick_mm=thick_mm)
    assert answer["in_sight_per_cm2"]["typical"] == pytest.approx(100 * expected, rel=1e-3)


def _in_sight(pattern):
    middles = pattern.corners_mm.mean(axis=1)
    inside = ((middles >= 0) & (middles < pattern.window_mm)).all(axis=1)
    # Plates run from the deepest up, so that those after one lie over it.
    hidden = np.triu(_hold(pattern.corners_mm, middles), 1).any(axis=1)
    return int((inside & ~hidden).sum())


def test_in_clear_plastic_over_black_depth_does_not_dim():
    # No absorption and no scattering (closed form): a flake looks the same at every depth, and
    # what it adds follows the cover.
    answer = ask()
    assert typical(answer["contrast_by_depth"]) == pytest.approx([1] * 4, abs=2e-3)
    covers = np.array(typical(answer["cover_by_depth"]))
    assert typical(answer["signal_by_depth"]) == pytest.approx(covers / covers[-1], abs=2e-3)


@pytest.mark.parametrize("per_mm", [0.05, 0.2])
def test_in_absorbing_plastic_light_goes_down_and_up_again(per_mm):
    # Bouguer and Lambert (closed form): straight there and back exp(-2Kz) over black; light that
    # leaves slantwise goes up to twice as far, and the face turns no more than 0.596 back.
    answer = ask(plastic=absorbing(per_mm))
    depth = np.array(answer["depths_mm"])
    left = np.array(typical(answer["contrast_by_depth"]))
    assert (left < np.exp(-2 * per_mm * depth)).all()
    assert (left > np.exp(-4 * per_mm * depth) * (1 - 0.596)).all()


def test_from_afar_flakes_and_plastic_mix_in_light():
    # In clear plastic over black (closed form): Y is the cover times that of a flake, and a
    # mixture of L* would be far lighter or darker.
    answer = ask(thick_mm=5)
    flake_y = ((0xB8 / 255 + 0.055) / 1.055) ** 2.4  # IEC 61966-2-1:1999
    lightness = answer["whole_lab"][0]
    share = answer["cover"]["typical"]
    assert ((lightness + 16) / 116) ** 3 == pytest.approx(share * flake_y, rel=0.01)


@pytest.mark.parametrize(
    ("size_in", "points"),
    [(0.015, True), (0.008, True), (0.006, False)],
)
def test_points_at_arms_length_by_a_minute_of_arc(size_in, points):
    # One minute of arc (from memory) is 0.1745 mm at 0.6 m (closed form), 0.0069 in.
    assert ask(size_mm=size_in * 25.4)["points"] is points
    assert merging_distance_m(0.17453) == pytest.approx(0.6, rel=1e-4)


def test_teaspoons_of_a_weighed_spoon():
    # Arithmetic: 1.5 g in 100 g of 400 g of plastic are 6 g, at 2.4 g a spoon 2 1/2 spoons.
    answer = ask(grams_per_100g=1.5, plastic_g=400, spoon_g=2.4)
    assert answer["flake_g"] == pytest.approx(6)
    assert answer["teaspoons"]["typical"] == pytest.approx(2.5)
    assert answer["spoons"] == "2 × 1 + 1/2 tsp"
