"""The shelf as numbers: what each step of each bottle does to the cup."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.octave import Single
from pourwright.color.viewer import Viewer


@dataclass(frozen=True, slots=True, eq=False)
class Counter:
    """Bottles counted in steps, with what the cup holds already and how it is looked at.

    Coefficients per mm of one step, (bottles, 31); of the cup without them, (31,); the most steps
    and the money of one step, (bottles,).
    """

    step_absorb: Single
    step_scatter: Single
    base_absorb: Single
    base_scatter: Single
    most: Array
    step_money: Array
    viewer: Viewer

    @property
    def bottles(self) -> int:
        """How many bottles there are."""
        return len(self.most)

    def labs(self, counts: Array) -> Array:
        """L*a*b* of counts, (recipes, bottles), under each light: (lights, recipes, 3)."""
        return self.viewer.labs(self.reflectances(counts))

    def reflectances(self, counts: Array) -> Single:
        """Reflectances of counts, (31, recipes)."""
        steps = np.ascontiguousarray(counts.T, dtype=np.float32)
        absorb = self.step_absorb.T @ steps
        scatter = self.step_scatter.T @ steps
        absorb += self.base_absorb[:, None]
        scatter += self.base_scatter[:, None]
        return self.viewer.reflectances(absorb, scatter)

    def money(self, counts: Array) -> Array:
        """What the steps cost, (recipes,)."""
        return np.asarray(counts @ self.step_money)
