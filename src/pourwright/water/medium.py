"""Water with what is in it: absorption and scattering by band."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import WAVELENGTHS_NM
from pourwright.water import algae, pure
from pourwright.water.content import TYPICAL_TRAITS, Content, Traits


@dataclass(frozen=True, slots=True)
class Medium:
    """Absorption, scattering and backscattering, 1/m; the last axis holds the 31 bands."""

    absorb_per_m: Array
    scatter_per_m: Array
    back_per_m: Array

    @property
    def beam_per_m(self) -> Array:
        """What a straight beam loses: absorption and all scattering."""
        return np.asarray(self.absorb_per_m + self.scatter_per_m)


def medium_of(content: Content, traits: Traits = TYPICAL_TRAITS) -> Medium:
    """Water with these contents; the shape of the contents, then the bands.

    Absorption: water, algae, stain exp(-S (l - 440)), silt 0.041 exp(-0.0123 (l - 443)) per g/m³.
    Scattering: water, algae A chl^0.62 (550 / l), silt B (555 / l)^0.3.
    Source: the tables and constants of `pure`, `algae` and `content`.
    """
    nm = WAVELENGTHS_NM
    silt = content.mineral_g_m3[..., None]
    stain = content.stain_per_m[..., None] * np.exp(-traits.stain_slope[..., None] * (nm - 440))
    absorb = (
        pure.ABSORB_PER_M
        + algae.absorb_per_m(content.chlorophyll_mg_m3)
        + stain
        + 0.041 * silt * np.exp(-0.0123 * (nm - 443))
    )
    cells = traits.algae_scatter * content.chlorophyll_mg_m3**0.62
    grains = (
        cells[..., None] * (550 / nm) + traits.silt_scatter[..., None] * silt * (555 / nm) ** 0.3
    )
    back = pure.SCATTER_PER_M / 2 + traits.back_share[..., None] * grains
    return Medium(absorb, pure.SCATTER_PER_M + grains, back)
