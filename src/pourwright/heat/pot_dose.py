"""What plastics of different pasts bring into one pot."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pourwright.base.draws import Array


def pot_dose(parts: Sequence[tuple[float, Array]]) -> Array:
    """Share of the heat budget a pot has used, from grams and share of each part, by mass.

    Stabilizer left over in one part serves the others once they are stirred together. A pot
    without plastic has used nothing.
    """
    total = sum(grams for grams, _ in parts)
    if total <= 0:
        return np.zeros_like(parts[0][1]) if parts else np.zeros(1)
    return np.asarray(sum(grams * dose for grams, dose in parts) / total)


def fresh_to_reach(pot_g: float, dose: Array, wanted: float) -> Array:
    """Grams of fresh plastic that bring a pot down to a share of its budget; 0 if it is there."""
    return np.asarray(pot_g * np.maximum(dose / wanted - 1, 0.0))
