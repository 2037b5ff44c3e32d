"""Near a plan: a few cups set free, the others keep their order."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

import numpy as np

from pourwright.plan.day.core import ModelStep
from pourwright.plan.day.day_model import DayModel
from pourwright.plan.day.decided import Key
from pourwright.plan.day.kit_routes import Open, nodes_of
from pourwright.plan.day.load import Load, Plan

SHADES_A_MOLD_IS_WORTH = 10


def freed(load: Load, plan: Plan, size: int, draws: np.random.Generator) -> frozenset[int]:
    """Cups to set free: neighbors in time, any, or those of one's molds and shade."""
    by_time = sorted(range(len(load.jobs)), key=lambda j: (plan.pour[j, 0], j))
    match int(draws.integers(3)):
        case 0:
            first = int(draws.integers(max(1, len(by_time) - size + 1)))
            return frozenset(by_time[first : first + size])
        case 1:
            return frozenset(int(j) for j in draws.permutation(len(by_time))[:size])
        case _:
            return frozenset(_akin(load, int(draws.integers(len(by_time))), draws)[:size])


def _akin(load: Load, one: int, draws: np.random.Generator) -> list[int]:
    """The cups from the one most like a cup to the one least like it, somewhat shaken."""
    noise = draws.random(len(load.jobs))
    molds, shade = _molds(load, one), load.jobs[one].shade

    def apart(j: int) -> float:
        shades = abs(load.jobs[j].shade - shade) / SHADES_A_MOLD_IS_WORTH
        return float(shades - len(molds & _molds(load, j)) + noise[j])

    return sorted(range(len(load.jobs)), key=apart)


def _molds(load: Load, j: int) -> set[int]:
    return {use.mold for wave in load.jobs[j].waves for use in wave.uses}


def arcs_near(load: Load, plan: Plan, free: frozenset[int]) -> Open:
    """Arcs to and from free cups, and those that close the gap where a free cup leaves."""
    stays = [[node for node in nodes if node not in free] for nodes in nodes_of(load, plan)]
    kept = {arc for nodes in stays for arc in pairwise(nodes)}
    return lambda a, b: a in free or b in free or (a, b) in kept


def keep_order(day: DayModel, plan: Plan, free: frozenset[int]) -> None:
    """Cups that are not free start heating and pouring in the plan's order."""
    _keep_order(day, day.decided.heat, plan.heat, free)
    _keep_order(day, day.decided.pour, plan.pour, free)


def _keep_order(
    day: DayModel, steps: Mapping[Key, ModelStep], starts: Mapping[Key, int], free: frozenset[int]
) -> None:
    stay = sorted((key for key in steps if key[0] not in free), key=lambda key: (starts[key], key))
    for before, later in pairwise(stay):
        day.model.cp.add(steps[later].start >= steps[before].start)
