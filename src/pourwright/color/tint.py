"""Colorants that spread through the plastic: they absorb, and they scatter more or less."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import unmeasured
from pourwright.color.colorant import Stuff, tinting
from pourwright.color.shown import Shown
from pourwright.color.starter import REFERENCE_G, REFERENCE_MM, starter_absorb
from pourwright.spectrum.light import BANDS

PUCK = "pour a 5 mm puck of 0.2 g (about 5 drops) in 100 g"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tint(Shown):
    """A colorant spread evenly through the plastic."""

    strength: float | None = unmeasured(
        "Strength: 1 shows its color in a 5 mm puck of 0.2 g in 100 g", low=0.02, high=20,
        typical=(0.4, 1, 2.5), label="strength", measure=f"{PUCK} and compare its color",
        logarithmic=True,
    )  # fmt: skip
    hiding: float | None = None

    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """Absorption and scattering in proportion to grams and strength."""
        scatter_mm = values["hiding"] / (0.75 * REFERENCE_MM)
        dose = (grams_per_100g * values["strength"] / REFERENCE_G)[:, None]
        return tinting(
            dose * starter_absorb(self.shown(), scatter_mm),
            dose * np.broadcast_to(scatter_mm[:, None], (len(scatter_mm), BANDS)),
        )


def hides(typical: tuple[float, float, float]) -> float | None:
    """The field for the hiding of the reference puck; bands are estimates.

    Without absorption such a puck sends x/(1 + x) back over black: 0.01 tints, 2 hides. This x is
    three quarters of reduced scattering times thickness.
    """
    found: float | None = unmeasured(
        "Hiding x: without absorbing, its 5 mm puck of 0.2 g in 100 g sends x/(1 + x) back over "
        "black; 0.01 tints, 2 hides",
        low=0, high=50, typical=typical, label="hiding",
        measure=f"{PUCK} and look at it over black and over white", logarithmic=True,
    )  # fmt: skip
    return found
