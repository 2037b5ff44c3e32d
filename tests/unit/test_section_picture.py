"""The picture of the inside of a cup: its scale, its boxes, its labels, its words."""

from __future__ import annotations

import dataclasses
import itertools
import re

import numpy as np
import pytest

from pourwright.actions.see_inside import USUAL, InsideEntry, see_inside
from pourwright.base.units import System
from pourwright.heat.course import Burst
from pourwright.heat.field.source import Pattern
from pourwright.web.heat_scale import HIGH_C, LOW_C, STEP_K, color_of, scale_bar, step_of
from pourwright.web.section_cells import cells
from pourwright.web.section_view import section_picture
from pourwright.web.section_words import state_words
from pourwright.web.show import Settings

STEPS = int((HIGH_C - LOW_C) / STEP_K)
METRIC = Settings(system=System.METRIC)
# Linear sRGB to cone answers and the two dichromats' loss: Viénot, Brettel and Mollon, Color Res.
# Appl. 24 (1999) 243, eqs. 4 to 6, from memory.
CONES = np.array(
    [[17.8824, 43.5161, 4.11935], [3.45565, 27.1554, 3.86714], [0.0299566, 0.184309, 1.46709]]
)
NO_RED = np.array([[0, 2.02344, -2.52581], [0, 1, 0], [0, 0, 1]])
NO_GREEN = np.array([[1, 0, 0], [0.494207, 0, 1.24827], [0, 0, 1]])


def linear(color: str) -> np.ndarray:
    """IEC 61966-2-1: the light of an sRGB color."""
    v = np.array([int(color[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def lightness(light: np.ndarray) -> float:
    """CIE 15:2004, eq. 8.1, of the luminance of IEC 61966-2-1."""
    y = float(np.array([0.2126, 0.7152, 0.0722]) @ light)
    return 116 * y ** (1 / 3) - 16 if y > 0.008856 else 903.3 * y


@pytest.mark.parametrize("eye", [np.eye(3), NO_RED, NO_GREEN], ids=["all", "no red", "no green"])
def test_each_step_is_lighter_than_the_one_before_to_every_eye(eye: np.ndarray):
    seen = [np.linalg.inv(CONES) @ eye @ CONES @ linear(color_of(i)) for i in range(STEPS)]
    light = [lightness(np.clip(s, 0, 1)) for s in seen]
    assert np.diff(light).min() > 0.9
    assert light[-1] - light[0] > 75


def test_steps_meet_their_ends_and_stay_on_the_scale():
    assert [step_of(t) for t in (-10, LOW_C, 24.9, 25, 219, 220, 350)] == [0, 0, 0, 1, 39, 39, 39]
    assert len({color_of(i) for i in range(STEPS)}) == STEPS


@pytest.mark.parametrize(
    ("system", "words", "celsius"),
    [(System.US, "350 °F", 350 / 1.8 - 32 / 1.8), (System.METRIC, "150 °C", 150)],
)
def test_ticks_stand_where_their_color_does(system: System, words: str, celsius: float):
    bar = scale_bar(system)
    tick = next(t for t in bar.ticks if t.words == words)
    under = [color for x, color in bar.boxes if x <= tick.x + 0.02]
    assert under[-1] == color_of(step_of(celsius + 1e-6))


def drawn(paths: tuple[tuple[str, str], ...], across: int, up: int) -> list[list[str]]:
    """The boxes painted back onto a grid; none may cover another."""
    grid = [[""] * across for _ in range(up)]
    for color, path in paths:
        boxes = re.findall(r"M(\d+) (\d+)h(\d+)v(\d+)h-(\d+)z", path)
        assert "".join("M{} {}h{}v{}h-{}z".format(*b) for b in boxes) == path
        for x, y, wide, high, back in (map(int, b) for b in boxes):
            assert wide == back
            for row in range(y, y + high):
                for column in range(x, x + wide):
                    assert grid[row][column] == ""
                    grid[row][column] = color
    return grid


def test_boxes_cover_the_section_once_in_the_color_of_their_temperature():
    rows = [[20.0, 60.0, 100.0], [100.0, 100.0, 180.0]]
    found = cells(rows)
    grid = drawn(found.paths, found.across, found.up)
    # Middles of drawn cells lie a quarter of a cell from those of the sums, straight between.
    assert (found.across, found.up) == (6, 4)
    for row, column, celsius in [
        (0, 0, 20), (0, 1, 30), (0, 2, 50), (0, 5, 100), (3, 0, 100), (3, 5, 180), (1, 0, 40),
        (2, 0, 80), (3, 3, 120),
    ]:  # fmt: skip
        assert grid[row][column] == color_of(step_of(celsius + 1e-9)), (row, column)


@pytest.fixture(scope="module")
def seen():
    return see_inside(USUAL)


def test_the_hottest_place_is_marked_where_its_color_is(seen):
    picture = section_picture(seen.answer, METRIC)
    for panel in picture.panels:
        hot = next(it for it in panel.labels if it.words == "hottest")
        column = int((hot.from_x - picture.axis) / picture.scale_x)
        row = int((picture.base - hot.from_y) / picture.scale_y)
        grid = drawn(panel.cells.paths, panel.cells.across, panel.cells.up)
        steps = [color_of(i) for i in range(STEPS)]
        hottest = max(steps.index(c) for line in grid for c in line)
        assert steps.index(grid[row][column]) == hottest
        assert hot.reads == f"{panel.moment.hottest_c:.0f}\N{NO-BREAK SPACE}°C"


@pytest.mark.parametrize("pattern", list(Pattern))
@pytest.mark.parametrize("grams", [120, 498, 1500])
def test_labels_cover_neither_each_other_nor_the_edge(pattern: Pattern, grams: float):
    entry = dataclasses.replace(
        USUAL, plastic_g=grams, pattern=pattern, cup_diameter_mm=150 if grams > 500 else 88.9,
        power_w=grams * 0.9,
    )  # fmt: skip
    picture = section_picture(see_inside(entry).answer, METRIC)
    for panel in picture.panels:
        ys = [it.y for it in panel.labels]
        assert all(b - a >= 33 for a, b in itertools.pairwise(ys)), ys
        assert ys[0] >= -5
        assert ys[-1] + 14 <= picture.height
        assert all(0 < it.from_x < picture.label_x for it in panel.labels)


def test_the_picture_of_eight_bursts_stays_small():
    entry = InsideEntry(
        plastic_g=1200, cup_diameter_mm=130, cup_g=900, power_w=700, pattern=Pattern.TOP,
        bursts=(Burst(on_s=90),) * 8,
    )  # fmt: skip
    picture = section_picture(see_inside(entry).answer, METRIC)
    assert len(picture.panels) == 16
    assert sum(len(d) + 30 for p in picture.panels for _, d in p.cells.paths) < 110_000


def test_the_least_even_burst_is_told_with_the_stir_after_it(seen):
    lag = section_picture(seen.answer, METRIC).lag
    bursts = [m for m in seen.answer.moments if not m.stirred]
    gaps = [m.hottest_c - m.bottom_c for m in bursts]
    assert lag.burst == gaps.index(max(gaps)) + 1
    assert lag.apart == f"{max(gaps):.0f}\N{NO-BREAK SPACE}K"
    assert int(lag.within.split("\N{NO-BREAK SPACE}")[0]) < max(gaps) / 4
    unstirred = dataclasses.replace(USUAL, bursts=(Burst(on_s=180, stir=False),))
    assert section_picture(see_inside(unstirred).answer, METRIC).lag.within == ""


@pytest.mark.parametrize(
    ("gelled", "fused", "bottom", "words"),
    [
        (0.0, 0.0, 0.0, "Still liquid"),
        (0.5, 0.0, 0.0, "Jelly and liquid"),
        (1.0, 0.0, 0.0, "Jelly"),
        (1.0, 0.2, 0.0, "Jelly, beginning to fuse"),
        (1.0, 0.6, 0.1, "More than half fused: runny but hazy"),
        (1.0, 0.95, 0.4, "Fused: clear and runny, but not at the bottom"),
        (1.0, 0.95, 0.93, "Fused: clear and runny"),
    ],
)
def test_states_have_words(seen, gelled: float, fused: float, bottom: float, words: str):
    moment = dataclasses.replace(
        seen.answer.moments[0], gelled=gelled, fused=fused, bottom_fused=bottom
    )
    assert state_words(moment) == words
