"""Free convection and radiation from warm surfaces in still air."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

STEFAN_BOLTZMANN = 5.670374419e-8
GRAVITY_M_S2 = 9.80665


def vertical_plate_nusselt(rayleigh: float, prandtl: float) -> float:
    """Nusselt number of a vertical plate, all Rayleigh numbers.

    Source: Churchill and Chu (1975), as eq. 9.26 of Incropera and DeWitt, 6th ed.
    """
    return (
        0.825 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
    ) ** 2


def vertical_plate_laminar_nusselt(rayleigh: float, prandtl: float) -> float:
    """Nusselt number of a vertical plate up to Ra 1e9 (same work, eq. 9.27)."""
    return 0.68 + 0.670 * rayleigh**0.25 / (1 + (0.492 / prandtl) ** (9 / 16)) ** (4 / 9)


def horizontal_cylinder_nusselt(rayleigh: float, prandtl: float) -> float:
    """Nusselt number of a long horizontal cylinder (same work, eq. 9.34)."""
    return (
        0.60 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)
    ) ** 2


def plate_up_nusselt(rayleigh: float) -> float:
    """Hot face up: 0.54·Ra^¼ to 1e7, 0.15·Ra^⅓ above (same work, eqs. 9.30 and 9.31)."""
    return 0.54 * rayleigh**0.25 if rayleigh < 1e7 else 0.15 * rayleigh ** (1 / 3)


def plate_down_nusselt(rayleigh: float) -> float:
    """Hot face down: 0.27·Ra^¼ (same work, eq. 9.32)."""
    return 0.27 * rayleigh**0.25


def radiation_film(emissivity: float, hot_k: float, cold_k: float) -> float:
    """Radiation as a film coefficient, W/(m²·K) (same work, eq. 1.9)."""
    return emissivity * STEFAN_BOLTZMANN * (hot_k**2 + cold_k**2) * (hot_k + cold_k)


def wall_film(surface_c: Array, air_c: float, height_m: float) -> Array:
    """Convection and radiation off the wall of a cup, W/(m²·K), 20 to 240 °C."""
    return _film(surface_c, air_c, height_m, upright=True)


def top_film(surface_c: Array, air_c: float, diameter_m: float) -> Array:
    """Convection and radiation off the plastic's face in a cup, W/(m²·K), 20 to 240 °C."""
    return _film(surface_c, air_c, diameter_m / 4, upright=False)


def _film(surface_c: Array, air_c: float, length_m: float, *, upright: bool) -> Array:
    """Air properties: power-law conductivity and Sutherland viscosity (textbook, from memory)."""
    film_k = (surface_c + air_c) / 2 + 273.15
    k = 0.02624 * (film_k / 300) ** 0.865
    mu = 1.458e-6 * film_k**1.5 / (film_k + 110.4)
    rho = 101325 / 287.05 / film_k
    pr = mu * 1007 / k
    ra = GRAVITY_M_S2 / film_k * np.maximum(abs(surface_c - air_c), 0.5) * length_m**3
    ra = ra / (mu / rho) ** 2 * pr
    if upright:
        nu = (0.825 + 0.387 * ra ** (1 / 6) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2
    else:
        nu = np.where(ra < 1e7, 0.54 * ra**0.25, 0.15 * ra ** (1 / 3))
    hot, cold = surface_c + 273.15, air_c + 273.15
    radiated = 0.9 * STEFAN_BOLTZMANN * (hot**2 + cold**2) * (hot + cold)
    return np.asarray(nu * k / length_m + radiated)
