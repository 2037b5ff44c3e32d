"""Boxes of recipes still to be looked into, those that may hold the best first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.color.match.span import Picks

_LEVELS = 64


@dataclass(frozen=True, slots=True)
class Boxes:
    """Bottles (n, k) with their least and most steps, and what no recipe of a box scores below.

    A bottle that is left out is named by the number of bottles and has no steps.
    """

    bottles: NDArray[np.intp]
    low: Array
    high: Array
    bounds: Array

    def __len__(self) -> int:
        return len(self.bounds)

    def take(self, rows: Picks) -> Boxes:
        """Some of them."""
        return Boxes(self.bottles[rows], self.low[rows], self.high[rows], self.bounds[rows])

    def recipes(self) -> Array:
        """How many recipes each holds."""
        return np.asarray((self.high - self.low + 1).prod(axis=1))


def joined(parts: list[Boxes]) -> Boxes:
    """All of them in one."""
    return Boxes(
        np.concatenate([p.bottles for p in parts]),
        np.concatenate([p.low for p in parts]),
        np.concatenate([p.high for p in parts]),
        np.concatenate([p.bounds for p in parts]),
    )


class Frontier:
    """Boxes by levels of their bound, from zero to `top`; within a level the latest first."""

    def __init__(self, top: float) -> None:
        self._step = max(top, 1e-9) / _LEVELS
        self._levels: list[list[Boxes]] = [[] for _ in range(_LEVELS + 1)]

    def add(self, boxes: Boxes) -> None:
        """Put boxes in."""
        levels = np.minimum(boxes.bounds / self._step, _LEVELS).astype(int)
        for level in np.unique(levels):
            self._levels[level].append(boxes.take(levels == level))

    def pop(self, most: int) -> Boxes | None:
        """Take out about the lowest, as many as asked for or fewer."""
        taken: list[Boxes] = []
        for level in self._levels:
            while level and most > 0:
                part = level.pop()
                if len(part) > most:
                    level.append(part.take(np.arange(most, len(part))))
                    part = part.take(np.arange(most))
                most -= len(part)
                taken.append(part)
        return joined(taken) if taken else None

    def lowest(self) -> float:
        """The lowest bound within; infinite where nothing is left."""
        first = next((level for level in self._levels if level), [])
        return min((float(part.bounds.min()) for part in first), default=np.inf)

    def parts(self) -> Iterator[Boxes]:
        """All boxes, in heaps."""
        for level in self._levels:
            yield from level
