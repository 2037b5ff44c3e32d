"""How plastisol gels and fuses: first-order rates about a reference temperature.

No measurement at 300 parts of plasticizer was found; the references are estimates held against
stiffer plastisols: cohesive film from about 75 to 85 °C (Nakajima and co-workers), gelling
temperatures of 72 to 125 °C at 50 parts by sort of plasticizer (Wilson, 1995), processing at 160
to 195 °C (Garcia and Marcilla, 1998). The heat of melting the resin's crystallites is under 2 J
to a gram of plastisol, less than 1 K, and is left out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate, published
from pourwright.matter.property import Property

GAS_J_MOLK = 8.314462618

GEL_ONSET_C = Property(
    "temperature at which the plastic starts to gel",
    Band(70.0, 75.0, 95.0),
    published("Nakajima et al., J. Appl. Polym. Sci.: film without tack at about 75 °C"),
    "stir while heating and note the reading at which it thickens",
)


@dataclass(frozen=True, slots=True)
class Rate:
    """A first-order rate with its reference temperature and activation energy."""

    reference_c: float
    per_s: float
    energy_j_mol: float

    def at(self, inverse_k: Array) -> Array:
        """Rate at one over the absolute temperature, 1/s (Arrhenius)."""
        energy_k = self.energy_j_mol / GAS_J_MOLK
        start = math.log(self.per_s) + energy_k / (self.reference_c + 273.15)
        return np.asarray(np.exp(start - energy_k * inverse_k))


GEL = Rate(reference_c=95.0, per_s=1 / 40, energy_j_mol=95e3)
FUSE = Rate(reference_c=160.0, per_s=1 / 40, energy_j_mol=190e3)
GELATION_SOURCE = estimate("gel 95 °C, 95 kJ/mol; fusion 160 °C, 190 kJ/mol; both 1/40 per second")
