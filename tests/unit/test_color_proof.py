"""A proof against trying every recipe there is."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from pourwright.base.errors import NoAnswer
from pourwright.color.match.counter import Counter
from pourwright.color.match.objective import Objective
from pourwright.color.match.proof import prove
from pourwright.color.slab import Placing
from pourwright.color.viewer import Flaked, Viewer
from pourwright.spectrum.light import Light
from proof_shelf import shelf

TARGETS = [(45, 25, 20), (70, -5, 30), (20, 3, -4), (60, 0, 0), (35, -20, 10), (50, 60, -60)]


def objective(target, counter, **limits):
    lights = len(counter.viewer.white) // 3
    limits = {"most_colorants": 3, "most_steps": 45, **limits}
    return Objective(labs=np.array([target] * lights, dtype=float), **limits)


def every(counter, sought):
    """Scores of all recipes that are allowed, and the recipes."""
    ranges = [range(int(m) + 1) for m in counter.most]
    counts = np.array(list(itertools.product(*ranges)), dtype=float)
    counts = counts[sought.allows(counter, counts)]
    return sought.scores(counter, counts), counts


@pytest.mark.parametrize("look", [
    {"ground": 0.85, "placing": Placing.AIR_GAP},
    {"ground": 0.85, "placing": Placing.CONTACT},
    {"ground": 0.05, "placing": Placing.CONTACT},
])  # fmt: skip
@pytest.mark.parametrize("target", TARGETS)
def test_the_proof_finds_the_best_of_all_recipes(target, look):
    counter = shelf(bottles=3, most=15, **look)
    sought = objective(target, counter)
    scores, _ = every(counter, sought)
    proof = prove(counter, sought, np.inf)
    assert proof.closed
    assert proof.score == pytest.approx(scores.min(), abs=1e-6)
    assert proof.lower_bound == proof.score
    assert proof.counts is not None
    assert sought.scores(counter, proof.counts[None])[0] == pytest.approx(proof.score, abs=1e-6)


@pytest.mark.parametrize("limits", [
    {"most_colorants": 1}, {"most_colorants": 2}, {"most_steps": 6},
    {"most_money": 1.0}, {"most_steps": 9, "most_colorants": 2, "most_money": 1.3},
])  # fmt: skip
@pytest.mark.parametrize("target", TARGETS[:3])
def test_limits_are_kept(target, limits):
    counter = shelf(bottles=4, most=7)
    sought = objective(target, counter, **limits)
    scores, _ = every(counter, sought)
    proof = prove(counter, sought, 100.0)
    assert proof.closed
    assert proof.score == pytest.approx(scores.min(), abs=1e-6)
    assert proof.counts is not None
    assert sought.allows(counter, proof.counts[None])[0]


@pytest.mark.parametrize("target", TARGETS)
def test_a_worse_recipe_is_improved_and_the_best_one_is_confirmed(target):
    counter = shelf(bottles=5, most=8, step=0.03)
    sought = objective(target, counter)
    scores, counts = every(counter, sought)
    ranked = np.sort(scores)
    better = prove(counter, sought, float(ranked[50]))
    assert better.closed
    assert better.counts is not None
    assert better.score == pytest.approx(ranked[0], abs=1e-6)
    assert better.counts.tolist() in counts[scores <= ranked[0] + 1e-6].tolist()
    same = prove(counter, sought, float(ranked[0]))
    assert same.counts is None or same.score > ranked[0] - 1e-6
    assert same.closed


@pytest.mark.parametrize("target", TARGETS)
def test_stopped_early_the_bound_still_holds(target):
    counter = shelf(bottles=5, most=8)
    sought = objective(target, counter)
    scores, _ = every(counter, sought)
    bounds = []
    for most_boxes in (1, 30, 200, 100_000):
        proof = prove(counter, sought, 60.0, most_boxes=most_boxes)
        assert proof.lower_bound <= scores.min() + 1e-6
        assert proof.score >= scores.min() - 1e-6
        assert proof.closed == (proof.lower_bound == proof.score)
        bounds.append(proof.lower_bound)
    assert bounds == sorted(bounds)
    assert prove(counter, sought, 60.0).closed


def test_a_proof_that_is_not_begun_claims_nothing():
    counter = shelf()
    proof = prove(counter, objective(TARGETS[0], counter), 3.0, most_boxes=0)
    assert (proof.counts, proof.score, proof.lower_bound, proof.closed) == (None, 3.0, 0.0, False)


def test_other_lights_only_add_to_the_score():
    counter = shelf(bottles=3, most=10, lights=(Light.D65, Light.A, Light.OFFICE))
    sought = objective(TARGETS[0], counter)
    scores, _ = every(counter, sought)
    proof = prove(counter, sought, np.inf)
    assert proof.closed
    assert proof.score == pytest.approx(scores.min(), abs=1e-6)


def test_a_shelf_with_nothing_left_is_the_plain_plastic():
    counter = shelf(bottles=2, most=0)
    sought = objective(TARGETS[0], counter)
    proof = prove(counter, sought, np.inf)
    assert proof.closed
    assert proof.counts is not None
    assert proof.counts.tolist() == [0, 0]
    assert proof.score == pytest.approx(sought.scores(counter, np.zeros((1, 2)))[0])


def test_the_same_question_gets_the_same_answer():
    counter = shelf(bottles=6, most=12)
    sought = objective(TARGETS[1], counter, most_colorants=4)
    one, two = (prove(counter, sought, 20.0, most_boxes=9000) for _ in range(2))
    assert (one.score, one.lower_bound, one.boxes) == (two.score, two.lower_bound, two.boxes)


def test_progress_runs_from_nothing_to_all_and_can_stop_the_work():
    counter = shelf(bottles=8, most=30)
    sought = objective(TARGETS[2], counter, most_colorants=4)
    heard: list[float] = []
    assert prove(counter, sought, 30.0, progress=heard.append).closed
    assert all(0 <= share <= 1 for share in heard)
    assert heard[-1] > 0.99

    class Stopped(Exception):
        pass

    def stop(_share):
        raise Stopped("by the reader")

    with pytest.raises(Stopped, match="by the reader"):
        prove(counter, sought, 30.0, progress=stop)


def test_flakes_are_refused_in_words():
    plain = shelf()
    flaked = Flaked(0.1, np.full(31, 0.6))
    viewer = Viewer(thick_mm=10, ground=0.85, placing=Placing.CONTACT, flaked=flaked)
    values = (plain.step_absorb, plain.step_scatter, plain.base_absorb, plain.base_scatter)
    counter = Counter(*values, plain.most, plain.step_money, viewer)
    with pytest.raises(NoAnswer, match="flakes"):
        prove(counter, objective(TARGETS[0], counter), 5.0)
