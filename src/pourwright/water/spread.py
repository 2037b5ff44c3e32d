"""How the light at depth is spread over directions.

Downwelling radiance is taken as a power of the cosine from straight up; the power follows from
how much longer the light's way is than the depth, which Gershun's law reads off absorption and
decay. A power of 0 is light even over the upper half.
"""

from __future__ import annotations

import numpy as np
from scipy.special import beta

from pourwright.base.draws import Array
from pourwright.base.source import estimate, memory

SOURCES = (
    memory("Gershun, J. Math. Phys. 18 (1939) 51: absorbed light is what the net flow loses"),
    estimate("radiance as a power of the cosine, held to Tyler's lake tables (1958)"),
)
# Scalar over plane light of what comes up: 2.7 to 3.0 in Tyler's lake.
_UP_LONGER = 2.8
# Neither a pencil beam nor flatter than even light.
_LEAST_LONGER, _MOST_LONGER = 1.02, 2.0


def way_longer(absorb_per_m: Array, decay_per_m: Array, reflectance: Array) -> Array:
    """Way of the downwelling light per depth: scalar over plane light, held to 1.02 to 2."""
    scalar = decay_per_m * (1 - reflectance) / absorb_per_m
    return np.clip(scalar - _UP_LONGER * reflectance, _LEAST_LONGER, _MOST_LONGER)


def power_of(longer: Array) -> Array:
    """The power m of the cosine: (m + 2) / (m + 1) is how much longer the way is."""
    return np.asarray((2 - longer) / (longer - 1))


def on_upright(power: Array) -> Array:
    """Downwelling light that falls on an upright face, all around, over that on a level one.

    >>> on_upright(np.array([0.0, 2.0])).round(9).tolist()
    [0.5, 0.25]
    """
    return np.asarray((power + 2) / (2 * np.pi) * beta((power + 1) / 2, 1.5))


def from_above(power: Array) -> Array:
    """Radiance from straight up over downwelling light, 1/sr."""
    return np.asarray((power + 2) / (2 * np.pi))
