"""Heat to the room: natural convection and radiation.

Wall: S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, vertical plate.
Surface: J. R. Lloyd and W. R. Moran, J. Heat Transfer 96 (1974) 443, plate facing up.
Floor: E. Radziemska and W. M. Lewandowski, Applied Energy 68 (2001) 347, plate facing down.
Air: F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, Table A.4.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speed.kitchen.draws import Array, Luck
from speed.kitchen.plastic import ZERO_C_IN_K

GRAVITY_M_S2 = 9.80665
STEFAN_BOLTZMANN = 5.670374419e-8
AIR_K = np.array([250.0, 300, 350, 400, 450, 500, 550])
AIR_CONDUCT = np.array([22.3, 26.3, 30.0, 33.8, 37.3, 40.7, 43.9]) * 1e-3
AIR_NU = np.array([11.44, 15.89, 20.92, 26.41, 32.39, 38.79, 45.57]) * 1e-6
AIR_ALPHA = np.array([15.9, 22.5, 29.9, 38.3, 47.2, 56.7, 66.7]) * 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Air:
    """Around each cup: `temp_c`, how much a fan multiplies convection, the emissivities of glass
    and plastic toward what surrounds them, and `open_top`, the share of its free loss that the
    surface keeps down inside the rim.
    """

    temp_c: Array
    fan: Array
    glass_emits: Array
    plastic_emits: Array
    open_top: Array


def draw_room(luck: Luck) -> Air:
    """A room for each stream, no fan."""
    still = np.ones(len(luck.streams))
    return Air(
        luck.uniform(18, 30),
        still,
        luck.uniform(0.82, 0.92),
        luck.uniform(0.88, 0.96),
        luck.uniform(0.45, 0.85),
    )


def wall_w_m2k(air: Air, temp_c: Array, tall_m: Array) -> Array:
    """Off a wall of that whole height at that temperature."""
    conduct, rayleigh, prandtl = _film(air, temp_c, tall_m)
    brake = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
    nusselt = (0.825 + 0.387 * rayleigh ** (1 / 6) / brake) ** 2
    return air.fan * nusselt * conduct / tall_m + _radiant(air, air.glass_emits, temp_c)


def surface_w_m2k(air: Air, temp_c: Array, radius_m: Array) -> Array:
    """Off the plastic's surface."""
    size = radius_m / 2
    conduct, rayleigh, _ = _film(air, temp_c, size)
    nusselt = np.maximum(0.54 * rayleigh**0.25, 0.15 * np.cbrt(rayleigh))
    free = air.fan * nusselt * conduct / size + _radiant(air, air.plastic_emits, temp_c)
    return air.open_top * free


def floor_w_m2k(air: Air, temp_c: Array, radius_m: Array) -> Array:
    """Off the cup's underside."""
    size = radius_m / 2
    conduct, rayleigh, _ = _film(air, temp_c, size)
    nusselt = 0.52 * rayleigh**0.2
    return air.fan * nusselt * conduct / size + _radiant(air, air.glass_emits, temp_c)


def _film(air: Air, temp_c: Array, size_m: Array) -> tuple[Array, Array, Array]:
    """Conductivity, Rayleigh and Prandtl number at the mean of surface and air."""
    film_k = (temp_c + air.temp_c) / 2 + ZERO_C_IN_K
    nu, alpha = np.interp(film_k, AIR_K, AIR_NU), np.interp(film_k, AIR_K, AIR_ALPHA)
    apart = np.maximum(np.abs(temp_c - air.temp_c), 0.1)
    rayleigh = GRAVITY_M_S2 / film_k * apart * size_m**3 / (nu * alpha)
    return np.interp(film_k, AIR_K, AIR_CONDUCT), rayleigh, nu / alpha


def _radiant(air: Air, emits: Array, temp_c: Array) -> Array:
    hot, cold = temp_c + ZERO_C_IN_K, air.temp_c + ZERO_C_IN_K
    return emits * STEFAN_BOLTZMANN * (hot**2 + cold**2) * (hot + cold)
