"""Which bottles go into a recipe together."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from pourwright.color.reach.stock import Places, Stock
from pourwright.color.reach.subset import Bits


def handfuls(stock: Stock) -> Places:
    """Every set of at most the allowed colorants with at most one candidate, none included.

    Shape (sets, colorants); sets of fewer are filled up with the bottle of nothing.
    """
    shelf = range(stock.on_shelf)
    bought = range(stock.on_shelf, len(stock.bottles))
    nothing, width = len(stock.bottles), stock.most_colorants
    rows = [_filled(s, width, nothing) for n in range(width + 1) for s in _sets(shelf, n)]
    rows += [
        _filled((*s, c), width, nothing)
        for n in range(width)
        for s in _sets(shelf, n)
        for c in bought
    ]
    return np.array(rows, dtype=np.intp)


def bits(stock: Stock, chosen: Places) -> Bits:
    """The bottles of each handful as the bits of a number, the first bottle lowest."""
    held = (chosen[:, :, None] == np.arange(len(stock.bottles))).any(axis=1)
    return bits_of(held)


def bits_of(held: NDArray[np.bool_]) -> Bits:
    """The same from which bottle is held, (handfuls, bottles)."""
    return np.asarray(held @ (np.int64(1) << np.arange(held.shape[1], dtype=np.int64)))


def _sets(places: Sequence[int], size: int) -> Sequence[tuple[int, ...]]:
    return list(itertools.combinations(places, size))


def _filled(places: tuple[int, ...], width: int, nothing: int) -> tuple[int, ...]:
    return (*places, *[nothing] * (width - len(places)))
