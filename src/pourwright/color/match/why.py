"""Why a shelf cannot make a color, in words, and what would help."""

from __future__ import annotations

import numpy as np

from pourwright.color.match.counter import Counter
from pourwright.color.match.miss import miss_in_words
from pourwright.color.match.objective import Objective
from pourwright.color.match.search import Found

# CIEDE2000 lost to whole steps beyond which they are the reason; estimate.
_COARSE = 2.0
_CURES = (
    ("too dark", "less colorant, a thinner bait or a more opaque white would help"),
    ("too light", "a stronger or darker colorant is missing"),
    ("too dull", "a cleaner colorant is missing"),
)


def why_not(counter: Counter, objective: Objective, found: Found) -> str:
    """What the best recipe without rounding is still too much or too little of, and what helps."""
    if found.scores[0] - found.unrounded_score > _COARSE:
        return (
            "whole drops are too coarse for this cup: make a bigger one, or let the strongest "
            "colorant down 1:10"
        )
    best = np.asarray(counter.labs(found.unrounded[None])[0, 0])
    fault = miss_in_words(objective.labs[0], best)
    cures = [cure for word, cure in _CURES if word in fault]
    return f"the nearest this shelf comes is {'; '.join([fault, *cures])}"
