"""Fresh and salt water."""

from __future__ import annotations

import math

from pourwright.base.errors import BadInput

# Mean between 20 and 40 °C at one atmosphere, J/(kg·K). IAPWS-95 gives 4184.1 at 20 °C.
HEAT_CAPACITY_J_KGK = 4182.0


def density_kg_m3(temp_c: float, salinity: float = 0.0) -> float:
    """Density of water at one atmosphere, 0 to 40 °C, practical salinity 0 to 42.

    Source: UNESCO Technical Papers in Marine Science 36 (1981), one-atmosphere equation of state.

    >>> round(density_kg_m3(5.0), 5), round(density_kg_m3(5.0, 35.0), 5)
    (999.96675, 1027.67547)
    """
    if not 0 <= temp_c <= 40:
        raise BadInput("water_c", temp_c, "must lie between 0 and 40 °C")
    if not 0 <= salinity <= 42:
        raise BadInput("salinity", salinity, "must lie between 0 and 42")
    t, s = temp_c, salinity
    pure = (
        999.842594 + 6.793952e-2 * t - 9.095290e-3 * t**2 + 1.001685e-4 * t**3
        - 1.120083e-6 * t**4 + 6.536332e-9 * t**5
    )  # fmt: skip
    a = 8.24493e-1 - 4.0899e-3 * t + 7.6438e-5 * t**2 - 8.2467e-7 * t**3 + 5.3875e-9 * t**4
    b = -5.72466e-3 + 1.0227e-4 * t - 1.6546e-6 * t**2
    return pure + a * s + b * s * math.sqrt(s) + 4.8314e-4 * s**2
