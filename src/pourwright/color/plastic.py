"""Raw plastic: slightly hazy, slightly yellow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.draws import Array, Draws
from pourwright.base.field import part, unmeasured
from pourwright.base.record import Record
from pourwright.color.constants import Constants
from pourwright.color.typical import typical
from pourwright.spectrum.light import WAVELENGTHS_NM

_JUDGED_MM = 10.0
# Loss falls off from violet toward red and keeps a quarter of gray; estimate.
_YELLOW = 0.25 + 0.75 * np.exp(-(WAVELENGTHS_NM - 400) / 80)


@dataclass(frozen=True, slots=True, kw_only=True)
class RawPlastic(Record):
    """Cooked plastisol without color; its typical values are estimates."""

    haze_share: float | None = unmeasured(
        "Light sent back by 10 mm of raw plastic over black, 0 to 1", low=0, high=0.95,
        typical=(0.01, 0.04, 0.13), label="haze of the raw plastic",
        measure="pour a 10 mm puck without color and lay it on black", logarithmic=True,
    )  # fmt: skip
    yellow_share: float | None = unmeasured(
        "Violet light (400 nm) lost in 10 mm of raw plastic, 0 to 1", low=0, high=0.95,
        typical=(0.015, 0.055, 0.15), label="yellow of the raw plastic",
        measure="pour a 10 mm puck without color and lay it on white", logarithmic=True,
    )  # fmt: skip
    constants: Constants | None = part(
        "As its own pucks taught it, instead of haze and yellow", default=None
    )

    @property
    def loose(self) -> int:
        """How many scores its constants hang on."""
        return len(self.constants.spread) if self.constants else 0

    def drawn(self, draws: Draws) -> dict[str, Array]:
        """Draws of all that its light hangs on."""
        scores = {f"score {i}": draws.scores(f"plastic score {i}") for i in range(self.loose)}
        return drawn(draws, self, "plastic ") | scores

    def flux(self, values: Mapping[str, Array]) -> tuple[Array, Array]:
        """Absorption and reduced scattering per mm, shape (draws, 31)."""
        return self.constants.by_draw(values) if self.constants else raw_flux(values)

    def typical_flux(self) -> tuple[Array, Array]:
        """The same at its typical values, one draw."""
        scores = {f"score {i}": np.zeros(1) for i in range(self.loose)}
        return self.flux(typical(self) | scores)


def raw_flux(values: Mapping[str, Array]) -> tuple[Array, Array]:
    """Absorption and reduced scattering per mm, shape (draws, 31), of drawn haze and yellow.

    Without absorption a diffuse layer sends x/(1 + x) back, x three quarters of its scattering.
    """
    haze, yellow = values["haze_share"][:, None], values["yellow_share"][:, None]
    absorb = -np.log1p(-yellow) / _JUDGED_MM * _YELLOW
    return absorb, np.broadcast_to(haze / (1 - haze) / (0.75 * _JUDGED_MM), absorb.shape)
