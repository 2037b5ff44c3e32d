"""Absorption and scattering band by band, as pucks have taught them, with what they leave open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import part, parts
from pourwright.base.record import Record
from pourwright.color.film.powder import Powder
from pourwright.spectrum.light import BANDS

MOST_SPREAD = 12
_MOST_PER_MM = 1e4


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread(Record):
    """One independent way in which constants may be off: natural logarithms, one deviation."""

    absorb: tuple[float, ...] = parts("Of absorption", least=BANDS, most=BANDS, low=-20, high=20)
    scatter: tuple[float, ...] = parts("Of scattering", least=BANDS, most=BANDS, low=-20, high=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Constants(Record):
    """Per mm at each of the 31 bands, 400 to 700 nm by 10: for 1 g in 100 g, or as it is."""

    absorb_mm: tuple[float, ...] = parts(
        "Absorption coefficient per mm", least=BANDS, most=BANDS, low=0, high=_MOST_PER_MM
    )
    scatter_mm: tuple[float, ...] = parts(
        "Reduced scattering coefficient per mm", least=BANDS, most=BANDS, low=0, high=_MOST_PER_MM
    )
    spread: tuple[Spread, ...] = parts("What is left open", most=MOST_SPREAD)
    pearl: Powder | None = part("Flakes of a pearl powder, as its pucks taught them", default=None)

    def by_draw(self, values: Mapping[str, Array]) -> tuple[Array, Array]:
        """Absorption and scattering, (draws, 31), for the scores of the spreads."""
        off = [np.zeros((1, BANDS)), np.zeros((1, BANDS))]
        for i, way in enumerate(self.spread):
            score = values[f"score {i}"][:, None]
            off[0] = off[0] + score * np.array(way.absorb)
            off[1] = off[1] + score * np.array(way.scatter)
        return np.array(self.absorb_mm) * np.exp(off[0]), np.array(self.scatter_mm) * np.exp(off[1])
