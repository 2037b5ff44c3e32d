"""Free convection and radiation from warm surfaces in still air."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.matter import air

STEFAN_BOLTZMANN = 5.670374419e-8
GRAVITY_M_S2 = 9.80665
CELSIUS_K = 273.15


def vertical_plate_nusselt(rayleigh: Array | float, prandtl: Array | float) -> Array:
    """Nusselt number of a vertical plate, all Rayleigh numbers.

    Source: Churchill and Chu (1975), as eq. 9.26 of Incropera and DeWitt, Fundamentals of Heat
    and Mass Transfer, 6th ed.
    """
    hindered = (1 + (0.492 / np.asarray(prandtl)) ** (9 / 16)) ** (8 / 27)
    return np.asarray((0.825 + 0.387 * np.asarray(rayleigh) ** (1 / 6) / hindered) ** 2)


def vertical_plate_laminar_nusselt(rayleigh: Array | float, prandtl: Array | float) -> Array:
    """Nusselt number of a vertical plate up to Ra 1e9 (same work, eq. 9.27)."""
    hindered = (1 + (0.492 / np.asarray(prandtl)) ** (9 / 16)) ** (4 / 9)
    return np.asarray(0.68 + 0.670 * np.asarray(rayleigh) ** 0.25 / hindered)


def horizontal_cylinder_nusselt(rayleigh: Array | float, prandtl: Array | float) -> Array:
    """Nusselt number of a long horizontal cylinder up to Ra 1e12 (same work, eq. 9.34)."""
    hindered = (1 + (0.559 / np.asarray(prandtl)) ** (9 / 16)) ** (8 / 27)
    return np.asarray((0.60 + 0.387 * np.asarray(rayleigh) ** (1 / 6) / hindered) ** 2)


def plate_up_nusselt(rayleigh: Array | float) -> Array:
    """Hot face up: 0.54·Ra^¼ to 1e7, 0.15·Ra^⅓ above (same work, eqs. 9.30 and 9.31)."""
    ra = np.asarray(rayleigh)
    return np.where(ra < 1e7, 0.54 * ra**0.25, 0.15 * ra ** (1 / 3))


def plate_down_nusselt(rayleigh: Array | float) -> Array:
    """Hot face down: 0.27·Ra^¼ (same work, eq. 9.32)."""
    return np.asarray(0.27 * np.asarray(rayleigh) ** 0.25)


def radiation_film(emissivity: float, hot_k: Array | float, cold_k: Array | float) -> Array:
    """Radiation as a film coefficient, W/(m²·K) (same work, eq. 1.9)."""
    hot, cold = np.asarray(hot_k), np.asarray(cold_k)
    return np.asarray(emissivity * STEFAN_BOLTZMANN * (hot**2 + cold**2) * (hot + cold))


def wall_film(surface_c: Array, *, air_c: float, height_m: float, emissivity: float) -> Array:
    """Convection and radiation off an upright wall, W/(m²·K), 20 to 320 °C."""
    k, rayleigh, prandtl = _air(surface_c, air_c, height_m)
    convected = vertical_plate_nusselt(rayleigh, prandtl) * k / height_m
    return convected + radiation_film(emissivity, surface_c + CELSIUS_K, air_c + CELSIUS_K)


def top_film(surface_c: Array, *, air_c: float, diameter_m: float, emissivity: float) -> Array:
    """Convection and radiation off a round face looking up, W/(m²·K), 20 to 320 °C."""
    length = diameter_m / 4
    k, rayleigh, _ = _air(surface_c, air_c, length)
    convected = plate_up_nusselt(rayleigh) * k / length
    return convected + radiation_film(emissivity, surface_c + CELSIUS_K, air_c + CELSIUS_K)


def _air(surface_c: Array, air_c: float, length_m: float) -> tuple[Array, Array, Array]:
    """Conductivity, Rayleigh and Prandtl number of air at the film temperature.

    An ideal gas with the properties of `matter.air`. Within half a kelvin of the air the Rayleigh
    number is that of half a kelvin.
    """
    film_c = (surface_c + air_c) / 2
    film_k = film_c + CELSIUS_K
    k, mu = air.conductivity_w_mk(film_c), air.viscosity_pa_s(film_c)
    nu = mu * air.GAS_J_KGK * film_k / air.ATMOSPHERE_PA
    prandtl = mu * air.HEAT_CAPACITY_J_KGK / k
    step_k = np.maximum(np.abs(surface_c - air_c), 0.5)
    rayleigh = GRAVITY_M_S2 / film_k * step_k * length_m**3 / nu**2 * prandtl
    return np.asarray(k), np.asarray(rayleigh), np.asarray(prandtl)
