"""Recipes in whole steps near those without rounding."""

from __future__ import annotations

import itertools

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.reach.found import Found
from pourwright.color.reach.sample import Tried
from pourwright.color.reach.stock import Places, Stock
from pourwright.spectrum.difference import delta_e00

_HANDFULS_TRIED = 200
_AROUND = range(-1, 3)


def rounded(own: Found, tried: Tried) -> tuple[Array, Array]:
    """For each color the nearest counts, (colors, bottles + 1), and their CIEDE2000, (colors,).

    The nearest among the recipes tried and among whole steps from one below to two above the
    unrounded recipes of the handfuls that come nearest.
    """
    near = [_nearest_corner(own, i) for i in range(len(own.palette.labs))]
    counts, apart = np.stack([n[0] for n in near]), np.array([n[1] for n in near])
    places = tried.nearest(own.palette.labs, apart)
    better = places >= 0
    at = places[better]
    counts[better] = own.stock.counts(tried.chosen[at], tried.steps[at])
    apart[better] = delta_e00(tried.labs[at], own.palette.labs[better])
    return counts, apart


def _nearest_corner(own: Found, color: int) -> tuple[Array, float]:
    best = np.argsort(own.fits.differences[color], kind="stable")[:_HANDFULS_TRIED]
    near = _corners(own.stock, own.chosen[best], own.fits.steps[color, best])
    misses = delta_e00(own.stock.labs(near), own.palette.labs[color])
    return near[misses.argmin()], float(misses.min())


def _corners(stock: Stock, chosen: Places, steps: Array) -> Array:
    """Whole counts around recipes, within what is left and the limit; bare plastic among them."""
    moves = np.array(list(itertools.product(_AROUND, repeat=steps.shape[1])))
    near = (np.floor(steps)[:, None, :] + moves).reshape(-1, steps.shape[1])
    rows = np.repeat(chosen, len(moves), axis=0)
    fits = ((near >= 0) & (near <= stock.counter.most[rows])).all(axis=1)
    fits &= near.sum(axis=1) <= stock.most_steps
    bare = np.zeros((1, stock.counter.bottles))
    return np.concatenate([bare, stock.counts(rows[fits], near[fits])])
