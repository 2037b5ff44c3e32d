"""How fast daylight fails with depth, and how much of it the water sends back."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.source import memory
from pourwright.water.medium import Medium

SOURCE = memory("Kirk, Limnol. Oceanogr. 29 (1984) 350: Kd and R by the sun's height")
# Scattering over absorption that his simulated waters spanned; from memory.
MOST_SCATTER_RATIO = 30.0


def down_decay_per_m(medium: Medium, cosine: float) -> Array:
    """Decay of downwelling light, Kd.

    sqrt(a² + (0.425 mu - 0.19) a b) / mu, mu the mean cosine under the surface; 0.66 to 1.
    """
    a, b = medium.absorb_per_m, medium.scatter_per_m
    return np.asarray(np.sqrt(a**2 + (0.425 * cosine - 0.19) * a * b) / cosine)


def reflectance(medium: Medium, cosine: float) -> Array:
    """Upwelling over downwelling light, R.

    (0.975 - 0.629 mu) bb / (a + bb): Kirk's bb / a, held below one as the water turns milky.
    """
    back = medium.back_per_m
    return np.asarray((0.975 - 0.629 * cosine) * back / (medium.absorb_per_m + back))
