"""A good recipe at once: every handful of bottles without rounding, then whole steps around it."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.color.match.counter import Counter
from pourwright.color.match.descent import Descent, descended
from pourwright.color.match.metric import frames
from pourwright.color.match.objective import Objective

Whole = NDArray[np.int64]

_STARTS = (0.12, 0.35)
_FIRST_ROUNDS = 5
_ROUNDS = 9
_PROMISING = 240
_ROUNDED = 30
_WIDE, _NARROW = (-1, 0, 1, 2), (0, 1)
_LED = 24
_REACH = 10
_LED_ROUNDS = 4
_LED_KEPT = 700
_CLIMBED = 20
_CLIMBS = 40


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """Recipes in whole steps, best first, with their scores; and the best without rounding."""

    counts: Array
    scores: Array
    unrounded: Array
    unrounded_score: float


def search(counter: Counter, objective: Objective) -> Found:
    """The best recipes found, at most a few hundred; not proven, see `proof`.

    Every subset of the allowed size is fitted by damped Gauss-Newton steps in ln(1 + steps). Four
    colorants meet three numbers along a curve, so the best are then led along it, one bottle after
    another held at whole steps; the corners around are tried, then single and paired steps.
    """
    subsets, logs, smooth, smooth_scores = _unrounded(counter, objective)
    led = _led(counter, objective, subsets[:_LED], logs[:_LED])
    tried = _corners(counter, objective, smooth[:_ROUNDED], _WIDE)
    tried = np.unique(np.concatenate([tried, _corners(counter, objective, led, _NARROW)]), axis=0)
    if not len(tried):
        tried = np.zeros((1, counter.bottles))
    scores = objective.scores(counter, tried)
    order = np.argsort(scores, kind="stable")
    climbed = [_climbed(counter, objective, tried[i], scores[i]) for i in order[:_CLIMBED]]
    every = np.unique(np.concatenate([tried[order[:200]], *climbed]), axis=0)
    scores = objective.scores(counter, every)
    order = np.argsort(scores, kind="stable")
    return Found(every[order], scores[order], smooth[0], float(smooth_scores[0]))


def _unrounded(counter: Counter, objective: Objective) -> tuple[Whole, Array, Array, Array]:
    """The best subsets with their logarithms, counts and scores, best first."""
    usable = np.flatnonzero(counter.most > 0)
    size = min(objective.most_colorants, len(usable))
    subsets = np.array(list(itertools.combinations(usable, size)), dtype=np.int64).reshape(-1, size)
    if not size:
        none = np.zeros((1, counter.bottles))
        return subsets, np.zeros((1, 0)), none, objective.scores(counter, none)
    top = np.log1p(np.minimum(counter.most, objective.most_steps))[subsets]
    limits = np.zeros_like(top), top
    ends = [_fitted(counter, objective, subsets, s * top, limits, _FIRST_ROUNDS) for s in _STARTS]
    costs = np.stack([end.cost for end in ends])
    u = np.stack([end.logs for end in ends])[costs.argmin(axis=0), np.arange(len(subsets))]
    kept = np.argsort(costs.min(axis=0), kind="stable")[:_PROMISING]
    subsets, limits = subsets[kept], (limits[0][kept], top[kept])
    u = _fitted(counter, objective, subsets, u[kept], limits, _ROUNDS).logs
    counts = _counts(counter, subsets, u)
    scores = objective.scores(counter, counts)
    order = np.argsort(scores, kind="stable")
    return subsets[order], u[order], counts[order], scores[order]


def _led(counter: Counter, objective: Objective, subsets: Whole, logs: Array) -> Array:
    """Recipes with one bottle at whole steps near its best and the others fitted around it."""
    if not logs.shape[1]:
        return np.zeros((0, counter.bottles))
    axes = np.arange(len(subsets)), np.arange(logs.shape[1]), np.arange(-_REACH, _REACH + 1)
    rows, held, whole = (m.ravel() for m in np.meshgrid(*axes, indexing="ij"))
    whole = np.floor(np.expm1(logs[rows, held]) + 0.5) + whole
    most = np.minimum(counter.most, objective.most_steps)[subsets[rows, held]]
    inside = (whole >= 0) & (whole <= most)
    rows, held, whole = rows[inside], held[inside], whole[inside]
    top = np.log1p(np.minimum(counter.most, objective.most_steps))[subsets[rows]]
    low, u = np.zeros_like(top), logs[rows].copy()
    each = np.arange(len(rows))
    low[each, held] = top[each, held] = u[each, held] = np.log1p(whole)
    end = _fitted(counter, objective, subsets[rows], u, (low, top), _LED_ROUNDS)
    best = np.argsort(end.cost, kind="stable")[:_LED_KEPT]
    return _counts(counter, subsets[rows][best], end.logs[best])


def _counts(counter: Counter, subsets: Whole, u: Array) -> Array:
    counts = np.zeros((len(subsets), counter.bottles))
    np.put_along_axis(counts, subsets, np.expm1(u), axis=1)
    return counts


def _fitted(
    counter: Counter,
    objective: Objective,
    subsets: Whole,
    u: Array,
    limits: tuple[Array, Array],
    rounds: int,
) -> Descent:
    """Every subset's logarithms brought near the target."""
    frame = frames(objective.labs[:1])[0]

    def missed(logs: Array) -> Array:
        labs = counter.labs(_counts(counter, subsets, logs))[0]
        return np.asarray((labs - objective.labs[0]) @ frame.T)

    return descended(u, missed, limits, lambda logs: np.clip(logs, *limits), rounds)


def _corners(
    counter: Counter, objective: Objective, smooth: Array, around: tuple[int, ...]
) -> Array:
    """Whole steps around each unrounded recipe, counted from the step below, within the limits."""
    found = []
    for recipe in smooth:
        used = np.flatnonzero(recipe > 1e-6)
        if not len(used):
            continue
        near = [np.unique(np.floor(recipe[j] + 1e-6) + around) for j in used]
        grid = np.stack(np.meshgrid(*near, indexing="ij"), axis=-1).reshape(-1, len(used))
        rows = np.zeros((len(grid), counter.bottles))
        rows[:, used] = grid
        found.append(rows)
    if not found:
        return np.zeros((0, counter.bottles))
    every = np.unique(np.concatenate(found), axis=0)
    return np.asarray(every[objective.allows(counter, every)])


def _climbed(counter: Counter, objective: Objective, start: Array, score: float) -> Array:
    """Every better recipe on the way down by steps of one or two bottles."""
    way = [start]
    for _ in range(_CLIMBS):
        near = _neighbors(way[-1])
        near = near[objective.allows(counter, near)]
        if not len(near):
            break
        scores = objective.scores(counter, near)
        best = int(scores.argmin())
        if scores[best] >= score - 1e-9:
            break
        way.append(near[best])
        score = float(scores[best])
    return np.stack(way)


def _neighbors(recipe: Array) -> Array:
    """Up to two steps more or less of one bottle, or of two bottles together, or a swap."""
    bottles = len(recipe)
    moves = [d * np.eye(bottles)[i] for i in range(bottles) for d in (-2, -1, 1, 2)]
    used = np.flatnonzero(recipe)
    for i in used:
        for j in range(bottles):
            if i == j or (j in used and j < i):
                continue
            moves += [
                a * np.eye(bottles)[i] + b * np.eye(bottles)[j]
                for a in (-2, -1, 1, 2)
                for b in (-2, -1, 1, 2)
            ]
    return np.asarray(recipe + np.stack(moves))
