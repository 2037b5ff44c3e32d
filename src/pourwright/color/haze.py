"""Additives that are clear themselves and only turn light aside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import unmeasured
from pourwright.color.colorant import Colorant, Stuff, tinting
from pourwright.spectrum.light import BANDS


@dataclass(frozen=True, slots=True, kw_only=True)
class Haze(Colorant):
    """Grains larger than light, so that every color is scattered alike."""

    scatter_mm: float | None = None

    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """Scattering in proportion to grams."""
        scatter = (grams_per_100g * values["scatter_mm"])[:, None]
        return tinting(np.zeros((len(scatter), BANDS)), np.repeat(scatter, BANDS, axis=1))


def scatters(typical: tuple[float, float, float]) -> float | None:
    """The field for the reduced scattering of a gram; bands are estimates."""
    found: float | None = unmeasured(
        "Reduced scattering coefficient per mm of 1 g in 100 g", low=0, high=20, typical=typical,
        label="haze of a gram", measure="pour a 10 mm puck with it and lay it on black",
        logarithmic=True,
    )  # fmt: skip
    return found
