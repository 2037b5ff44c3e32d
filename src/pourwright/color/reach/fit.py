"""How near every handful of bottles comes to every color, in amounts without rounding."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.descent import descended
from pourwright.color.match.metric import evened, frames
from pourwright.color.reach.stock import Places, Stock
from pourwright.spectrum.difference import delta_e00

_PAIRS_AT_ONCE = 20_000
_GRID = 8
_CORNERS_KEPT = 3
_ROUGH_ROUNDS = 4
_PASSES = 3
_ROUNDS = 4
# A tenth of a drop is what a let-down of 1:10 gives.
_FINE = 0.1
# Nearer than this nobody asks for more.
_DONE = 0.3
# Handfuls that are left behind the best by so much are followed no further.
_HOPELESS = 10.0


@dataclass(frozen=True, slots=True, eq=False)
class Fits:
    """CIEDE2000 of the nearest recipe found, (colors, handfuls), and its steps, unrounded."""

    differences: Array
    steps: Array


def fits(stock: Stock, chosen: Places, wanted: Array) -> Fits:
    """The nearest recipes of each handful, (handfuls, colorants), to L*a*b*, (colors, 3).

    From the nearest of a grid of recipes, damped Gauss-Newton rounds in the logarithm of steps. A
    nearer recipe is not ruled out: what is not reached here is not proven out of reach.
    """
    grid = _grid(stock, chosen)
    grid_labs = stock.labs_of(np.repeat(chosen, grid.shape[1], axis=0), _flat(steps_of(grid)))
    grid_even = evened(grid_labs).reshape(*grid.shape[:2], 3)
    some = max(1, _PAIRS_AT_ONCE // len(chosen))
    found = [
        _fitted(stock, chosen, wanted[i : i + some], grid, grid_even)
        for i in range(0, len(wanted), some)
    ]
    return Fits(*(np.concatenate(v) for v in zip(*found, strict=True)))


def _fitted(
    stock: Stock, chosen: Places, wanted: Array, grid: Array, grid_even: Array
) -> tuple[Array, Array]:
    starts = np.concatenate([_nearest(grid, grid_even, w) for w in evened(wanted)], axis=1)
    pairs = _Pairs(stock, np.tile(chosen, (len(wanted), 1)), np.repeat(wanted, len(chosen), axis=0))
    u = pairs.best_of(starts)
    apart = delta_e00(pairs.labs(u), pairs.wanted)
    for _ in range(_PASSES):
        best = np.repeat(apart.reshape(len(wanted), -1).min(axis=1), len(chosen))
        far = np.flatnonzero((apart > _DONE) & (apart < best + _HOPELESS))
        again, again_apart = pairs.only(far).nearer(u[far])
        better = again_apart < apart[far]
        u[far[better]], apart[far[better]] = again[better], again_apart[better]
    return apart.reshape(len(wanted), -1), steps_of(u).reshape(len(wanted), *chosen.shape)


@dataclass(frozen=True, slots=True, eq=False)
class _Pairs:
    """Handfuls, each with the color it is to come near to."""

    stock: Stock
    chosen: Places
    wanted: Array

    def labs(self, u: Array) -> Array:
        """Colors of logarithms of steps."""
        return self.stock.labs_of(self.chosen, steps_of(u))

    def only(self, places: Places) -> _Pairs:
        """Some of the pairs."""
        return _Pairs(self.stock, self.chosen[places], self.wanted[places])

    def best_of(self, starts: Array) -> Array:
        """Where the best of several starts, (starts, pairs, colorants), gets to, roughly."""
        goal = evened(self.wanted)
        ends = [self._descended(u, lambda labs: evened(labs) - goal, _ROUGH_ROUNDS) for u in starts]
        costs = np.stack([((evened(self.labs(u)) - goal) ** 2).sum(axis=1) for u in ends])
        return np.asarray(np.stack(ends)[costs.argmin(axis=0), np.arange(len(goal))])

    def nearer(self, u: Array) -> tuple[Array, Array]:
        """Onward from there, and the CIEDE2000 left; measured halfway, as CIEDE2000 is."""
        frame = frames((self.labs(u) + self.wanted) / 2)
        again = self._descended(
            u, lambda labs: np.einsum("nij,nj->ni", frame, labs - self.wanted), _ROUNDS
        )
        return again, delta_e00(self.labs(again), self.wanted)

    def _descended(self, u: Array, missed: Callable[[Array], Array], rounds: int) -> Array:
        """Downhill; `missed` turns colors into residuals, (pairs, 3)."""
        top = logs_of(self.stock.counter.most)[self.chosen]
        end = descended(
            u,
            lambda logs: missed(self.labs(logs)),
            (np.zeros_like(top), top),
            lambda logs: held(self.stock, self.chosen, logs),
            rounds,
        )
        return end.logs


def held(stock: Stock, chosen: Places, u: Array) -> Array:
    """Logarithms of steps brought within what is left of each bottle and within the limit."""
    steps = np.clip(steps_of(np.minimum(u, 30)), 0, stock.counter.most[chosen])
    over = np.maximum(steps.sum(axis=1, keepdims=True) / stock.most_steps, 1)
    return logs_of(steps / over)


def steps_of(u: Array) -> Array:
    """Steps from their logarithms, zero from zero."""
    return np.asarray(_FINE * np.expm1(u))


def logs_of(steps: Array) -> Array:
    """Logarithms that are even for steps above a tenth of one, and begin at zero."""
    return np.asarray(np.log1p(steps / _FINE))


def _grid(stock: Stock, chosen: Places) -> Array:
    """Logarithms of steps, (handfuls, recipes, colorants), one corner of the grid after another."""
    width = chosen.shape[1]
    shares = np.array(list(itertools.product(np.linspace(0, 1, _GRID), repeat=width)))
    corner = (shares > 0.5) @ 2 ** np.arange(width)
    shares = shares[np.argsort(corner, kind="stable")]
    top = logs_of(np.minimum(stock.counter.most, stock.most_steps))[chosen]
    every = shares[None, :, :] * top[:, None, :]
    return held(stock, np.repeat(chosen, len(shares), axis=0), _flat(every)).reshape(every.shape)


def _nearest(grid: Array, grid_even: Array, goal: Array) -> Array:
    """Recipes of the grid near one color, (starts, handfuls, colorants), from different corners."""
    off = ((grid_even - goal) ** 2).sum(axis=2)
    by_corner = off.reshape(len(grid), 2 ** grid.shape[2], -1)
    corners = np.argsort(by_corner.min(axis=2), axis=1, kind="stable")[:, :_CORNERS_KEPT]
    rows = np.arange(len(grid))
    places = by_corner.argmin(axis=2) + np.arange(by_corner.shape[1]) * by_corner.shape[2]
    return np.stack([grid[rows, places[rows, c]] for c in corners.T])


def _flat(values: Array) -> Array:
    return np.asarray(values.reshape(-1, values.shape[-1]))
