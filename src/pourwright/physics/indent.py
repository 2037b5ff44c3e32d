"""A ball pressed into something soft: force, depth and modulus."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

INCOMPRESSIBLE = 0.5
# Dimitriadis et al., Biophys. J. 82 (2002) 2798, eqs. 12 and 13: a soft incompressible layer that
# sticks to a hard floor, and one that slides on it; powers 1 to 4 of √(R·d)/thickness.
_STUCK = (1.133, 1.283, 0.769, 0.0975)
_SLIDING = (0.884, 0.781, 0.386, 0.0048)


def hertz_modulus_pa(*, force_n: Array | float, radius_m: float, depth_m: Array | float) -> Array:
    """Young's modulus of a thick incompressible body from a ball's depth under a force.

    Good to 5 % while the depth stays below half the ball's radius.
    Source: Hertz (1881), as Johnson, Contact Mechanics (1985), eq. 4.23.
    """
    force, depth = np.asarray(force_n), np.asarray(depth_m)
    return np.asarray(0.75 * (1 - INCOMPRESSIBLE**2) * force / np.sqrt(radius_m) / depth**1.5)


def floor_factor(
    *, radius_m: float, depth_m: Array | float, thick_m: float, stuck: Array | float
) -> Array:
    """How much stiffer a thin layer answers than a thick body; `stuck` 0 sliding to 1 stuck.

    Source: Dimitriadis et al. (2002), eqs. 12 and 13; good to √(R·d) of about the thickness.
    """
    chi = np.sqrt(radius_m * np.asarray(depth_m)) / thick_m
    stiff, slid = (
        1 + sum(c * chi ** (i + 1) for i, c in enumerate(row)) for row in (_STUCK, _SLIDING)
    )
    return np.asarray(slid + (stiff - slid) * stuck)
