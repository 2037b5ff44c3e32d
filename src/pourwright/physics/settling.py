"""Slow motion of small things through thick liquids: balls, bubbles and flakes (Re below 1)."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.physics.convection import GRAVITY_M_S2

# What stands before viscosity times speed: times diameter² under a ball (F = 3π·η·d·U), times
# radius for a thin disk. Stokes (1851); Hadamard (1911) and Rybczynski (1911) for a bubble whose
# skin slips; Happel and Brenner, Low Reynolds Number Hydrodynamics (1983), eqs. 5-11.23 and
# 5-11.24 for the disk.
RIGID_BALL, CLEAN_BUBBLE = 18.0, 12.0
DISK_BROADSIDE, DISK_EDGEWISE = 16.0, 32 / 3
# Mean of the mobilities along the three axes: what a disk that tumbles at random drifts by.
DISK_AT_RANDOM = 3 / (1 / DISK_BROADSIDE + 2 / DISK_EDGEWISE)


def ball_speed_m_s(
    *,
    diameter_m: Array | float,
    lighter_kg_m3: Array | float,
    viscosity_pa_s: Array | float,
    skin: Array | float = RIGID_BALL,
) -> Array:
    """Speed of a ball or bubble that is so much lighter than its liquid, upward positive.

    `skin` runs from CLEAN_BUBBLE to RIGID_BALL. Valid for Reynolds numbers below 1.
    Source: Stokes (1851); Hadamard (1911) for the skin that slips.
    """
    lift = np.asarray(diameter_m) ** 2 * lighter_kg_m3 * GRAVITY_M_S2
    return np.asarray(lift / (skin * viscosity_pa_s))


def disk_speed_m_s(
    *,
    radius_m: float,
    thick_m: Array | float,
    heavier_kg_m3: Array | float,
    viscosity_pa_s: Array | float,
    attitude: Array | float = DISK_AT_RANDOM,
) -> Array:
    """Speed of a thin flat disk, downward positive.

    `attitude` runs from DISK_EDGEWISE to DISK_BROADSIDE. Valid for Reynolds numbers below 1 and
    thickness well below the radius.
    Source: Happel and Brenner (1983), sec. 5-11.
    """
    weight_n = math.pi * radius_m**2 * thick_m * heavier_kg_m3 * GRAVITY_M_S2
    return np.asarray(weight_n / (attitude * viscosity_pa_s * radius_m))


def hindered(volume_share: Array | float) -> Array:
    """Share of its lone speed that a crowd of balls keeps, 0 to 0.4 of the volume.

    Source: Richardson and Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35: (1 - φ)^4.65.
    """
    return np.asarray((1 - np.asarray(volume_share)) ** 4.65)
