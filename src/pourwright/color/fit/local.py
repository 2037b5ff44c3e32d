"""A colorant's nearest relatives among the generated families, as a belief to start from."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.fit.family import library
from pourwright.color.fit.forward import State, all_readings, deviations, sums
from pourwright.color.fit.prior import Normal, loose, normal
from pourwright.color.fit.reading import Puck, Reading
from pourwright.color.octave import Single
from pourwright.color.viewer import Viewer
from pourwright.spectrum.light import BANDS

SIZE = 6000
# How many of them are left for each round of fitting their levels; the last are averaged.
_LEFT = (SIZE, 2000, 600, 600)
_NEAREST = 120
_NUDGE = 0.05
# Deviations of a reading, root mean square, beyond which it is likelier wrong than right.
_FAR = 2.5
# Deviations of log levels within the families; they hold a level nobody's readings speak of.
_LEVEL_SPREAD = np.array([1.5, 2.0])


def relatives(colorant: int, known: Sequence[Normal], pucks: Sequence[Puck]) -> Normal:
    """A belief about one colorant from pucks whose other parts are known.

    Each relative's levels of absorption and scattering are fitted to the readings; the nearest
    are then averaged by how well they fit.
    """
    family = library(SIZE)
    logs = np.concatenate([family.absorb, family.scatter], axis=1)
    own = [p for p in pucks if any(j == colorant for j, _, _ in p.doses)]
    if not own:
        return normal(logs.mean(axis=0), np.cov(logs.T) + loose())
    trials = [_Trial(colorant, known, p, r) for p, r in all_readings(own)]
    levels, cost = np.zeros((SIZE, 2)), np.zeros(SIZE)
    for left in _LEFT:
        kept = np.argsort(cost, kind="stable")[:left]
        step, before = _level_step(trials, logs[kept], levels[kept])
        cost[kept] = before
        levels[kept] += step
        cost[np.setdiff1d(np.arange(SIZE), kept)] = np.inf
    kept = np.argsort(cost, kind="stable")[: _LEFT[-1]]
    moved = logs[kept] + _spread_out(levels[kept])
    return _averaged(moved, _cost(trials, logs[kept], levels[kept]))


def _averaged(logs: Array, cost: Array) -> Normal:
    order = np.argsort(cost, kind="stable")[:_NEAREST]
    # Flattened until the nearest speak with the weight of a dozen or more.
    flat = max(1.0, float(cost[order[_NEAREST // 4]] - cost[order[0]]) / 4)
    weight = np.exp(-(cost[order] - cost[order[0]]) / (2 * flat))
    weight /= weight.sum()
    mean = weight @ logs[order]
    off = (logs[order] - mean) * np.sqrt(weight)[:, None]
    return normal(mean, off.T @ off + loose())


def _spread_out(levels: Array) -> Array:
    return np.repeat(levels, BANDS, axis=1)


class _Trial:
    """One reading, as any trial colorant would make it."""

    def __init__(
        self, colorant: int, known: Sequence[Normal], puck: Puck, reading: Reading
    ) -> None:
        others = Puck(
            puck.name, tuple(d for d in puck.doses if d[0] != colorant), puck.thick_mm, ()
        )
        logs = np.stack([p.mean for p in known])
        absorb, scatter = sums(State(logs[:, :BANDS], logs[:, BANDS:]), others)
        self.absorb = absorb.sum(axis=0).astype(np.float32)[:, None]
        self.scatter = scatter.sum(axis=0).astype(np.float32)[:, None]
        self.grams = np.float32(sum(g for j, g, _ in puck.doses if j == colorant))
        self.reading = reading
        self.viewer = Viewer(thick_mm=puck.thick_mm, ground=reading.ground, placing=reading.placing)
        every = deviations(reading)
        shared = reading.noise.gain * (reading.values if reading.spectral else 30.0)
        self.scale = np.hypot(every, shared) * 1.5

    def residual(self, absorb: Single, scatter: Single) -> Array:
        """Misfits in deviations, (n, numbers), of trial coefficients of a gram, (31, n)."""
        seen = self.viewer.reflectances(
            self.absorb + self.grams * absorb, self.scatter + self.grams * scatter
        )
        read = seen.T.astype(float) if self.reading.spectral else self.viewer.labs(seen)[0]
        return np.asarray((read - self.reading.values) / self.scale)


def _residuals(trials: Sequence[_Trial], logs: Array, levels: Array) -> list[Array]:
    both = np.exp(logs + _spread_out(levels)).T.astype(np.float32)
    return [t.residual(both[:BANDS], both[BANDS:]) for t in trials]


def _cost(trials: Sequence[_Trial], logs: Array, levels: Array) -> Array:
    return _weighed(_residuals(trials, logs, levels), levels)


def _weighed(misfits: list[Array], levels: Array) -> Array:
    """Squares, but a reading far off counts by its distance: one wrong puck must not decide."""
    found = ((levels / _LEVEL_SPREAD) ** 2).sum(axis=1)
    for misfit in misfits:
        far, limit = np.sqrt((misfit**2).sum(axis=1)), _FAR * np.sqrt(misfit.shape[1])
        found = found + np.where(far < limit, far**2, limit * (2 * far - limit))
    return np.asarray(found)


def _trust(misfits: list[Array]) -> Array:
    """Weights of the numbers of each reading that make squares of such a sum, (n, numbers)."""
    weights = []
    for misfit in misfits:
        far = np.sqrt((misfit**2).mean(axis=1, keepdims=True))
        weights.append(np.repeat(np.minimum(1, _FAR / np.maximum(far, 1e-9)), misfit.shape[1], 1))
    return np.concatenate(weights, axis=1)


def _level_step(trials: Sequence[_Trial], logs: Array, levels: Array) -> tuple[Array, Array]:
    """One Gauss-Newton step of every trial's two levels, and the cost it sets out from."""
    misfits = _residuals(trials, logs, levels)
    base, trust = np.concatenate(misfits, axis=1), _trust(misfits)
    moved = [
        np.concatenate(_residuals(trials, logs, levels + _NUDGE * axis), axis=1)
        for axis in np.eye(2)
    ]
    slopes = np.stack([(m - base) / _NUDGE for m in moved], axis=2) * np.sqrt(trust)[..., None]
    base = base * np.sqrt(trust)
    hessian = np.einsum("nri,nrj->nij", slopes, slopes) + np.diag(1.1 / _LEVEL_SPREAD**2)
    downhill = np.einsum("nri,nr->ni", slopes, base) + levels / _LEVEL_SPREAD**2
    step = -np.linalg.solve(hessian, downhill[..., None])[..., 0]
    return np.clip(step, -1.5, 1.5), _weighed(misfits, levels)
