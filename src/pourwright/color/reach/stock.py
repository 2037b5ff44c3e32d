"""The bottles that count, as numbers."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.counter import Counter
from pourwright.color.match.steps import Bench, counter_of
from pourwright.color.reach.question import ReachInput
from pourwright.spectrum.light import WEIGHTS, Light

Places = NDArray[np.intp]
_AT_ONCE = 16_384


@dataclass(frozen=True, slots=True, eq=False)
class Stock:
    """Bottles with which recipes are made: those of the shelf first, then the candidates.

    The counter holds one bottle more, the last, of which nothing can be taken: it fills up
    handfuls of fewer bottles.
    """

    bottles: tuple[Bottle, ...]
    on_shelf: int
    counter: Counter
    most_colorants: int
    most_steps: int
    notes: tuple[str, ...]

    def labs(self, counts: Array) -> Array:
        """Daylight L*a*b*, (recipes, 3), of counts, (recipes, bottles + 1)."""
        pieces = range(0, len(counts), _AT_ONCE)
        return np.concatenate(
            [np.zeros((0, 3)), *(self.counter.labs(counts[i : i + _AT_ONCE])[0] for i in pieces)]
        )

    def labs_of(self, handfuls: Places, steps: Array) -> Array:
        """The same of steps, (recipes, handful), of the bottles at those places."""
        return self.labs(self.counts(handfuls, steps))

    def counts(self, handfuls: Places, steps: Array) -> Array:
        """Counts, (recipes, bottles + 1), of steps of the bottles at those places."""
        found = np.zeros((len(handfuls), self.counter.bottles))
        np.put_along_axis(found, handfuls, steps, axis=1)
        return found


def stock_of(inputs: ReachInput) -> Stock:
    """The shelf and the candidates without what no mixture counts on.

    Raises: NoAnswer where no bottle of the shelf is left.
    """
    shelf, shelf_notes = _usable(inputs, inputs.shelf)
    candidates, candidate_notes = _usable(inputs, inputs.candidates)
    notes = (*shelf_notes, *candidate_notes)
    if not shelf:
        raise NoAnswer(f"no bottle of the shelf can be counted on: {'; '.join(notes)}")
    bottles = (*shelf, *candidates)
    counter = _with_nothing(counter_of(bottles, inputs.bench(), [WEIGHTS[Light.D65]]))
    return Stock(bottles, len(shelf), counter, inputs.most_colorants, inputs.most_drops, notes)


def _usable(inputs: ReachInput, bottles: Iterable[Bottle]) -> tuple[list[Bottle], list[str]]:
    kept, notes = [], []
    for bottle in bottles:
        if not bottle.colorant.mixes:
            notes.append(f"{bottle.name} is left out: no forecast of a mixture holds for it")
        elif not _most(inputs.bench(), bottle):
            notes.append(f"{bottle.name} is left out: less than one step of it is left")
        else:
            kept.append(bottle)
    return kept, notes


def _most(bench: Bench, bottle: Bottle) -> int:
    return bottle.most_steps(bench.step_g(bottle), bench.most_steps)


def _with_nothing(counter: Counter) -> Counter:
    return dataclasses.replace(
        counter,
        step_absorb=np.pad(counter.step_absorb, ((0, 1), (0, 0))),
        step_scatter=np.pad(counter.step_scatter, ((0, 1), (0, 0))),
        most=np.append(counter.most, 0),
        step_money=np.append(counter.step_money, 0),
    )
