"""What is in the water: algae, tea stain and mineral silt, and how each meets light."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.source import estimate, memory, published
from pourwright.matter.property import Property

NAMES = ("chlorophyll_mg_m3", "stain_per_m", "mineral_g_m3")


@dataclass(frozen=True, slots=True)
class Content:
    """Chlorophyll, absorption of dissolved stain at 440 nm, and mineral silt; one shape all."""

    chlorophyll_mg_m3: Array
    stain_per_m: Array
    mineral_g_m3: Array

    def scaled(self, factor: Array, held: frozenset[str]) -> Content:
        """All but the held ones times a factor."""
        return Content(*(
            getattr(self, name) * (1.0 if name in held else factor) for name in NAMES
        ))  # fmt: skip


SILT_SCATTER = Property(
    "how much light a gram of silt scatters (m²/g)",
    Band(0.35, 0.5, 1.0),
    published("Babin et al., Limnol. Oceanogr. 48 (2003) 843: 0.5 near shores, 1.0 offshore"),
    logarithmic=True,
)
ALGAE_SCATTER = Property(
    "how much light algae scatter (1/m at 1 mg/m³)",
    Band(0.12, 0.30, 0.45),
    memory("Gordon and Morel (1983), 0.30 chl^0.62 with its spread"),
    logarithmic=True,
)
BACK_SHARE = Property(
    "share of the scattered light that the drifting grains throw back",
    Band(0.013, 0.0183, 0.044),
    memory("Mobley, Light and Water (1994): Petzold's average; eight stations 0.013 to 0.044"),
    logarithmic=True,
)
STAIN_SLOPE = Property(
    "how fast the stain's absorption falls toward red (1/nm)",
    Band(0.011, 0.014, 0.019),
    memory("Bricaud, Morel and Prieur, Limnol. Oceanogr. 26 (1981) 43: 0.014; spread an estimate"),
)
SILT_SOURCE = memory("Babin et al., J. Geophys. Res. 108 (2003) 3211: silt absorbs 0.041 m²/g")
SPECTRA_SOURCE = estimate("algae scatter as 1/wavelength, silt as wavelength to the -0.3")


@dataclass(frozen=True, slots=True)
class Traits:
    """How strongly contents meet light; each of the contents' shape."""

    silt_scatter: Array
    algae_scatter: Array
    back_share: Array
    stain_slope: Array


_TRAITS = (SILT_SCATTER, ALGAE_SCATTER, BACK_SHARE, STAIN_SLOPE)
TYPICAL_TRAITS = Traits(*(np.asarray(p.typical) for p in _TRAITS))


def drawn_traits(draws: Draws) -> Traits:
    """Draws of all of them."""
    return Traits(*(p.drawn(draws) for p in _TRAITS))
