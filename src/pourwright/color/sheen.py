"""What plates that lie along the skin mirror: light whose color turns with the angle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array

SHEEN_ANGLES_RAD = np.linspace(0, np.deg2rad(60), 13)


@dataclass(frozen=True, slots=True)
class Sheen:
    """Mirror plates lying roughly along the skin of a bait.

    `plates_per_mm` is how many a straight way inward meets per mm of depth. `reflect` is what one
    plate sends back, 0..1, at `SHEEN_ANGLES_RAD` of incidence inside the plastic, shape (13, 31).
    """

    plates_per_mm: float
    reflect: Array
