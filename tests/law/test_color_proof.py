"""Promises of the bounds that a proof rests on: no recipe and no color ever lies outside."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.color import slab
from pourwright.color.match.envelope import Envelope
from pourwright.color.match.frontier import Boxes
from pourwright.color.match.narrow import contracted, every_recipe, halves
from pourwright.color.match.nearest import least
from pourwright.color.match.span import Sheaf, Span
from pourwright.color.slab import Placing
from pourwright.color.viewer import Viewer
from pourwright.spectrum.difference import delta_e00
from proof_shelf import colors_of, random_boxes, random_recipes, shelf

LOOKS = [
    pytest.param({"ground": 0.85, "placing": Placing.AIR_GAP}, id="bright card, air gap"),
    pytest.param({"ground": 0.85, "placing": Placing.CONTACT}, id="bright card, contact"),
    pytest.param({"ground": 1.0, "placing": Placing.WATER}, id="white in water"),
    pytest.param({"ground": 0.05, "placing": Placing.CONTACT}, id="dark"),
    pytest.param({"ground": 0.0, "placing": Placing.HAND}, id="in the hand"),
    pytest.param(
        {"ground": np.repeat([0.2, 0.85], [15, 16]), "placing": Placing.CONTACT}, id="yellow card"
    ),
]
TARGETS = [(50, 20, -30), (80, 0, 0), (30, 45, 25), (12, 2, -6), (60, -40, 30), (55, 30, -70)]


@pytest.mark.parametrize("look", LOOKS[:5])
def test_reflectance_and_its_slopes_keep_their_ranges(look):
    random = np.random.default_rng(1)
    table = Viewer(thick_mm=5, **look).tables()[0]
    envelope = Envelope([table] * 31, (1e-5, 900.0), (1e-5, 3000.0))
    shape = (400, 31)
    # From below the table's edges to beyond them, from single cells to everything.
    a = np.stack([2 ** random.uniform(-15, 9.5, shape)] * 2).astype(np.float32)
    s = np.stack([2 ** random.uniform(-15, 11.4, shape)] * 2).astype(np.float32)
    for ends in (a, s):
        wide = random.choice([0.001, 0.1, 1, 5], (400, 1))
        ends[0] /= 2 ** (random.random(shape) * wide)
    here, there = (a[0] + a[1]) / 2, (s[0] + s[1]) / 2
    found = envelope.over((a[0], here, a[1]), (s[0], s[1]))
    assert np.all(found.halves >= 0)
    middle = slab.places_of(here, there).of(table).reshape(shape).astype(float)
    for _ in range(10):
        part = np.round(random.random((2, *shape)), random.choice([0, 3]))
        x = (a[0] + (a[1] - a[0]) * part[0]).astype(np.float32)
        y = (s[0] + (s[1] - s[0]) * part[1]).astype(np.float32)
        seen = slab.places_of(x, y).of(table).reshape(shape).astype(float)
        assert np.all(seen > found.low - 1e-6)
        assert np.all(seen < found.high + 1e-6)
        way = np.concatenate([x - here, y - there], axis=1).astype(float)
        lines = (found.middles * way).reshape(-1, 2, 31).sum(axis=1)
        rest = (found.halves * abs(way)).reshape(-1, 2, 31).sum(axis=1)
        assert np.all(abs(seen - middle - lines) < rest + 1e-6)


@pytest.mark.parametrize("thick_mm", [2.0, 10.0, 200.0])
@pytest.mark.parametrize("look", LOOKS)
def test_no_recipe_of_a_box_is_nearer_than_its_bound(look, thick_mm):
    random = np.random.default_rng(2)
    counter = shelf(bottles=8, most=60, thick_mm=thick_mm, **look)
    boxes = random_boxes(random, counter, 800)
    for target in np.array(TARGETS, dtype=float):
        sheaf, limits = colors_of(counter, target, thick_mm).of(boxes)
        bound, misses = least(sheaf, target, limits)
        for _ in range(6):
            counts, steps = random_recipes(random, boxes, counter.bottles)
            labs = counter.labs(counts)[0]
            x = (steps - (boxes.low + boxes.high) / 2)[:, :, None]
            assert np.all((labs >= limits.low) & (labs <= limits.high))
            off = labs - sheaf.at - (sheaf.slopes @ x)[..., 0]
            assert np.all(abs(off) <= sheaf.loose)
            difference = delta_e00(labs, target)
            assert np.all(difference >= bound)
            miss = abs(misses.at + (misses.slopes @ x)[..., 0]) - misses.loose
            assert np.all(np.linalg.norm(np.maximum(miss, 0), axis=1) <= difference + 1e-9)


def test_the_bound_of_a_single_recipe_is_its_difference():
    random = np.random.default_rng(3)
    counter = shelf(bottles=8, most=60)
    boxes = random_boxes(random, counter, 500)
    boxes = boxes.take((boxes.high == boxes.low).all(axis=1))
    counts = every_recipe(boxes, counter.bottles)
    labs = counter.labs(counts)[0]
    bright = labs[:, 0] > 15
    target = np.array([60.0, 25, 35])
    sheaf, limits = colors_of(counter, target).of(boxes)
    bound, _ = least(sheaf, target, limits)
    difference = delta_e00(labs, target)
    near = bright & (difference < 25)
    assert near.sum() > 10
    assert bound[near] == pytest.approx(difference[near], rel=5e-3, abs=0.02)


@pytest.mark.parametrize("far", [0.3, 3, 30])
@pytest.mark.parametrize("target", [*TARGETS, (50, 0.02, -0.01), (50, -3, 2), (40, 5, -90)])
def test_no_color_of_a_sheaf_is_nearer_than_its_bound(target, far):
    random = np.random.default_rng(4)
    target = np.array(target, dtype=float)
    count = 3000
    at = target + random.normal(0, far, (count, 3))
    slopes = random.normal(0, 1, (count, 3, 4))
    reach = random.random((count, 4)) * random.choice([0, 0.1, 1, 10], (count, 1))
    loose = random.random((count, 3)) * random.choice([0, 0.1, 2], (count, 1))
    sheaf = Sheaf(at, slopes, reach, loose)
    bound, _ = least(sheaf, target, sheaf.span())
    for _ in range(8):
        x = np.clip(random.uniform(-1.5, 1.5, (count, 4)), -1, 1) * reach
        off = np.clip(random.uniform(-1.5, 1.5, (count, 3)), -1, 1) * loose
        labs = at + np.einsum("nij,nj->ni", slopes, x) + off
        assert np.all(delta_e00(labs, target) >= bound - 1e-9)


@pytest.mark.parametrize("best", [0.1, 0.3, 1.0])
def test_cutting_a_box_loses_no_better_recipe(best):
    random = np.random.default_rng(5)
    counter = shelf(bottles=8, most=60, step=0.002)
    cuts = goods = 0
    for _ in range(12):
        near = random_boxes(random, counter, 1)
        counts, steps = random_recipes(random, near, counter.bottles)
        target = counter.labs(counts)[0, 0] + random.normal(0, best / 4, 3)
        wide = random.integers(0, 4, (2, 300, 4))
        low, high = np.maximum(steps - wide[0], 0), np.minimum(steps + wide[1], 60)
        boxes = Boxes(np.repeat(near.bottles, 300, axis=0), low, high, np.zeros(300))
        sheaf, limits = colors_of(counter, target).of(boxes)
        _, misses = least(sheaf, target, limits)
        kept = contracted(boxes, misses, best)
        cuts += ((kept.low > low) | (kept.high < high)).sum()
        for _ in range(20):
            counts, steps = random_recipes(random, boxes, counter.bottles)
            good = delta_e00(counter.labs(counts)[0], target) < best
            goods += good.sum()
            assert np.all(((steps >= kept.low) & (steps <= kept.high))[good])
    assert cuts > 200
    assert goods > 200


def test_halves_hold_every_recipe_once():
    random = np.random.default_rng(6)
    counter = shelf(bottles=4, most=9)
    boxes = random_boxes(random, counter, 60)
    boxes = boxes.take(boxes.recipes() > 1)
    parts = halves(boxes, random.random(boxes.low.shape))
    for i in range(len(boxes)):
        whole = every_recipe(boxes.take(np.array([i])), 4)
        both = every_recipe(parts.take(np.array([i, i + len(boxes)])), 4)
        assert sorted(map(tuple, both)) == sorted(map(tuple, whole))


def test_spans_hold_sums_and_products():
    random = np.random.default_rng(7)
    one, two = (np.sort(random.normal(0, 2, (2, 400)), axis=0) for _ in range(2))
    part = random.random((2, 400))
    x, y = (s[0] + (s[1] - s[0]) * p for s, p in zip((one, two), part, strict=True))
    a, b = Span(*one), Span(*two)
    positive = b.sizes()
    y_size = abs(y)
    for span, value in (
        (a.plus(b), x + y), (a.less(b), x - y), (a.times(positive), x * y_size),
        (positive, y_size), (a.times(3.0), 3 * x),
    ):  # fmt: skip
        assert np.all((span.low <= value + 1e-12) & (value <= span.high + 1e-12))
