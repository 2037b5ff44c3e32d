"""The best timetable by constraint search, from one that is known.

A small day is searched at once, up to the proof. A larger one goes in rounds: a few cups are set
free, the others keep their order, and the solver looks for something better nearby.
Source: Shaw (1998), Using constraint programming and local search methods to solve vehicle
routing problems, CP98.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from pourwright.plan.day.alike import in_order
from pourwright.plan.day.bound import least_points
from pourwright.plan.day.day_model import DayModel
from pourwright.plan.day.load import Load, Plan, opened, points
from pourwright.plan.day.near import arcs_near, freed, keep_order
from pourwright.plan.day.tighten import tightened

MOST_AT_ONCE = 12
FIRST_FREE, LEAST_FREE = 7, 3
ROUND_EFFORT, ROUND_COST = 0.05, 0.02
# Deterministic seconds of the solver in a second of an ordinary machine, measured.
PER_SECOND = 0.3

Better = Callable[[Plan], None]
Share = Callable[[float], None]


@dataclass(frozen=True, slots=True)
class Searched:
    """The best plan found, what none can go below, whether that was proven or cut short."""

    plan: Plan
    bound: float
    proven: bool
    stalled: bool


def searched(
    load: Load,
    known: Plan,
    *,
    effort: float,
    seed: int,
    better: Better | None = None,
    at: Share | None = None,
) -> Searched:
    """The best plan that the effort finds; never worse than the one known.

    After every round `at` hears the share of the effort that is spent; what it raises ends the
    search.
    """
    effort *= PER_SECOND
    latest = max(opened(load, known, j) for j in range(len(load.jobs)))
    if len(load.jobs) <= MOST_AT_ONCE:
        return _whole(DayModel(load, latest), known, effort=effort, seed=seed, better=better)
    rounds = _Rounds(load, latest, known, seed, better)
    rounds.run(effort, at or _unheard)
    proven = points(load, rounds.best) <= least_points(load)
    return Searched(rounds.best, least_points(load), proven, rounds.stalled)


def _unheard(_share: float) -> None:
    """Nobody asks how far the search is."""


def _whole(
    day: DayModel, known: Plan, *, effort: float, seed: int, better: Better | None
) -> Searched:
    """The whole day at once."""
    known = in_order(day.load, known)
    day.keep_list_order()
    day.hint(known)

    def told(value: Callable[[Any], int]) -> None:
        if better is not None:
            better(tightened(day.load, day.plan(value)))

    found = day.model.least(day.cost, effort=effort, seed=seed, better=told if better else None)
    plan = known if found.values is None else tightened(day.load, day.plan(found.values))
    plan = min(plan, known, key=lambda one: points(day.load, one))
    # The bound is a whole number of points that the solver tells as a float.
    proven = found.proven and points(day.load, plan) <= round(found.bound)
    return Searched(plan, found.bound, proven, found.stalled)


class _Rounds:
    """Rounds near the best plan so far."""

    def __init__(
        self, load: Load, latest: int, known: Plan, seed: int, better: Better | None
    ) -> None:
        self.load, self.latest, self.best, self.better = load, latest, known, better
        self.seed = seed
        self.draws = np.random.Generator(np.random.PCG64(seed))
        self.size = float(FIRST_FREE)
        self.spent, self.stalled = 0.0, False

    def run(self, effort: float, at: Share) -> None:
        while self.spent < effort and points(self.load, self.best) > least_points(self.load):
            self.round()
            at(min(1.0, self.spent / effort))

    def round(self) -> None:
        free = freed(self.load, self.best, round(self.size), self.draws)
        day = DayModel(self.load, self.latest, arcs_near(self.load, self.best, free))
        keep_order(day, self.best, free)
        day.hint(self.best)
        day.model.cp.add(day.cost < points(self.load, self.best))
        found = day.model.least(day.cost, effort=ROUND_EFFORT, seed=self.seed, brief=True)
        self.spent += found.effort + ROUND_COST
        self.stalled |= found.stalled
        grown = self.size * (1.1 if found.proven else 0.9)
        self.size = min(max(grown, LEAST_FREE), len(self.load.jobs))
        if found.values is not None:
            self.best = tightened(self.load, day.plan(found.values))
            if self.better is not None:
                self.better(self.best)
