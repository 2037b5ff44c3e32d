"""How long a hot cup that just stands stays pourable."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import cup as cups
from pourwright.heat.standing import Held

# Colder than this the plastic no longer fills a mold: common practice, no source.
LEAST_POUR_C = 155.0
_STEP_S, _LONGEST_S = 10.0, 1800.0


def pourable_s(now: Held, least_c: float = LEAST_POUR_C) -> Array:
    """Seconds until the mean, left alone, falls to `least_c`; 0 below it, half an hour at most."""
    state, at = now.state, 0.0
    found = np.where(state.mean_c <= least_c, 0.0, _LONGEST_S)
    while at < _LONGEST_S and (found[state.mean_c > least_c] >= _LONGEST_S).any():
        after = cups.advance(state, now.cup, now.oven, _STEP_S, on=False, step_s=_STEP_S)
        crossed = (after.mean_c <= least_c) & (state.mean_c > least_c)
        part = (state.mean_c - least_c) / np.maximum(state.mean_c - after.mean_c, 1e-9)
        found = np.where(crossed, at + _STEP_S * part, found)
        state, at = after, at + _STEP_S
    return found
