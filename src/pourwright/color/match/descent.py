"""Levenberg's and Marquardt's steps for thousands of recipes at once, each with its own damping."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array

_NUDGE = 0.02
_DAMPING, _EASED, _TIGHTENED = 0.02, 1 / 5, 8.0
# Longest move of one logarithm in a round.
_STRIDE = 1.5
_PRESSED = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Descent:
    """Where the logarithms of steps, (recipes, bottles), got to, and the squares left."""

    logs: Array
    cost: Array


def descended(
    logs: Array,
    missed: Callable[[Array], Array],
    limits: tuple[Array, Array],
    held: Callable[[Array], Array],
    rounds: int,
) -> Descent:
    """So many rounds downhill on residuals.

    `missed` turns logarithms into residuals, (recipes, 3); `limits` are their least and most;
    `held` brings them within these and whatever else limits a recipe.
    """
    damping = np.full(len(logs), _DAMPING)
    residual = missed(logs)
    cost = (residual**2).sum(axis=1)
    for _ in range(rounds):
        moved = [missed(logs + _NUDGE * axis) for axis in np.eye(logs.shape[1])]
        slope = np.stack([(m - residual) / _NUDGE for m in moved], axis=2)
        tried = held(logs + _step(slope, residual, damping, logs, limits))
        new = missed(tried)
        new_cost = (new**2).sum(axis=1)
        better = new_cost < cost
        logs = np.where(better[:, None], tried, logs)
        residual = np.where(better[:, None], new, residual)
        cost = np.where(better, new_cost, cost)
        damping = np.where(better, damping * _EASED, damping * _TIGHTENED)
    return Descent(logs, cost)


def _step(
    slope: Array, residual: Array, damping: Array, logs: Array, limits: tuple[Array, Array]
) -> Array:
    hessian = np.einsum("nri,nrj->nij", slope, slope)
    downhill = -np.einsum("nri,nr->ni", slope, residual)
    # A bottle pressed against its limit sits this round out.
    low, top = limits
    out = ((logs <= low + _PRESSED) & (downhill <= 0)) | (
        (logs >= top - _PRESSED) & (downhill >= 0)
    )
    out |= low == top
    hessian *= ~out[:, :, None] & ~out[:, None, :]
    diagonal = np.einsum("nii->ni", hessian)
    diagonal += damping[:, None] * (diagonal + 1e-2) + out
    found = np.linalg.solve(hessian, np.where(out, 0, downhill)[..., None])[..., 0]
    return np.asarray(np.clip(found, -_STRIDE, _STRIDE))
