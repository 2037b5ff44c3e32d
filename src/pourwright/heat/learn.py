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
from pourwright.heat.cup import Cup, Oven
from pourwright.matter import plastisol

NAMES = ("ln_power_w", "ln_loss", "surface_score", "bias_k")
# Power into half a kilogram of plastic against the watts on the label: estimate.
LABEL_COUPLING, LABEL_SPREAD = 0.66, 0.25
# Power into plastic against power into as much water in the same cup: estimate.
WATER_COUPLING, WATER_SPREAD = 0.92, 0.14
LOSS_SPREAD = 0.25
BIAS_SPREAD_K = 1.8
READ_NOISE_K = 1.5
RISE_MISFIT = 0.015
LEAST_POWER_SPREAD = 0.03
_STEPS = np.array([0.01, 0.05, 0.1, 0.2])


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
    *,
    label_w: float,
    label_spread: float,
    water: Sequence[WaterPower],
    bias_k: float | None,
) -> Belief:
    """Belief before any reading: label and water tests weighed by how well each is known."""
    about = [(math.log(label_w * LABEL_COUPLING), math.hypot(LABEL_SPREAD, label_spread))]
    if water:
        mean = sum(math.log(w.power_w) for w in water) / len(water)
        test = math.sqrt(sum(w.spread**2 for w in water)) / len(water)
        about.append((mean + math.log(WATER_COUPLING), math.hypot(WATER_SPREAD, test)))
    weights = [1 / s**2 for _, s in about]
    mean = sum(w * m for w, (m, _) in zip(weights, about, strict=True)) / sum(weights)
    variances = (
        1 / sum(weights), LOSS_SPREAD**2, 1.0, BIAS_SPREAD_K**2 if bias_k is None else 0.5**2
    )  # fmt: skip
    return Belief(
        cups.MODEL, cups.VERSION, NAMES, (mean, 0.0, 0.0, bias_k or 0.0), _diagonal(variances)
    )


def learned(belief: Belief, seen: Sequence[Seen], *, glass_kg: float, diameter_m: float) -> Belief:
    """The belief after readings: Gauss-Newton to the most likely point, Laplace around it.

    The spread of the power never falls under 3 %, since cups differ.
    """
    belief.for_model(cups.MODEL, cups.VERSION)
    if not seen:
        return belief
    mean = np.array(belief.mean)
    weight = np.linalg.inv(np.array(belief.covariance))
    read = np.array([s.surface_c for s in seen])
    noise = np.array(
        [math.hypot(READ_NOISE_K, RISE_MISFIT * (s.surface_c - s.start_c)) for s in seen]
    )
    point, normal = mean.copy(), weight
    for _ in range(5):
        tried = np.vstack([point, point + np.diag(_STEPS)])
        guess = np.stack([_predicted(tried, s, glass_kg, diameter_m) for s in seen], axis=1)
        slope = (guess[1:] - guess[0]).T / _STEPS
        normal = weight + slope.T @ (slope / noise[:, None] ** 2)
        push = slope.T @ ((read - guess[0]) / noise**2) + weight @ (mean - point)
        point = point + np.clip(np.linalg.solve(normal, push), -1.0, 1.0)
    covariance = np.linalg.inv(normal)
    covariance[0, 0] = max(covariance[0, 0], LEAST_POWER_SPREAD**2)
    rows = tuple(tuple(float(v) for v in row) for row in covariance)
    return Belief(cups.MODEL, cups.VERSION, NAMES, tuple(float(v) for v in point), rows)


def _predicted(points: Array, seen: Seen, glass_kg: float, diameter_m: float) -> Array:
    """Surface readings of one cook under several parameter points at once."""
    n = len(points)
    cup = _typical_cup(n, seen.plastic_kg, glass_kg, diameter_m)
    power = cups.loaded_power(
        np.exp(points[:, 0]), np.full(n, cups.LOAD_HALF_KG.typical), seen.plastic_kg
    )
    oven = Oven(
        power_w=power,
        loss=np.exp(points[:, 1]),
        surface_score=points[:, 2],
        bias_k=points[:, 3],
        hot_factor=np.full(n, cups.HOT_FACTOR.typical),
        bottom_lag=np.full(n, cups.BOTTOM_LAG.typical),
        heat_ratio=np.ones(n),
        ambient_c=np.full(n, 22.0),
        scorch_j_mol=np.full(n, 140e3),
        stable_s=np.full(n, 1800.0),
    )
    state = cups.advance(cups.cold_start(np.full(n, seen.start_c)), cup, oven, seen.on_s, on=True)
    return cups.reading(state, oven)


def _typical_cup(n: int, plastic_kg: float, glass_kg: float, diameter_m: float) -> Cup:
    return cups.filled_cup(
        plastic_kg=plastic_kg,
        cold_g_ml=np.full(n, plastisol.COLD_DENSITY_G_ML.typical),
        glass_kg=np.full(n, glass_kg),
        diameter_m=np.full(n, diameter_m),
    )


def _diagonal(variances: Sequence[float]) -> tuple[tuple[float, ...], ...]:
    return tuple(
        tuple(v if i == j else 0.0 for j in range(len(variances))) for i, v in enumerate(variances)
    )
