"""Remelt of one color, as an ingredient."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import unmeasured
from pourwright.color.colorant import Stuff, tinting
from pourwright.color.shown import Shown
from pourwright.color.starter import REFERENCE_MM, starter_absorb
from pourwright.spectrum.light import BANDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Remelt(Shown):
    """Rejects of one color: 100 g of them bring in their color as a 5 mm puck of them shows it."""

    key: ClassVar[str] = "remelt"
    label: ClassVar[str] = "Remelt"
    limit: ClassVar[str] = "remelt yellows with every heat, and that is not in the color entered"

    hiding: float | None = unmeasured(
        "Hiding x: without absorbing, a 5 mm puck of bare remelt would send x/(1 + x) back over "
        "black; 0.05 tints, 2 hides",
        low=0, high=50, typical=(0.03, 0.3, 2.5), label="hiding of the remelt",
        measure="pour a 5 mm puck of it and look at it over black and over white",
        logarithmic=True,
    )  # fmt: skip

    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """Absorption and scattering by its share of the whole."""
        scatter_mm = values["hiding"] / (0.75 * REFERENCE_MM)
        share = (grams_per_100g / (100 + grams_per_100g))[:, None]
        return tinting(
            share * starter_absorb(self.shown(), scatter_mm),
            share * np.broadcast_to(scatter_mm[:, None], (len(scatter_mm), BANDS)),
        )
