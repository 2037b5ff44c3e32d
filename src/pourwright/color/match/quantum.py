"""What helps where the drop is too coarse: a bigger cup, or a strong colorant let down 1:10."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.color.dose import Measured
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.counter import Counter
from pourwright.color.match.objective import Objective
from pourwright.color.match.search import Found, search
from pourwright.color.match.steps import Bench

# Worth a word: this much of CIEDE2000 is lost to whole drops.
_HURTS = 0.7
_BIGGER = 2.0
_LET_DOWN = 10.0
_MOST_STEPS = 400


@dataclass(frozen=True, slots=True)
class Ease:
    """One way to come nearer."""

    words: str = out("What to do")
    score: float = out("What recipes are ranked by, then")


def eased(
    shelf: Sequence[Bottle], bench: Bench, objective: Objective, found: Found, counter: Counter
) -> tuple[Ease, ...]:
    """Ways that come nearer by half of what whole steps cost, best first; often none."""
    lost = float(found.scores[0]) - found.unrounded_score
    if lost < _HURTS:
        return ()
    ways = [_bigger_cup(counter, bench, objective), *_letdowns(shelf, counter, objective, found)]
    better = [w for w in ways if w.score < found.scores[0] - lost / 2]
    return tuple(sorted(better, key=lambda w: w.score))


def _bigger_cup(counter: Counter, bench: Bench, objective: Objective) -> Ease:
    words = f"make {bench.plastic_g * _BIGGER:g} g instead of {bench.plastic_g:g} g"
    finer = _finer(counter, np.ones(counter.bottles), _BIGGER)
    return Ease(words, _score(finer, objective, _BIGGER))


def _letdowns(
    shelf: Sequence[Bottle], counter: Counter, objective: Objective, found: Found
) -> list[Ease]:
    """Each colorant of the best recipes of which only a few drops are wanted."""
    wanted = np.flatnonzero((found.unrounded > 0.05) & (found.unrounded < 6))
    ways = []
    for j in map(int, wanted):
        if shelf[j].measure is not Measured.DROPS:
            continue
        only = (np.arange(counter.bottles) == j).astype(float)
        words = f"let {shelf[j].name} down 1:10 in clear plastic and count ten times the drops"
        ways.append(Ease(words, _score(_finer(counter, only, _LET_DOWN), objective, _LET_DOWN)))
    return ways


def _finer(counter: Counter, which: Array, by: float) -> Counter:
    share = np.where(which > 0, 1 / by, 1.0).astype(np.float32)[:, None]
    return dataclasses.replace(
        counter,
        step_absorb=counter.step_absorb * share,
        step_scatter=counter.step_scatter * share,
        step_money=counter.step_money * share[:, 0],
        most=np.where(which > 0, np.minimum(counter.most * by, _MOST_STEPS), counter.most),
    )


def _score(counter: Counter, objective: Objective, by: float) -> float:
    roomier = dataclasses.replace(
        objective, most_steps=round(min(objective.most_steps * by, _MOST_STEPS))
    )
    return float(search(counter, roomier).scores[0])
