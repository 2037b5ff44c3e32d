"""A large sample of the recipes that can be counted out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.color.reach.packing import MOST_LIGHTNESS_UNIT
from pourwright.color.reach.stock import Places, Stock
from pourwright.spectrum.difference import delta_e00

# Drawn amounts begin here and are rounded, so that recipes with none of a bottle come up too.
_LEAST = 0.35


@dataclass(frozen=True, slots=True, eq=False)
class Tried:
    """Recipes: handfuls and their whole steps, (recipes, colorants), and L*a*b*, (recipes, 3)."""

    chosen: Places
    steps: Array
    labs: Array

    def nearest(self, wanted: Array, known: Array) -> NDArray[np.intp]:
        """Places of the recipes nearest to colors, (colors, 3), or -1 where `known` is nearer."""
        return np.array([self._nearest(w, k) for w, k in zip(wanted, known, strict=True)])

    def _nearest(self, wanted: Array, known: float) -> int:
        # CIEDE2000 is no less than its lightness part.
        near = np.flatnonzero(abs(self.labs[:, 0] - wanted[0]) <= known * MOST_LIGHTNESS_UNIT)
        apart = delta_e00(self.labs[near], wanted)
        return int(near[apart.argmin()]) if len(near) and apart.min() < known else -1


def sample(stock: Stock, chosen: Places, *, tries: int, seed: int) -> Tried:
    """Recipes of these handfuls, each once.

    Steps are drawn evenly by their logarithm, each bottle for itself, and recipes beyond the
    limit are dropped.
    """
    rng = np.random.Generator(np.random.PCG64(seed))
    rows = chosen[rng.integers(len(chosen), size=tries)]
    most = stock.counter.most[rows]
    top = np.log((most + 0.5) / _LEAST)
    steps = np.minimum(np.rint(_LEAST * np.exp(rng.random(rows.shape) * top)), most)
    kept = steps.sum(axis=1) <= stock.most_steps
    named, amounts = _once(stock, rows[kept], steps[kept])
    return Tried(named, amounts, stock.labs_of(named, amounts))


def _once(stock: Stock, rows: Places, steps: Array) -> tuple[Places, Array]:
    """Without doubles: a bottle of which nothing is taken counts as the bottle of nothing."""
    named = np.where(steps > 0, rows, len(stock.bottles))
    order = np.argsort(named, axis=1, kind="stable")
    named, amounts = (np.take_along_axis(v, order, axis=1) for v in (named, steps))
    key = np.zeros(len(rows), np.int64)
    for place, amount in zip(named.T, amounts.T, strict=True):
        key = (key * stock.counter.bottles + place) * (stock.most_steps + 1) + amount.astype(int)
    _, first = np.unique(key, return_index=True)
    return named[first], amounts[first]
