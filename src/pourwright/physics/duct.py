"""Slow flow through ducts: how much pressure a flow takes, and how much heat it hands the wall.

Every resistance is pressure over flow, Pa·s/m³, for a liquid whose viscosity stays the same.
"""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

Value = Array | float
LAMINAR_NUSSELT = 3.66
# Lévêque at one place; two thirds of the mean up to there, which is 1.615.
_LOCAL = 1.077
_TERMS = 20


def ellipse_resistance(
    viscosity_pa_s: Value, length_m: Value, half_width_m: Value, half_thick_m: Value
) -> Array:
    """Duct of elliptic section; a round tube where both halves are the same.

    Source: White, Viscous Fluid Flow, 3rd ed. (2006), eq. 3-47 (from memory).

    >>> ellipse_resistance(1.0, 1.0, 0.01, 0.01).round(-3).item()
    254648000.0
    """
    a, b = np.asarray(half_width_m), np.asarray(half_thick_m)
    both = a * b
    shape = (a * a + b * b) / (both * both * both)
    return np.asarray(4 / np.pi * viscosity_pa_s * length_m * shape)


def round_resistance(viscosity_pa_s: Value, length_m: Value, radius_m: Value) -> Array:
    """Round tube (Hagen and Poiseuille).

    Source: Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed. (2002), eq. 2.3-21.
    """
    return np.asarray(8 * viscosity_pa_s * length_m / (np.pi * np.asarray(radius_m) ** 4))


def thin_slot_resistance(
    viscosity_pa_s: Value, length_m: Value, width_m: Value, gap_m: Value
) -> Array:
    """Slot much wider than it is thick (same work, problem 2B.3)."""
    return np.asarray(12 * viscosity_pa_s * length_m / (width_m * np.asarray(gap_m) ** 3))


def slot_resistance(viscosity_pa_s: Value, length_m: Value, width_m: Value, gap_m: Value) -> Array:
    """Rectangular duct, with the drag of its narrow sides.

    Source: White, Viscous Fluid Flow, 3rd ed. (2006), eq. 3-48: the series (from memory).
    """
    flat = np.asarray(gap_m) / np.asarray(width_m)
    odd = 2 * np.arange(_TERMS).reshape(-1, *[1] * flat.ndim) + 1
    drag = np.sum(np.tanh(odd * np.pi / (2 * flat)) / odd**5, axis=0)
    thin = thin_slot_resistance(viscosity_pa_s, length_m, width_m, gap_m)
    return np.asarray(thin / (1 - 192 * flat / np.pi**5 * drag))


def hydraulic_diameter_m(half_width_m: Value, half_thick_m: Value) -> Array:
    """Four times the area over the rim of an ellipse, the rim by Ramanujan's second formula.

    >>> hydraulic_diameter_m(0.002, 0.002).round(6).item()
    0.004
    """
    a, b = np.asarray(half_width_m), np.asarray(half_thick_m)
    h = 3 * ((a - b) / (a + b)) ** 2
    rim = np.pi * (a + b) * (1 + h / (10 + np.sqrt(4 - h)))
    return np.asarray(4 * np.pi * a * b / rim)


def nusselt_of_root(graetz_root: Value) -> Array:
    """Heat from a laminar flow to a wall of one temperature, at one place of it.

    Takes the cube root of Gz, four times the flow over π·α·distance. The larger of Lévêque's law
    for the entry and the value far down; a little low where they meet.
    Source: Bird, Stewart and Lightfoot, 2nd ed. (2002), sec. 12.2 and table 14.2-1 (from memory).
    """
    return np.maximum(_LOCAL * np.asarray(graetz_root), LAMINAR_NUSSELT)
