"""How good a recipe is: near in daylight, and still near under the other lights."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.counter import Counter
from pourwright.spectrum.difference import delta_e00

# What a miss under another light weighs against one in daylight; estimate.
LIGHT_WEIGHT = 0.3


@dataclass(frozen=True, slots=True, eq=False)
class Objective:
    """A target under each light, (lights, 3), with limits on a recipe."""

    labs: Array
    most_colorants: int
    most_steps: int
    most_money: float = np.inf

    def differences(self, counter: Counter, counts: Array) -> Array:
        """CIEDE2000 to the target under each light, (lights, recipes)."""
        return delta_e00(counter.labs(counts), self.labs[:, None, :])

    def scores(self, counter: Counter, counts: Array) -> Array:
        """Daylight's difference plus a share of the mean of the others; lower is better."""
        found = self.differences(counter, counts)
        others = found[1:].mean(axis=0) * LIGHT_WEIGHT if len(found) > 1 else 0.0
        return np.asarray(found[0] + others)

    def allows(self, counter: Counter, counts: Array) -> Array:
        """Whether recipes keep the limits."""
        fits = (counts >= 0).all(axis=1) & (counts <= counter.most).all(axis=1)
        fits &= (counts > 0).sum(axis=1) <= self.most_colorants
        fits &= counts.sum(axis=1) <= self.most_steps
        return np.asarray(fits & (counter.money(counts) <= self.most_money + 1e-9))
