"""The time grid of a day: the longest step that meets every time exactly, so nothing is rounded."""

from __future__ import annotations

import math

from pourwright.plan.day.day_input import DayInput


def grid_s(inputs: DayInput) -> int:
    """Seconds in a step of the grid."""
    times = [inputs.hold_s, inputs.rewarm_s, inputs.clean_s, inputs.now_s]
    times += [mold.cool_s for mold in inputs.molds]
    for cup in inputs.cups:
        times += [cup.heat_s, 60 * (cup.due_min or 0), *(fill.pour_s for fill in cup.fills)]
    for wave in (wave for begun in inputs.begun for wave in begun.waves):
        ends = (wave.heat_end_s, wave.pour_end_s)
        times += [end for end in ends if end is not None]
    times += [clean.end_s for clean in inputs.cleaned]
    return math.gcd(*times)
