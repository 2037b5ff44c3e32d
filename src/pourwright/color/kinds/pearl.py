"""Pearl and highlight powder, taken as a weak scatterer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.draws import Array
from pourwright.color.film.powder import Powder
from pourwright.color.sheen import Sheen
from pourwright.color.tint import Tint, hides
from pourwright.matter.mica import QUALITY


@dataclass(frozen=True, slots=True, kw_only=True)
class Pearl(Tint):
    """A powder of coated mica."""

    key: ClassVar[str] = "pearl"
    label: ClassVar[str] = "Pearl powder"
    limit: ClassVar[str] = "pearl changes with the angle, and that is not in the color"

    hiding: float | None = hides((0.18, 0.6, 1.9))

    def sheen(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Sheen:
        """Silver flakes that mirror its color, by the first draw; their color does not turn."""
        quality = QUALITY.typical * float(values["strength"][0])
        laid = Powder().lays(float(grams_per_100g[0]), quality)
        return Sheen(laid.plates_per_mm, laid.reflect * self.shown())
