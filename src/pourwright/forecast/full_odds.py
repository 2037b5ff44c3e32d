"""The odds of a full shot alone, without what would help: for comparing many pushes."""

from __future__ import annotations

import functools

from pourwright.base.band import Band
from pourwright.base.draws import Draws
from pourwright.fill.chance import chance
from pourwright.fill.fill_input import FillInput
from pourwright.fill.outcome import outcome
from pourwright.fill.setup import one_push


@functools.lru_cache(maxsize=256)
def full_odds(inputs: FillInput) -> Band:
    """Share of the draws that fill chain and branches, as `fill.odds` counts them."""
    return chance(outcome(one_push(Draws(seed=inputs.seed), inputs)).full)
