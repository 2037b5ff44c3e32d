"""How plastisol flows while it gels and fuses: an order of magnitude, no measurement was found."""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate
from pourwright.matter.property import Property

EXPANSION_PER_K = 7.5e-4
MELT_PA_S = Property(
    "viscosity of the fused plastic at 170 °C",
    Band(0.7, 2.0, 6.0),
    estimate("no melt as soft as a bait's was found measured; a factor of three either way"),
    "time one full shot with a stopwatch",
    logarithmic=True,
)
MELT_SLOPE_K = Property(
    "how fast the fused plastic thins with heat",
    Band(4000.0, 8000.0, 12000.0),
    estimate(
        "Arrhenius, 33 kJ/mol as far above a glass step to three times that: crystallites last to "
        "230 °C (Pezzin, Pure Appl. Chem. 26 (1971) 241) and thin away with heat"
    ),
)
LIQUID_PA_S = Property(
    "viscosity of the raw liquid at 25 °C",
    Band(0.5, 1.5, 3.0),
    estimate("thinner than pastes of 60 parts of plasticizer, printed at 7 to 8 Pa·s"),
    "time a steel ball sinking in a tall glass of it",
    logarithmic=True,
)
_LIQUID_K = 2200.0
_GEL_LOG = 4.0
FLOW_SOURCE = estimate(
    f"liquid {LIQUID_PA_S.typical:g} Pa·s at 25 °C, gel {10**_GEL_LOG / 1000:g} kPa·s, fused melt "
    f"{MELT_PA_S.typical:g} Pa·s at 170 °C"
)
_MELT_AT_K = 443.15


def viscosity_pa_s(temp_c: Array, gelled: Array, fused: Array) -> Array:
    """Apparent viscosity of plastic gelled and fused so far, 0 to 250 °C, 0.01 to 1e5 Pa·s.

    >>> stages = np.array([0, 1, 1]), np.array([0, 0, 1])
    >>> viscosity_pa_s(np.array([25.0, 120.0, 170.0]), *stages).round(1).tolist()
    [1.5, 10000.0, 2.0]
    """
    liquid = np.log10(liquid_viscosity_pa_s(temp_c, LIQUID_PA_S.typical))
    melt = np.log10(melt_viscosity_pa_s(temp_c, MELT_PA_S.typical, MELT_SLOPE_K.typical))
    log = (1 - gelled) * liquid + gelled * ((1 - fused) * _GEL_LOG + fused * melt)
    return np.asarray(10 ** np.clip(log, -2, 5))


def melt_viscosity_pa_s(
    temp_c: Array, at_170c_pa_s: Array | float, slope_k: Array | float
) -> Array:
    """Viscosity of fused plastic, 130 to 220 °C, by Arrhenius from the one at 170 °C.

    >>> melt_viscosity_pa_s(np.array([150.0, 170.0]), 2.0, 5500.0).round(2).tolist()
    [3.6, 2.0]
    """
    return np.asarray(at_170c_pa_s * np.exp(slope_k * (1 / (temp_c + 273.15) - 1 / _MELT_AT_K)))


def liquid_viscosity_pa_s(temp_c: Array, at_25c_pa_s: Array | float) -> Array:
    """Viscosity of raw plastisol before it gels, 0 to 60 °C, by Arrhenius from the one at 25 °C.

    >>> liquid_viscosity_pa_s(np.array([25.0, 40.0]), 1.5).round(2).tolist()
    [1.5, 1.05]
    """
    return np.asarray(at_25c_pa_s * np.exp(_LIQUID_K * (1 / (temp_c + 273.15) - 1 / 298.15)))
