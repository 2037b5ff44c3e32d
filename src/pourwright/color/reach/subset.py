"""The best few bottles of many, with every choice tried."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array

Bits = NDArray[np.int64]
_BLOCK_BITS = 20
_WORD = 64
_TIES_WEIGHED = 400


@dataclass(frozen=True, slots=True)
class Choice:
    """Bottles as bits, how many colors they reach, and how many choices reach as many."""

    bottles: int
    reached: int
    ties: int


def best_choice(handfuls: Bits, differences: Array, *, bottles: int, k: int, near: float) -> Choice:
    """The k of so many bottles that reach most colors; of equals, the nearest on average.

    `handfuls` holds the bottles of each as bits, `differences`, (colors, handfuls), how near each
    comes. A set reaches a color where one handful within it does; every set is tried, at most
    2^25 of them.
    """
    words = _words(differences <= near)
    low = min(bottles, _BLOCK_BITS)
    most, ties = -1, np.zeros(0, np.int64)
    for high in range(1 << (bottles - low)):
        sets, counts = _block(handfuls, words, low=low, high=high, k=k)
        if not len(sets) or counts.max() < most:
            continue
        best = sets[counts == counts.max()]
        ties = best if counts.max() > most else np.concatenate([ties, best])
        most = int(counts.max())
    means = [within(handfuls, differences, int(s)).mean() for s in ties[:_TIES_WEIGHED]]
    return Choice(int(ties[int(np.argmin(means))]), most, len(ties))


def within(handfuls: Bits, differences: Array, chosen: int) -> Array:
    """The nearest to each color with the chosen bottles alone, (colors,)."""
    return np.asarray(differences[:, (handfuls & ~np.int64(chosen)) == 0].min(axis=1))


def _block(
    handfuls: Bits, words: NDArray[np.uint64], *, low: int, high: int, k: int
) -> tuple[Bits, NDArray[np.int64]]:
    """Sets of k whose upper bottles are those of `high`, and how many colors each reaches."""
    lower = np.arange(1 << low, dtype=np.int64)
    taken = np.bitwise_count(lower) == k - high.bit_count()
    if not taken.any():
        return np.zeros(0, np.int64), np.zeros(0, np.int64)
    inside = ((handfuls >> low) & ~np.int64(high)) == 0
    counts = np.zeros(int(taken.sum()), np.int64)
    for word in words:
        reached = np.zeros(1 << low, np.uint64)
        np.bitwise_or.at(reached, handfuls[inside] & ((1 << low) - 1), word[inside])
        counts += np.bitwise_count(_with_subsets(reached, low)[taken])
    return lower[taken] + (high << low), counts


def _with_subsets(reached: NDArray[np.uint64], low: int) -> NDArray[np.uint64]:
    """What each set reaches with all sets within it: one pass for each bottle."""
    for bottle in range(low):
        halves = reached.reshape(-1, 2, 1 << bottle)
        halves[:, 1] |= halves[:, 0]
    return reached


def _words(reached: NDArray[np.bool_]) -> NDArray[np.uint64]:
    """Colors reached by each handful, 64 to a word, (words, handfuls)."""
    ones = np.uint64(1) << np.arange(_WORD, dtype=np.uint64)
    return np.stack(
        [
            (reached[i : i + _WORD].astype(np.uint64) * ones[: len(reached[i : i + _WORD]), None])
            .sum(axis=0, dtype=np.uint64)
            for i in range(0, len(reached), _WORD)
        ]
    )  # fmt: skip
