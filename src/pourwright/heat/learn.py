"""What the readings of one cup teach: a joint fit of the oven, the cup, and each burst.

Unknown are the oven's parameters with a belief before the cup, this cup's own power and start,
and each burst's own power: what the reduced cup misses of a burst is noise of that burst, not of
the reading after it. Gauss-Newton to the most likely point, Laplace around it. Readings count by
Student's t with four degrees of freedom, so that one wild reading is all but left out (Lange,
Little and Taylor, J. Am. Stat. Assoc. 84, 1989).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.belief import Belief
from pourwright.base.draws import Array
from pourwright.heat.belief import floored, oven_belief
from pourwright.heat.history import Did, Instrument, Step
from pourwright.heat.oven import (
    BOTTOM_LAG,
    HOT_FACTOR,
    MODEL,
    NAMES,
    REFERENCE_LOAD_KG,
    VERSION,
    Oven,
    oven_of,
)
from pourwright.heat.replay import Fill, Replay, replay
from pourwright.matter import plastisol, scorch

CUP, START = "cup", "start"
CUP_SPREAD = 0.03
BURST_SPREAD = 0.02
# What the reduced cup misses of any burst, however short: shells, stirs, glass.
MIXING_SPREAD_K = 0.8
_USUAL_J_KGK = 2000.0
STIRRING_NOISE_K, PROBE_NOISE_K = 1.3, 0.8
# A face at rest for a while has a skin of unknown age.
INFRARED_NOISE_K = 2.5
# A face or a probe in a cup that was not stirred sees one place of many.
UNSTIRRED_NOISE_K = 3.0
_FREEDOM = 4.0
_MOST_ROUNDS, _MOST_HALVINGS = 7, 6
_NUDGE = {"ln_power_w": 0.01, "power_tilt": 0.02, "ln_loss": 0.05, "ln_to_glass": 0.05,
          "ln_load_half_kg": 0.1, "surface_offset_k": 0.5, "film_k": 0.3, "reading_bias_k": 0.2,
          "probe_bias_k": 0.2, START: 0.3}  # fmt: skip
_NUDGE_POWER = 0.01


@dataclass(frozen=True, slots=True)
class Fit:
    """What is believed after a cup's readings.

    `joint` holds the oven's parameters, then this cup's; `trust` how much each reading counts, 1
    for a usual one; `misses_k` by how much each lies above what the fit expects of it, `spreads_k`
    the standard deviation of that. `strain` is the squared distance to the belief before, in its
    own deviations; a usual cup stays below four.
    """

    joint: Belief
    trust: tuple[float, ...]
    misses_k: tuple[float, ...]
    spreads_k: tuple[float, ...]
    strain: float

    def oven(self) -> Belief:
        """The belief of the oven alone, to be carried to the next cup."""
        n = len(NAMES)
        covariance = np.array(self.joint.covariance)[:n, :n]
        return oven_belief(np.array(self.joint.mean[:n]), floored(covariance))


def fitted(
    belief: Belief,
    fill: Fill,
    steps: tuple[Step, ...],
    *,
    start_spread_k: float,
    sure: frozenset[int] = frozenset(),
) -> Fit:
    """The joint belief after the readings of a cup; those numbered in `sure` count in full."""
    names = _unknowns(steps)
    mean, weight = _before(belief, names, fill, steps, start_spread_k)
    reads = [s for s in steps if s.did is Did.READ]
    noise = noise_k(steps)
    if not reads:
        return Fit(_joint(names, mean, np.linalg.inv(weight).astype(np.float64)), (), (), (), 0.0)
    sized = _Readings(
        read=np.array([s.read_c or 0.0 for s in reads]),
        noise=noise,
        full=np.array([i in sure for i in range(len(reads))]),
    )
    nudge = _nudges(names)
    point = mean.copy()
    pull = _pull(names, point, nudge, fill, steps, sized)
    for _ in range(_MOST_ROUNDS):
        push = np.linalg.solve(
            pull.normal(weight), pull.slope.T @ (pull.miss * pull.counted) + weight @ (mean - point)
        )
        uphill = pull.unlikely + _far(mean - point, weight)
        for _ in range(_MOST_HALVINGS):
            pull = _pull(names, point + push, nudge, fill, steps, sized)
            if pull.unlikely + _far(mean - point - push, weight) <= uphill:
                break
            push = push / 2
        else:
            pull = _pull(names, point + push, nudge, fill, steps, sized)
        point = point + push
        if np.all(np.abs(push) < 0.05 * nudge):
            break
    covariance = np.linalg.inv(pull.normal(weight)).astype(np.float64)
    slope = pull.slope
    spread = np.sqrt(noise**2 + np.einsum("ij,jk,ik->i", slope, covariance, slope))
    return Fit(
        _joint(names, point, covariance),
        tuple(float(v) for v in pull.trust),
        tuple(float(v) for v in pull.miss),
        tuple(float(v) for v in spread),
        _far(mean - point, weight),
    )


@dataclass(frozen=True, slots=True)
class _Readings:
    """What was read, how noisy, and which of them count in full."""

    read: Array
    noise: Array
    full: Array


@dataclass(frozen=True, slots=True)
class _Pull:
    """Where the readings pull a point: slopes, misses, trust, weights; `unlikely` falls with it."""

    slope: Array
    miss: Array
    trust: Array
    counted: Array
    unlikely: float

    def normal(self, weight: Array) -> Array:
        """The normal matrix of prior and readings."""
        return np.asarray(weight + self.slope.T @ (self.slope * self.counted[:, None]))


def _pull(
    names: tuple[str, ...],
    point: Array,
    nudge: Array,
    fill: Fill,
    steps: tuple[Step, ...],
    sized: _Readings,
) -> _Pull:
    tried = np.vstack([point, point + np.diag(nudge)])
    guess = replayed(names, tried.T, fill, steps).reads
    miss = sized.read - guess[:, 0]
    squares = (miss / sized.noise) ** 2
    student = (_FREEDOM + 1) / (_FREEDOM + squares)
    trust = np.minimum(np.where(sized.full, 1.0, student), 1.0)
    slope = (guess[:, 1:] - guess[:, :1]) / nudge
    # Twice the negative logarithm of the likelihood, whose slope is 2·trust·miss/noise².
    wild = 1 - (_FREEDOM + 1) * np.log(np.minimum(student, 1.0))
    unlikely = np.where(trust < 1, wild, squares).sum()
    return _Pull(slope, miss, trust, trust / sized.noise**2, float(unlikely))


def _far(apart: Array, weight: Array) -> float:
    return float(apart @ weight @ apart)


def foreseen(before: Fit, fill: Fill, steps: tuple[Step, ...]) -> tuple[float, float]:
    """How far the last step, a reading, lies above what was foreseen, and the spread of that.

    `before` is the fit of the steps before it.
    """
    names = before.joint.names
    point = np.array(before.joint.mean)
    nudge = _nudges(names)
    guess = replayed(names, np.vstack([point, point + np.diag(nudge)]).T, fill, steps).reads[-1]
    slope = (guess[1:] - guess[0]) / nudge
    variance = slope @ np.array(before.joint.covariance) @ slope + noise_k(steps)[-1] ** 2
    return float((steps[-1].read_c or 0.0) - guess[0]), float(np.sqrt(variance))


def noise_k(steps: tuple[Step, ...]) -> Array:
    """Standard deviation of every reading, with what nobody can see of an unstirred cup."""
    found, stirred = [], True
    for step in steps:
        if step.did is Did.HEATED:
            stirred = False
        elif step.did in {Did.STIRRED, Did.ADDED}:
            stirred = True
        elif step.did is Did.READ:
            found.append(_noise(step, stirred=stirred or step.while_stirring))
    return np.array(found)


def replayed(names: tuple[str, ...], values: Array, fill: Fill, steps: tuple[Step, ...]) -> Replay:
    """The history under values of the unknowns, shape (unknowns, draws)."""
    about = dict(zip(names, values, strict=True))
    like = about[NAMES[0]]
    about[NAMES[0]] = like + about[CUP]
    oven = typical_oven(about, fill.ambient_c)
    half = np.exp(about["ln_load_half_kg"])
    return replay(fill, steps, oven, half, start_k=about[START], bursts=_bursts(about))


def typical_oven(about: Mapping[str, Array], ambient_c: float) -> Oven:
    """An oven whose unlearned parameters are typical, under the reference load."""
    like = about[NAMES[0]]

    def same(value: float) -> Array:
        return np.full_like(like, value)

    return oven_of(
        dict(about),
        plastic_kg=REFERENCE_LOAD_KG,
        ambient_c=same(ambient_c),
        heat_ratio=same(plastisol.HEAT_CAPACITY_RATIO.typical),
        hot_factor=same(HOT_FACTOR.typical),
        bottom_lag=same(BOTTOM_LAG.typical),
        scorch_j_mol=same(scorch.ACTIVATION_J_MOL.typical),
        stable_s=same(scorch.STABLE_MIN_AT_190C.typical * 60),
    )


def _nudges(names: tuple[str, ...]) -> Array:
    return np.array([_NUDGE.get(name, _NUDGE_POWER) for name in names])


def burst_name(number: int) -> str:
    """The unknown that holds a burst's own power, numbered from 0."""
    return f"burst {number}"


def _bursts(about: Mapping[str, Array]) -> dict[int, Array]:
    count = sum(name.startswith("burst ") for name in about)
    return {i: about[burst_name(i)] for i in range(count)}


def _unknowns(steps: tuple[Step, ...]) -> tuple[str, ...]:
    bursts = sum(s.did is Did.HEATED for s in steps)
    return (*NAMES, CUP, START, *(burst_name(i) for i in range(bursts)))


def _burst_spreads(belief: Belief, fill: Fill, steps: tuple[Step, ...]) -> list[float]:
    """Spread of the logarithm of each burst's power; a short one is mixing more than power."""
    watts = math.exp(belief.mean[0])
    rises = [
        watts * max(s.lasted_s, 1.0) / (fill.plastic_g / 1000 * _USUAL_J_KGK)
        for s in steps
        if s.did is Did.HEATED
    ]
    return [math.hypot(BURST_SPREAD, min(MIXING_SPREAD_K / rise, 0.3)) for rise in rises]


def _before(
    belief: Belief,
    names: tuple[str, ...],
    fill: Fill,
    steps: tuple[Step, ...],
    start_spread_k: float,
) -> tuple[Array, Array]:
    about = belief.for_model(MODEL, VERSION)
    n, more = len(NAMES), len(names) - len(NAMES)
    spreads = [CUP_SPREAD, max(start_spread_k, 0.3), *_burst_spreads(about, fill, steps)]
    weight = np.zeros((n + more, n + more))
    weight[:n, :n] = np.linalg.inv(np.array(about.covariance))
    weight[n:, n:] = np.diag([1 / s**2 for s in spreads])
    return np.concatenate([about.mean, np.zeros(more)]), weight


def _joint(names: tuple[str, ...], mean: Array, covariance: Array) -> Belief:
    even = (covariance + covariance.T) / 2
    rows = tuple(tuple(float(v) for v in row) for row in even)
    return Belief(MODEL, VERSION, names, tuple(float(v) for v in mean), rows)


def _noise(step: Step, *, stirred: bool) -> float:
    if step.instrument is Instrument.PROBE:
        own = PROBE_NOISE_K
    else:
        own = STIRRING_NOISE_K if step.while_stirring else INFRARED_NOISE_K
    return own if stirred else math.hypot(own, UNSTIRRED_NOISE_K)
