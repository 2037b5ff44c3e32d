"""A colorant whose constants were read off pucks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.draws import Array
from pourwright.base.field import part
from pourwright.color.colorant import Colorant, Stuff, tinting
from pourwright.color.constants import Constants
from pourwright.color.sheen import Sheen
from pourwright.color.typical import typical


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured(Colorant):
    """Whatever was measured: drops, powder, salt or remelt."""

    key: ClassVar[str] = "measured"
    label: ClassVar[str] = "Measured by pucks"
    measured: ClassVar[bool] = True

    constants: Constants = part("For 1 g in 100 g of plastic")

    @property
    def loose(self) -> int:
        """One score for each spread."""
        return len(self.constants.spread)

    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """Absorption and scattering in proportion to grams."""
        absorb, scatter = self.constants.by_draw(values)
        dose = grams_per_100g[:, None]
        return tinting(dose * absorb, dose * scatter)

    def sheen(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Sheen | None:  # noqa: ARG002 - its pucks are known
        """The flakes of a pearl powder, by the first amount."""
        flakes = self.constants.pearl
        if flakes is None:
            return None
        return flakes.lays(float(grams_per_100g[0]), float(typical(flakes)["quality"][0]))
