"""The four rules, each tried as it is, then from many starts with the cups' order shaken."""

from __future__ import annotations

import numpy as np

from pourwright.plan.day.greedy import Rule, greedy
from pourwright.plan.day.load import Load, Plan, points
from pourwright.plan.day.tighten import tightened

SHAKES = (0.3, 1.0, 3.0)


def by_rules(load: Load) -> dict[Rule, Plan]:
    """A timetable by each rule."""
    return {rule: tightened(load, greedy(load, rule)) for rule in Rule}


def shaken(load: Load, best: Plan, *, starts: int, seed: int) -> Plan:
    """The best timetable of a number of shaken starts, or the one given."""
    draws = np.random.Generator(np.random.PCG64(seed))
    for start in range(starts):
        rule = list(Rule)[start % len(Rule)]
        shake = SHAKES[start // len(Rule) % len(SHAKES)]
        jig = tuple(float(d) for d in draws.random(len(load.jobs)) * shake)
        plan = tightened(load, greedy(load, rule, jig))
        if points(load, plan) < points(load, best):
            best = plan
    return best
