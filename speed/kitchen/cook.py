"""Cups in the oven and on the bench."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike

from speed.kitchen.air import Air
from speed.kitchen.cups import Cups
from speed.kitchen.draws import Array
from speed.kitchen.rows import put, take
from speed.kitchen.step import step

STEP_S = 2.0
"""Half of it moves a cup's mean by some hundredths of a kelvin."""


def heat(cups: Cups, on_s: ArrayLike, *, step_s: float = STEP_S) -> Cups:
    """After a burst of `on_s` seconds on the dial, one number or one for each cup.

    Each burst begins with the oven's own warm-up, without power. For a cup with 0 no time passes.
    """
    oven, room = cups.ovens.oven, cups.ovens.room
    inside = replace(room, temp_c=room.temp_c + oven.air_rise_k, fan=room.fan * oven.fan)
    return _run(cups, on_s, oven.warm_up_s, inside, step_s)


def rest(cups: Cups, seconds: ArrayLike, *, step_s: float = STEP_S) -> Cups:
    """After standing on the bench; for a cup with 0 seconds no time passes."""
    never = np.full(len(cups), np.inf)
    return _run(cups, seconds, never, cups.ovens.room, step_s)


def _run(cups: Cups, seconds: ArrayLike, from_s: Array, air: Air, step_s: float) -> Cups:
    """Equal steps for each cup, as many as its own time needs, whatever its neighbors do."""
    lasts = np.broadcast_to(np.asarray(seconds, float), (len(cups),))
    if not np.all((lasts >= 0) & np.isfinite(lasts)):
        raise ValueError("a time is negative or no number")
    steps = np.ceil(lasts / step_s).astype(int)
    for done, till in pairwise(np.unique([0, *steps])):
        who = np.flatnonzero(steps >= till)
        part, around = take(cups, who), take(air, who)
        each = lasts[who] / steps[who]
        for k in range(done, till):
            on = np.clip((k + 1) - from_s[who] / each, 0, 1)
            part = step(part, each, on, around)
        cups = put(cups, who, part)
    return cups
