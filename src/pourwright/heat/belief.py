"""What is believed of an oven before any cup was read in it, and what a day adds.

The power is the effective one of the reduced cup: it swallows what the model leaves out, so it is
right for the next forecast and wrong as a measured wattage.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.belief import Belief
from pourwright.base.draws import Z90, Array
from pourwright.heat.oven import (
    LOAD_HALF_KG,
    LOSS_RATIO,
    MODEL,
    NAMES,
    POWER_TILT,
    TO_GLASS_RATIO,
    VERSION,
)
from pourwright.heat.surface import FILM_K, SURFACE_OFFSET_K
from pourwright.matter.property import Property

# Power into half a kilogram of plastic against the watts on the label: estimate.
LABEL_COUPLING, LABEL_SPREAD = 0.66, 0.25
# Power into plastic against power into as much water in the same cup: estimate.
WATER_COUPLING, WATER_SPREAD = 0.92, 0.14
# Estimates: the makers of such guns promise 2 % or 2 °C; six pairs beside a probe that has seen a
# kettle leave a kelvin (thermometer.check says it for the check at hand).
BIAS_SPREAD_K = 1.8
CHECKED_BIAS_SPREAD_K = 1.0
PROBE_BIAS_SPREAD_K = 1.0
# A gun nobody has checked: its own bias, and the skin of the face it looks at.
GUN_SPREAD_K = math.hypot(BIAS_SPREAD_K, FILM_K.band.half_width / Z90)
# What another cup adds to a carried belief, and how sure it may get, as standard deviations.
_DRIFT = {"ln_power_w": 0.02, "power_tilt": 0.01, "ln_loss": 0.05, "ln_to_glass": 0.05,
          "film_k": 0.3, "reading_bias_k": 0.2, "probe_bias_k": 0.1}  # fmt: skip
_SUREST = {"ln_power_w": 0.03, "power_tilt": 0.02, "ln_loss": 0.1, "ln_to_glass": 0.1,
           "ln_load_half_kg": 0.15, "surface_offset_k": 2.0, "film_k": 0.6,
           "reading_bias_k": 0.4, "probe_bias_k": 0.3}  # fmt: skip
_READ_BY = ("film_k", "reading_bias_k", "probe_bias_k")


@dataclass(frozen=True, slots=True)
class WaterPower:
    """Power a water test found, and the standard deviation of its logarithm."""

    power_w: float
    spread: float


def prior(
    *,
    label_w: float,
    label_spread: float,
    water: Sequence[WaterPower],
    bias_k: float | None,
    bias_spread_k: float = CHECKED_BIAS_SPREAD_K,
) -> Belief:
    """Belief before any reading: label and water tests weighed by how well each is known.

    What plastic takes up against water is one unknown, so more tests do not shrink it. `bias_k` is
    what a check against a probe found while hot plastic was stirred: the gun's own bias less the
    skin, together known within `bias_spread_k`. Nobody having checked, the gun's own bias is zero
    within `BIAS_SPREAD_K`.
    """
    about = [(math.log(label_w * LABEL_COUPLING), math.hypot(LABEL_SPREAD, label_spread))]
    if water:
        mean = sum(math.log(w.power_w) for w in water) / len(water)
        test = math.sqrt(sum(w.spread**2 for w in water)) / len(water)
        about.append((mean + math.log(WATER_COUPLING), math.hypot(WATER_SPREAD, test)))
    weights = [1 / s**2 for _, s in about]
    power = sum(w * m for w, (m, _) in zip(weights, about, strict=True)) / sum(weights)
    known = {
        "ln_power_w": (power, 1 / math.sqrt(sum(weights))),
        "power_tilt": _spread(POWER_TILT),
        "ln_loss": _spread(LOSS_RATIO),
        "ln_to_glass": _spread(TO_GLASS_RATIO),
        "ln_load_half_kg": _spread(LOAD_HALF_KG),
        "surface_offset_k": _spread(SURFACE_OFFSET_K),
        "film_k": _spread(FILM_K),
        "reading_bias_k": (0.0, BIAS_SPREAD_K),
        "probe_bias_k": (0.0, PROBE_BIAS_SPREAD_K),
    }
    center = np.array([known[name][0] for name in NAMES])
    covariance = np.diag([known[name][1] ** 2 for name in NAMES])
    if bias_k is not None:
        center, covariance = _checked(center, covariance, bias_k, bias_spread_k)
    return oven_belief(center, covariance)


def _checked(mean: Array, covariance: Array, bias_k: float, spread_k: float) -> tuple[Array, Array]:
    """After a check that saw the gun's bias less the skin at pouring heat (a Kalman update)."""
    seen = np.zeros(len(NAMES))
    seen[NAMES.index("reading_bias_k")], seen[NAMES.index("film_k")] = 1.0, -1.0
    gain = covariance @ seen / (seen @ covariance @ seen + spread_k**2)
    return mean + gain * (bias_k - seen @ mean), covariance - np.outer(gain, seen @ covariance)


def carried(belief: Belief) -> Belief:
    """A belief in front of the next cup: a little less sure, and never surer than its floor."""
    belief.for_model(MODEL, VERSION)
    drift = np.array([_DRIFT.get(name, 0.0) for name in NAMES])
    return oven_belief(np.array(belief.mean), np.array(belief.covariance) + np.diag(drift**2))


def read_anew(belief: Belief, start: Belief) -> Belief:
    """A belief of the oven with what `start` says of thermometer and skin, all else kept."""
    reads = np.array([name in _READ_BY for name in NAMES])
    mean = np.where(reads, start.mean, belief.mean)
    covariance = np.array(belief.covariance)
    covariance[reads, :] = covariance[:, reads] = 0.0
    block = np.ix_(reads, reads)
    covariance[block] = np.array(start.covariance)[block]
    return oven_belief(mean, covariance)


def floored(covariance: Array) -> Array:
    """A covariance in which no parameter is surer than the model allows."""
    floor = np.array([_SUREST[name] for name in NAMES])
    spread = np.sqrt(np.diag(covariance))
    wider = np.maximum(1.0, floor / spread)
    return np.asarray(covariance * np.outer(wider, wider))


def oven_belief(mean: Array, covariance: Array) -> Belief:
    """A belief of the reduced cup from its arrays."""
    rows = tuple(tuple(float(v) for v in row) for row in covariance)
    return Belief(MODEL, VERSION, NAMES, tuple(float(v) for v in mean), rows)


def _spread(about: Property) -> tuple[float, float]:
    low, middle, high = about.ends
    if about.logarithmic:
        low, middle, high = math.log(low), math.log(middle), math.log(high)
    return middle, (high - low) / 2 / Z90
