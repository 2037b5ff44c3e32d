"""The most likely constants of plastic and colorants together, and how loose they stay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.fit.forward import (
    Shown,
    State,
    all_readings,
    as_read,
    deviations,
    shown,
    slope_as_read,
    sums,
)
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Puck, Reading
from pourwright.spectrum.light import BANDS

_ROUNDS = 30
_TRUST_ROUNDS = 4
# Deviations of a reading, root mean square, beyond which it is likelier wrong than right.
_FAR = 2.0
_SETTLED = 1e-3
# Longest step of a round in any one prior deviation.
_STRIDE = 1.5


@dataclass(frozen=True, slots=True)
class Joint:
    """Beliefs after the readings, one for each part, and the misfit of each reading.

    `misfits` are in the instrument's deviations, root mean square, by reading; `doses` holds by
    what factor each puck seems to have got more of a colorant than was counted.
    """

    parts: tuple[Normal, ...]
    misfits: tuple[float, ...]
    doses: dict[tuple[str, int], float]


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where each unknown lies among the columns: parts, then thickness, doses and gains."""

    parts: tuple[slice, ...]
    thick: dict[str, int]
    dose: dict[tuple[str, int], int]
    gain: int
    size: int


def fit(priors: Sequence[Normal], pucks: Sequence[Puck]) -> Joint:
    """Maximum a posteriori by damped Gauss-Newton steps in prior deviations, then Laplace.

    Readings far off are trusted less, round by round, so that one wrong puck bends little.

    `priors[0]` is the plastic. Thickness, every counted dose and every reading's gain are unknown
    within their deviations and fitted along.
    """
    layout = _laid_out(priors, pucks)
    z = np.zeros(layout.size)
    for _ in range(_TRUST_ROUNDS):
        trust = _trust(priors, pucks, layout, z)
        z = _descended(priors, pucks, layout, z, trust)
        if trust.min(initial=1) == 1 and _trust(priors, pucks, layout, z).min(initial=1) == 1:
            break
    return _concluded(priors, pucks, layout, z)


def _trust(priors: Sequence[Normal], pucks: Sequence[Puck], layout: _Layout, z: Array) -> Array:
    """Square roots of the weights of every number: a reading far off counts the less for it."""
    _, (residual, _) = _linear(priors, pucks, layout, z, np.ones(1))
    if not z.any():
        return np.ones(len(residual))
    weights = [
        np.full(len(r.values), np.sqrt(min(1.0, _FAR / max(size, 1e-9))))
        for (_, r), size in zip(all_readings(pucks), _misfits(residual, pucks), strict=True)
    ]
    return np.concatenate(weights) if weights else np.ones(0)


def _descended(
    priors: Sequence[Normal], pucks: Sequence[Puck], layout: _Layout, z: Array, trust: Array
) -> Array:
    cost, rows = _linear(priors, pucks, layout, z, trust)
    damping = 1e-3
    for _ in range(_ROUNDS):
        residual, slope = rows
        hessian = slope.T @ slope + np.eye(layout.size)
        downhill = slope.T @ residual + z
        step = -np.linalg.solve(hessian + damping * np.diag(np.diag(hessian)), downhill)
        step *= min(1.0, _STRIDE / max(np.abs(step).max(), 1e-12))
        new_cost, new_rows = _linear(priors, pucks, layout, z + step, trust)
        if new_cost < cost:
            settled = cost - new_cost < _SETTLED * (1 + cost)
            z, cost, rows, damping = z + step, new_cost, new_rows, damping / 4
            if settled:
                break
        else:
            damping *= 8
            if damping > 1e6:
                break
    return z


def _concluded(priors: Sequence[Normal], pucks: Sequence[Puck], layout: _Layout, z: Array) -> Joint:
    trust = _trust(priors, pucks, layout, z)
    _, (_, slope) = _linear(priors, pucks, layout, z, trust)
    _, (residual, _) = _linear(priors, pucks, layout, z, np.ones(1))
    covariance = np.linalg.inv(slope.T @ slope + np.eye(layout.size))
    parts = []
    for prior, where in zip(priors, layout.parts, strict=True):
        root = np.linalg.cholesky(covariance[where, where])
        parts.append(Normal(prior.mean + prior.factor @ z[where], prior.factor @ root))
    doses = {
        (puck.name, j): float(np.exp(d * z[layout.dose[puck.name, j]]))
        for puck in pucks
        for j, _, d in puck.doses
    }
    return Joint(tuple(parts), tuple(_misfits(residual, pucks)), doses)


def _misfits(residual: Array, pucks: Sequence[Puck]) -> list[float]:
    found, start = [], 0
    for _, reading in all_readings(pucks):
        piece = residual[start : start + len(reading.values)]
        found.append(float(np.sqrt(np.mean(piece**2))))
        start += len(piece)
    return found


def _laid_out(priors: Sequence[Normal], pucks: Sequence[Puck]) -> _Layout:
    parts, start = [], 0
    for prior in priors:
        width = prior.factor.shape[1]
        parts.append(slice(start, start + width))
        start += width
    thick = {puck.name: start + i for i, puck in enumerate(pucks)}
    start += len(pucks)
    dose: dict[tuple[str, int], int] = {}
    for puck in pucks:
        for j, _, _ in puck.doses:
            dose[puck.name, j] = start
            start += 1
    return _Layout(tuple(parts), thick, dose, start, start + len(all_readings(pucks)))


def _state(priors: Sequence[Normal], layout: _Layout, z: Array) -> State:
    logs = np.stack([p.mean + p.factor @ z[w] for p, w in zip(priors, layout.parts, strict=True)])
    return State(logs[:, :BANDS], logs[:, BANDS:])


def _linear(
    priors: Sequence[Normal], pucks: Sequence[Puck], layout: _Layout, z: Array, trust: Array
) -> tuple[float, tuple[Array, Array]]:
    """Cost, and weighed residuals with their slopes."""
    state = _state(priors, layout, z)
    readings = all_readings(pucks)
    count = sum(len(r.values) for _, r in readings)
    residual, slope = np.zeros(count), np.zeros((count, layout.size))
    start = 0
    for n, (puck, reading) in enumerate(readings):
        gain = layout.gain + n
        doses = np.array(
            [1.0, *(np.exp(d * z[layout.dose[puck.name, j]]) for j, _, d in puck.doses)]
        )
        thick = puck.thick_mm * np.exp(puck.thick_doubt * z[layout.thick[puck.name]])
        absorb, scatter = (part * doses[:, None] * thick for part in sums(state, puck))
        seen = shown(absorb.sum(axis=0), scatter.sum(axis=0), reading)
        factor = np.exp(reading.noise.gain * z[gain])
        reflectance = factor * seen.reflectance
        rows = slice(start, start + len(reading.values))
        expected = as_read(reading, reflectance)
        scale = deviations(reading)
        residual[rows] = (expected - reading.values) / scale
        to_values = slope_as_read(reading, reflectance) / scale[:, None]
        _fill(slope[rows], to_values, factor, seen, (absorb, scatter), puck, priors, layout)
        slope[rows, gain] = to_values @ reflectance * reading.noise.gain
        start = rows.stop
    residual, slope = residual * trust, slope * trust[:, None]
    return float(residual @ residual + z @ z), (residual, slope)


def _fill(
    rows: Array,
    to_values: Array,
    factor: float,
    seen: Shown,
    layers: tuple[Array, Array],
    puck: Puck,
    priors: Sequence[Normal],
    layout: _Layout,
) -> None:
    """Slopes of one reading by every constant, dose and the thickness."""
    absorb, scatter = layers
    by_absorb, by_scatter = factor * seen.by_absorb, factor * seen.by_scatter
    rows[:, layout.thick[puck.name]] = to_values @ (by_absorb + by_scatter) * puck.thick_doubt
    indexes = [0, *(1 + j for j, _, _ in puck.doses)]
    for row, part in enumerate(indexes):
        a = by_absorb * absorb[row] / absorb.sum(axis=0)
        s = by_scatter * scatter[row] / scatter.sum(axis=0)
        where = priors[part].factor
        rows[:, layout.parts[part]] += (to_values * a) @ where[:BANDS] + (to_values * s) @ where[
            BANDS:
        ]
        if row:
            j, _, doubt = puck.doses[row - 1]
            rows[:, layout.dose[puck.name, j]] += to_values @ (a + s) * doubt


def predicts(parts: Sequence[Normal], puck: Puck, reading: Reading) -> Array:
    """What a puck should read, in the instrument's numbers, at the most likely constants."""
    logs = np.stack([p.mean for p in parts])
    absorb, scatter = sums(State(logs[:, :BANDS], logs[:, BANDS:]), puck)
    seen = shown(absorb.sum(axis=0) * puck.thick_mm, scatter.sum(axis=0) * puck.thick_mm, reading)
    return as_read(reading, seen.reflectance)
