"""How plastisol flows while it gels and fuses: an order of magnitude, no measurement was found."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.source import estimate

FLOW_SOURCE = estimate("liquid 1.5 Pa·s at 25 °C, gel 10 kPa·s, fused melt 2 Pa·s at 170 °C")
EXPANSION_PER_K = 7.5e-4
_LIQUID_PA_S, _LIQUID_K = 1.5, 2200.0
_GEL_LOG = 4.0
_MELT_PA_S, _MELT_K = 2.0, 5500.0


def viscosity_pa_s(temp_c: Array, gelled: Array, fused: Array) -> Array:
    """Apparent viscosity of plastic gelled and fused so far, 0 to 250 °C, 0.01 to 1e5 Pa·s.

    >>> stages = np.array([0, 1, 1]), np.array([0, 0, 1])
    >>> viscosity_pa_s(np.array([25.0, 120.0, 170.0]), *stages).round(1).tolist()
    [1.5, 10000.0, 2.0]
    """
    inverse_k = 1 / (temp_c + 273.15)
    liquid = np.log10(_LIQUID_PA_S) + _LIQUID_K * (inverse_k - 1 / 298.15) / np.log(10)
    melt = np.log10(_MELT_PA_S) + _MELT_K * (inverse_k - 1 / 443.15) / np.log(10)
    log = (1 - gelled) * liquid + gelled * ((1 - fused) * _GEL_LOG + fused * melt)
    return np.asarray(10 ** np.clip(log, -2, 5))
