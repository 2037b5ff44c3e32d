"""What label, water tests and earlier readings say of an oven, as a belief of the reduced cup.

The power is the effective one of this model: it swallows what the model leaves out, so it is
right for the next forecast and wrong as a measured wattage.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.belief import Belief
from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.cup import Cup
from pourwright.heat.oven import (
    BOTTOM_LAG,
    HOT_FACTOR,
    LOAD_HALF_KG,
    MODEL,
    NAMES,
    VERSION,
    Oven,
    loaded_power,
)
from pourwright.matter import plastisol, scorch

# Power into half a kilogram of plastic against the watts on the label: estimate.
LABEL_COUPLING, LABEL_SPREAD = 0.66, 0.25
# Power into plastic against power into as much water in the same cup: estimate.
WATER_COUPLING, WATER_SPREAD = 0.92, 0.14
LOSS_SPREAD = 0.25
OFFSET_SPREAD_K = 4.5
BIAS_SPREAD_K = 1.8
CHECKED_BIAS_SPREAD_K = 0.5
READ_NOISE_K = 1.5
RISE_MISFIT = 0.015
LEAST_POWER_SPREAD = 0.04
# What another day and another cup add to a carried belief, as standard deviations.
_DRIFT = np.array([0.04, 0.05, 0.0, 0.3])
_NUDGE = np.array([0.01, 0.05, 0.5, 0.2])
_MOST_ROUNDS = 8
# Residuals beyond this many deviations count less and less (Huber, Ann. Math. Stat. 35, 1964).
_ROBUST = 2.0
AMBIENT_C = 22.0


@dataclass(frozen=True, slots=True)
class WaterPower:
    """Power a water test found, and the standard deviation of its logarithm."""

    power_w: float
    spread: float


@dataclass(frozen=True, slots=True)
class Seen:
    """A surface reading, before a stir, after some seconds on."""

    plastic_kg: float
    start_c: float
    on_s: float
    surface_c: float


def prior(
    *, label_w: float, label_spread: float, water: Sequence[WaterPower], bias_k: float | None
) -> Belief:
    """Belief before any reading: label and water tests weighed by how well each is known.

    What plastic takes up against water is one unknown, so more tests do not shrink it.
    """
    about = [(math.log(label_w * LABEL_COUPLING), math.hypot(LABEL_SPREAD, label_spread))]
    if water:
        mean = sum(math.log(w.power_w) for w in water) / len(water)
        test = math.sqrt(sum(w.spread**2 for w in water)) / len(water)
        about.append((mean + math.log(WATER_COUPLING), math.hypot(WATER_SPREAD, test)))
    weights = [1 / s**2 for _, s in about]
    mean = sum(w * m for w, (m, _) in zip(weights, about, strict=True)) / sum(weights)
    bias_spread = BIAS_SPREAD_K if bias_k is None else CHECKED_BIAS_SPREAD_K
    variances = (1 / sum(weights), LOSS_SPREAD**2, OFFSET_SPREAD_K**2, bias_spread**2)
    return _belief(np.array([mean, 0.0, 0.0, bias_k or 0.0]), np.diag(variances))


def carried(belief: Belief) -> Belief:
    """A belief on another day: a little less sure."""
    belief.for_model(MODEL, VERSION)
    return _belief(np.array(belief.mean), np.array(belief.covariance) + np.diag(_DRIFT**2))


def learned(belief: Belief, seen: Sequence[Seen], *, glass_kg: float, diameter_m: float) -> Belief:
    """The belief after readings: Gauss-Newton to the most likely point, Laplace around it.

    The spread of the power never falls under 4 %, since cups differ.
    """
    belief.for_model(MODEL, VERSION)
    if not seen:
        return belief
    mean, weight = np.array(belief.mean), np.linalg.inv(np.array(belief.covariance))
    read, noise = np.array([s.surface_c for s in seen]), _noise(seen)
    point, normal = mean.copy(), weight
    for _ in range(_MOST_ROUNDS):
        tried = np.vstack([point, point + np.diag(_NUDGE)])
        guess = _predicted(tried, seen, glass_kg, diameter_m)
        slope = (guess[:, 1:] - guess[:, :1]) / _NUDGE
        misfit = read - guess[:, 0]
        trust = np.minimum(1.0, _ROBUST * noise / np.maximum(np.abs(misfit), 1e-9)) / noise**2
        normal = weight + slope.T @ (slope * trust[:, None])
        push = np.linalg.solve(normal, slope.T @ (misfit * trust) + weight @ (mean - point))
        point = point + push
        if np.all(np.abs(push) < 1e-3 * np.array([1, 1, 10, 10])):
            break
    covariance = np.linalg.inv(normal)
    covariance[0, 0] = max(covariance[0, 0], LEAST_POWER_SPREAD**2)
    return _belief(point, covariance)


def misfits(
    belief: Belief, seen: Sequence[Seen], *, glass_kg: float, diameter_m: float
) -> tuple[float, ...]:
    """How many deviations each reading lies above what the belief expects of it."""
    if not seen:
        return ()
    guess = _predicted(np.array([belief.mean]), seen, glass_kg, diameter_m)[:, 0]
    read = np.array([s.surface_c for s in seen])
    return tuple(float(v) for v in (read - guess) / _noise(seen))


def _noise(seen: Sequence[Seen]) -> Array:
    rise = np.array([s.surface_c - s.start_c for s in seen])
    return np.hypot(READ_NOISE_K, RISE_MISFIT * rise)


def _predicted(points: Array, seen: Sequence[Seen], glass_kg: float, diameter_m: float) -> Array:
    """Surface readings of every cook under every parameter point, in one run.

    Shape (cooks, points); the run stops at each cook's own time in passing.
    """
    shape = (len(seen), len(points))
    plastic = np.array([[s.plastic_kg] for s in seen])
    oven = _typical_oven(points, plastic, shape)
    cup = _typical_cup(plastic, shape, glass_kg, diameter_m)
    state = cups.cold_start(np.broadcast_to(np.array([[s.start_c] for s in seen]), shape).copy())
    read = np.zeros(shape)
    at = 0.0
    for until in sorted({s.on_s for s in seen}):
        state = cups.advance(state, cup, oven, until - at, on=True)
        at = until
        face = cups.reading(state, oven)
        rows = [i for i, s in enumerate(seen) if s.on_s == until]
        read[rows] = face[rows]
    return read


def _typical_oven(points: Array, plastic_kg: Array, shape: tuple[int, int]) -> Oven:
    def same(value: float) -> Array:
        return np.full(shape, value)

    return Oven(
        power_w=loaded_power(np.exp(points[:, 0]), same(LOAD_HALF_KG.typical), plastic_kg),
        loss=np.broadcast_to(np.exp(points[:, 1]), shape),
        surface_offset_k=np.broadcast_to(points[:, 2], shape),
        reading_bias_k=np.broadcast_to(points[:, 3], shape),
        hot_factor=same(HOT_FACTOR.typical),
        bottom_lag=same(BOTTOM_LAG.typical),
        heat_ratio=same(plastisol.HEAT_CAPACITY_RATIO.typical),
        ambient_c=same(AMBIENT_C),
        scorch_j_mol=same(scorch.ACTIVATION_J_MOL.typical),
        stable_s=same(scorch.STABLE_MIN_AT_190C.typical * 60),
    )


def _typical_cup(
    plastic_kg: Array, shape: tuple[int, int], glass_kg: float, diameter_m: float
) -> Cup:
    return cups.filled_cup(
        plastic_kg=np.broadcast_to(plastic_kg, shape),
        cold_g_ml=np.full(shape, plastisol.COLD_DENSITY_G_ML.typical),
        glass_kg=np.full(shape, glass_kg),
        diameter_m=np.full(shape, diameter_m),
    )


def _belief(mean: Array, covariance: Array) -> Belief:
    rows = tuple(tuple(float(v) for v in row) for row in covariance)
    return Belief(MODEL, VERSION, NAMES, tuple(float(v) for v in mean), rows)
