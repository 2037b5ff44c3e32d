"""What is believed of an oven before any cup, against the closed forms of normal beliefs."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from pourwright.heat import belief as about
from pourwright.heat.belief import WaterPower, carried, floored, oven_belief, prior
from pourwright.heat.history import Did, Instrument, Step
from pourwright.heat.learn import noise_k
from pourwright.heat.oven import NAMES

BIAS, FILM = NAMES.index("reading_bias_k"), NAMES.index("film_k")


def before(**known: Any):
    blank: dict[str, Any] = {"label_w": 800.0, "label_spread": 0.0, "water": (), "bias_k": None}
    return prior(**(blank | known))


def power(belief):
    return belief.mean[0], math.sqrt(belief.covariance[0][0])


def test_label_and_water_are_weighed_by_their_variances():
    """Inverse-variance weights.

    Source: Gelman et al., Bayesian Data Analysis, 3rd ed., sec. 2.5, eq. 2.12.
    """
    tests = (WaterPower(520.0, 0.06), WaterPower(560.0, 0.08))
    label = (math.log(800 * 0.66), 0.25**2 + 0.1**2)
    water = (
        (math.log(520) + math.log(560)) / 2 + math.log(0.92),
        0.14**2 + (0.06**2 + 0.08**2) / 4,
    )
    sure = 1 / label[1] + 1 / water[1]
    mean, spread = power(before(label_spread=0.1, water=tests))
    assert mean == pytest.approx((label[0] / label[1] + water[0] / water[1]) / sure)
    assert spread == pytest.approx(1 / math.sqrt(sure))
    # What plastic takes up against water stays unknown, however often water is heated.
    many = power(before(water=[WaterPower(520.0, 0.08)] * 400))[1]
    assert many == pytest.approx(1 / math.sqrt(1 / 0.25**2 + 1 / 0.14**2), rel=0.01)


def test_a_check_counts_as_a_reading_of_bias_less_skin():
    """The update in its other form, by precisions.

    Source: Gelman et al., Bayesian Data Analysis, 3rd ed., sec. 3.5, eq. 3.12 (multivariate
    normal with known variance).
    """
    free = before()
    checked = before(bias_k=3.0, bias_spread_k=0.8)
    row = np.zeros(len(NAMES))
    row[BIAS], row[FILM] = 1.0, -1.0
    old = np.linalg.inv(np.array(free.covariance))
    new = np.linalg.inv(old + np.outer(row, row) / 0.8**2)
    mean = new @ (old @ np.array(free.mean) + row * 3.0 / 0.8**2)
    assert checked.mean == pytest.approx(tuple(mean))
    assert np.array(checked.covariance) == pytest.approx(new)
    # A gun that reads 3 K high although the skin makes it read low: more bias, less skin.
    assert checked.mean[BIAS] > 1.5
    assert checked.mean[FILM] < free.mean[FILM] - 1
    assert new[BIAS, FILM] > 0


def test_a_day_between_adds_doubt_and_leaves_the_mean():
    first = before(bias_k=0.0)
    second = carried(first)
    assert second.mean == first.mean
    grew = np.diag(np.array(second.covariance) - np.array(first.covariance))
    assert grew[0] == pytest.approx(0.02**2)
    assert (grew >= 0).all()
    off = np.array(second.covariance) - np.array(first.covariance) - np.diag(grew)
    assert np.abs(off).max() < 1e-12


def test_nothing_is_surer_than_the_model():
    sharp = np.array(before(bias_k=0.0).covariance) * 1e-4
    wide = floored(sharp)
    floors = np.array([about._SUREST[name] for name in NAMES])
    assert np.sqrt(np.diag(wide)) == pytest.approx(floors)
    one, other = (c[BIAS, FILM] / math.sqrt(c[BIAS, BIAS] * c[FILM, FILM]) for c in (sharp, wide))
    assert other == pytest.approx(one)
    loose = np.array(before().covariance)
    assert floored(loose) == pytest.approx(loose)
    assert oven_belief(np.zeros(len(NAMES)), wide).names == NAMES


def test_how_noisy_each_reading_is():
    def read(**more):
        return Step(did=Did.READ, read_c=100, **more)

    heated, stirred = Step(did=Did.HEATED, for_s=30), Step(did=Did.STIRRED)
    probe = {"instrument": Instrument.PROBE}
    seen = noise_k(
        (read(), heated, read(), read(while_stirring=True), read(**probe), stirred, read(),
         read(**probe), heated, Step(did=Did.ADDED, mass_g=20), read())
    )  # fmt: skip
    face, probed = math.hypot(2.5, 3.0), math.hypot(0.8, 3.0)
    assert seen == pytest.approx([2.5, face, 1.3, probed, 2.5, 0.8, 2.5])
