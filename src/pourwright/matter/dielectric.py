"""How plastisol takes up microwaves at 2.45 GHz.

No measurement on plastisol was found. The curve is a Cole-Cole relaxation of the plasticizer whose
time follows its viscosity; a vegetable oil (2.5 - 0.15j at 25 °C; Pace et al. 1968, from memory)
is the lossless end. It is an estimate within a factor of two.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import estimate, published
from pourwright.matter.property import Property

OVEN_HZ = 2.45e9
LOSS_RATIO = Property(
    "dielectric loss of the plastic against the usual curve",
    Band(0.4, 1.0, 1.8),
    estimate("between a vegetable oil and an ester of twice the usual loss"),
    logarithmic=True,
)
PLASTICIZER_FLOW_SOURCE = published(
    "Merck Index, diisononyl phthalate: 500, 102, 37 and 6 mm²/s at 0, 20, 37.8 and 100 °C"
)
_STATIC_25, _FAST, _SPREAD = 5.2, 2.35, 0.25
_RELAXES_25_HZ = 0.25e9


def plasticizer_flow_mm2_s(temp_c: Array) -> Array:
    """Kinematic viscosity of a phthalate plasticizer, 0 to 200 °C, mm²/s.

    Vogel's form through four published points; see `PLASTICIZER_FLOW_SOURCE`.
    """
    return np.asarray(np.exp(-1.61415 + 601.054 / (temp_c + 76.718)))


def permittivity(temp_c: Array) -> tuple[Array, Array]:
    """Real part and loss of plastisol at 2.45 GHz, 0 to 250 °C (estimate).

    >>> real, loss = permittivity(np.array([25.0, 100.0, 170.0]))
    >>> real.round(1).tolist(), loss.round(2).tolist()
    ([2.6, 3.8, 4.0], [0.41, 0.73, 0.41])
    """
    kelvin = temp_c + 273.15
    thinner = plasticizer_flow_mm2_s(np.asarray(25.0)) / plasticizer_flow_mm2_s(temp_c)
    relaxes = _RELAXES_25_HZ * thinner * kelvin / 298.15
    step = (_STATIC_25 - _FAST) * 298.15 / kelvin
    moved = _FAST + step / (1 + (1j * OVEN_HZ / relaxes) ** (1 - _SPREAD))
    return np.asarray(moved.real), np.asarray(-moved.imag)
