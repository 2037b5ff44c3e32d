"""Proof that no recipe within the limits is better: branch and bound over boxes of steps.

A box holds some bottles, each between two numbers of steps. What cannot hold a better recipe is
dropped or cut off, the rest is taken apart until few recipes are left, and those are all tried.
It speaks of the model, not of the pour. Under further lights the bound is daylight's alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.color.match.boxed import Colors
from pourwright.color.match.counter import Counter
from pourwright.color.match.frontier import Boxes, Frontier, joined
from pourwright.color.match.narrow import (
    contracted,
    every_recipe,
    every_set,
    halves,
    within_limits,
)
from pourwright.color.match.nearest import least
from pourwright.color.match.objective import Objective

MOST_BOXES = 3_000_000
_BATCH = 4096
# Trying so many recipes costs about what looking at their box once more does.
_FEW = 8
# A box that was cut down to this share is looked at again before it is taken apart.
_CUT = 0.6


@dataclass(frozen=True, slots=True, eq=False)
class Proof:
    """What is certain of the best score within the limits.

    `counts` is None where nothing better than what was known turned up; no recipe scores below
    `lower_bound`, and `closed` says that none scores below `score`.
    """

    counts: Array | None
    score: float
    lower_bound: float
    boxes: int
    closed: bool


def prove(
    counter: Counter,
    objective: Objective,
    best: float,
    *,
    progress: Callable[[float], None] | None = None,
    most_boxes: int = MOST_BOXES,
) -> Proof:
    """The best score, at most `best`, and a bound below it that holds even when stopped early.

    `progress` hears a share from 0 to 1 now and then, and may raise to stop the work; after
    `most_boxes` boxes the work stops by itself.
    Raises: NoAnswer where flakes lie in the mixtures.
    """
    search = _Search(counter, objective, best)
    while search.boxes < most_boxes and search.step():
        if progress is not None:
            progress(max(search.share(), search.boxes / most_boxes))
    return search.proof()


class _Search:
    def __init__(self, counter: Counter, objective: Objective, best: float) -> None:
        if counter.viewer.flaked is not None:
            raise NoAnswer("no proof where flakes lie in the mixture")
        self._counter, self._objective = counter, objective
        most = np.minimum(counter.most, objective.most_steps)
        self._money = np.append(counter.step_money, 0.0)
        self._colors = Colors(counter, most, counter.viewer.thick_mm, objective.labs[0])
        self._best = best
        self._counts: Array | None = None
        self._frontier = Frontier(best)
        whole = every_set(most, objective.most_colorants)
        self._frontier.add(whole)
        self._every = float(whole.recipes().sum())
        self._left = self._every
        self.boxes = 0

    def step(self) -> bool:
        """Look into some boxes; whether there were any."""
        boxes = self._frontier.pop(_BATCH)
        if boxes is None:
            return False
        self.boxes += len(boxes)
        self._left -= float(boxes.recipes().sum())
        live = self._narrowed(boxes)
        if live is not None:
            self._left += float(live.recipes().sum())
            self._frontier.add(live)
        return True

    def share(self) -> float:
        """How far the work is, by the recipes left; the fourth root makes it run evenly."""
        return float(1 - (max(self._left, 0) / self._every) ** 0.25)

    def proof(self) -> Proof:
        """What is certain by now."""
        low = min(self._best, self._frontier.lowest())
        return Proof(self._counts, self._best, low, self.boxes, low >= self._best)

    def _narrowed(self, boxes: Boxes) -> Boxes | None:
        limits = self._objective
        boxes, fits = within_limits(boxes, limits.most_steps, limits.most_money, self._money)
        boxes = boxes.take(fits & (boxes.bounds < self._best))
        if not len(boxes):
            return None
        sheaf, ends = self._colors.of(boxes)
        bounds, misses = least(sheaf, limits.labs[0], ends)
        kept = contracted(boxes, misses, self._best)
        cut = Boxes(boxes.bottles, kept.low, kept.high, np.maximum(boxes.bounds, bounds))
        live = (cut.bounds < self._best) & (kept.low <= kept.high).all(axis=1)
        effect = np.linalg.norm(misses.slopes, axis=1)
        return self._apart(cut.take(live), boxes.recipes()[live], effect[live])

    def _apart(self, boxes: Boxes, before: Array, effect: Array) -> Boxes:
        size = boxes.recipes()
        few = size <= _FEW
        self._try(boxes.take(few))
        again = ~few & (size < _CUT * before)
        split = ~few & ~again
        return joined([boxes.take(again), halves(boxes.take(split), effect[split])])

    def _try(self, boxes: Boxes) -> None:
        counts = every_recipe(boxes, self._counter.bottles)
        counts = counts[self._objective.allows(self._counter, counts)]
        if not len(counts):
            return
        scores = self._objective.scores(self._counter, counts)
        first = int(scores.argmin())
        if scores[first] < self._best:
            self._best, self._counts = float(scores[first]), counts[first]
