"""A cup of plastisol in a microwave, reduced to its mean, its core and its cold shell.

Plastic and glass each have one temperature. The core runs ahead of the mean and the bottom and
wall lag behind it by shares of the rise since the last stir; a stir evens them out. Everything
is vectorised: arrays have the shape of a draw, or carry rows before it.

Source of the shares: estimates from a two-dimensional finite-volume study of a 473 mL cup.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import surface
from pourwright.heat.oven import Oven
from pourwright.matter import glass, plastisol, scorch
from pourwright.matter.gelation import FUSE, GEL
from pourwright.physics.convection import CELSIUS_K, top_film, wall_film

STEP_S = 3.0
CORE, BOTTOM, MEAN = 0, 1, 2
HOTTEST_KNOWN_C = 350.0
HOTTEST_TABLED_C = 800.0

_GLASS_POWER_SHARE = 0.03
_STIR_EVENS = 0.9
_SPREAD_FADES_S = 300.0
# From plastic to glass, W/(m²·K): at rest in the gel, and on top of it when it can flow.
_TO_GLASS_GEL, _TO_GLASS_FLOW = 25.0, 30.0
_TO_TABLE_W_M2K = 3.0
_STILL_AIR_C = 25.0


@dataclass(frozen=True, slots=True)
class Cup:
    """Masses and faces of a filled cup."""

    plastic_kg: Array | float
    glass_kg: Array
    wetted_m2: Array
    top_m2: Array
    side_m2: Array
    height_m: float
    diameter_m: float


def filled_cup(
    *, plastic_kg: Array | float, cold_g_ml: Array, glass_kg: Array, diameter_m: Array
) -> Cup:
    """A cylinder of plastic in its glass, 4.5 mm thick at the wall and 6 mm at the base."""
    volume = plastic_kg / (cold_g_ml * 1000)
    top = np.pi * diameter_m**2 / 4
    height = volume / top
    return Cup(
        plastic_kg=plastic_kg,
        glass_kg=glass_kg,
        wetted_m2=np.pi * diameter_m * height + top,
        top_m2=top,
        side_m2=np.pi * (diameter_m + 0.009) * (height + 0.006),
        height_m=float(height.flat[0]),
        diameter_m=float(diameter_m.flat[0]),
    )


@dataclass(frozen=True, slots=True)
class State:
    """Where a cup stands; `gelled` and `fused` hold core, bottom and mean."""

    mean_c: Array
    glass_c: Array
    ahead_k: Array
    behind_k: Array
    gelled: Array
    fused: Array
    dose: Array
    stirred: bool

    @property
    def hottest_c(self) -> Array:
        """The core."""
        return self.mean_c + self.ahead_k

    @property
    def bottom_c(self) -> Array:
        """The cold shell at the bottom."""
        return self.mean_c - self.behind_k


def cold_start(start_c: Array) -> State:
    """Raw plastic in a cup of its own temperature."""
    zones = np.zeros((3, *start_c.shape))
    zero = np.zeros_like(start_c)
    return State(start_c, start_c, zero, zero, zones, zones, zero, stirred=True)


def advance(
    state: State, cup: Cup, oven: Oven, seconds: float, *, on: bool, step_s: float = STEP_S
) -> State:
    """The cup after some seconds in the oven, on or off, in steps of `step_s` at most."""
    steps = math.ceil(seconds / step_s - 1e-9)
    for _ in range(steps):
        state = _step(state, cup, oven, seconds / steps, on=on)
    return state


def stirred(state: State) -> State:
    """The cup after a thorough stir."""
    left = 1 - _STIR_EVENS
    return replace(
        state,
        ahead_k=state.ahead_k * left,
        behind_k=state.behind_k * left,
        gelled=_evened(state.gelled, left),
        fused=_evened(state.fused, left),
        stirred=True,
    )


def reading(state: State, oven: Oven) -> Array:
    """What a thermometer reads off the surface."""
    face = surface.stirred_c if state.stirred else surface.unstirred_c
    return np.asarray(face(state.mean_c, oven.surface_offset_k) + oven.reading_bias_k)


def q95(values: Array) -> Array:
    """95th percentile over the draws, the typical one left out."""
    ordered = np.sort(values[..., 1:], axis=-1)
    at = 0.95 * (ordered.shape[-1] - 1)
    below = int(at)
    step = ordered[..., below + 1] - ordered[..., below]
    return np.asarray(ordered[..., below] + (at - below) * step)


def _evened(zones: Array, left: float) -> Array:
    """Zones moved toward the mean over the cup; core and bottom count an eighth each."""
    whole = 0.125 * zones[CORE] + 0.125 * zones[BOTTOM] + 0.75 * zones[MEAN]
    return np.asarray(whole + left * (zones - whole))


def _step(state: State, cup: Cup, oven: Oven, dt: float, *, on: bool) -> State:
    power = oven.power_w if on else 0.0
    to_glass, to_air, off_glass = _flows(state, cup, oven)
    gain = power * (1 - _GLASS_POWER_SHARE) - to_glass - to_air
    mean = _warmed(state.mean_c, dt * gain / (cup.plastic_kg * oven.heat_ratio))
    glass_gain = power * _GLASS_POWER_SHARE + to_glass - off_glass
    glass_c = state.glass_c + dt * glass_gain / (cup.glass_kg * glass.HEAT_CAPACITY_J_KGK.typical)
    if on:
        rise = mean - state.mean_c
        ahead = state.ahead_k + (oven.hot_factor - 1) * rise
        behind = state.behind_k + oven.bottom_lag * rise
    else:
        fade = math.exp(-dt / _SPREAD_FADES_S)
        ahead, behind = state.ahead_k * fade, state.behind_k * fade
    inverse_k = 1 / (np.stack([mean + ahead, mean - behind, mean]) + CELSIUS_K)
    gelled = 1 - (1 - state.gelled) * np.exp(-dt * GEL.at(inverse_k))
    fused = gelled - (gelled - state.fused) * np.exp(-dt * FUSE.at(inverse_k))
    dose = state.dose + dt * scorch.speed_up(inverse_k[CORE], oven.scorch_j_mol) / oven.stable_s
    return State(
        mean, glass_c, ahead, behind, gelled, fused, dose, stirred=state.stirred and not on
    )


def _flows(state: State, cup: Cup, oven: Oven) -> tuple[Array, Array, Array]:
    """Watts from plastic to glass, from plastic to air, and from glass to air and table."""
    flowing = 1 - state.gelled[MEAN] + state.fused[MEAN]
    to_glass = (_TO_GLASS_GEL + _TO_GLASS_FLOW * flowing) * cup.wetted_m2
    over, glass_over = state.mean_c - oven.ambient_c, state.glass_c - oven.ambient_c
    top = np.interp(state.mean_c, _GRID_C, _top_table(cup.diameter_m)) * cup.top_m2
    side = np.interp(state.glass_c, _GRID_C, _side_table(cup.height_m)) * cup.side_m2
    return (
        np.asarray(to_glass * (state.mean_c - state.glass_c)),
        np.asarray(oven.loss * top * over),
        np.asarray(oven.loss * (side + _TO_TABLE_W_M2K * cup.top_m2) * glass_over),
    )


def _warmed(temp_c: Array, heat_j_kg: Array) -> Array:
    """Temperature after a gain of heat, by the enthalpy of the plastic."""
    enthalpy = np.interp(temp_c, _GRID_C, _ENTHALPY_J_KG) + heat_j_kg
    return np.asarray(np.interp(enthalpy, _ENTHALPY_J_KG, _GRID_C))


_GRID_C = np.arange(-20.0, HOTTEST_TABLED_C + 1, 2.0)
_HEAT = plastisol.heat_capacity_j_kgk(_GRID_C)
_ENTHALPY_J_KG = np.concatenate([[0.0], np.cumsum((_HEAT[1:] + _HEAT[:-1]) / 2 * np.diff(_GRID_C))])


def _side_table(height_m: float) -> Array:
    return _side_film(max(5, round(height_m * 1000)))


def _top_table(diameter_m: float) -> Array:
    return _top_film(max(5, round(diameter_m * 1000)))


@functools.lru_cache(maxsize=256)
def _side_film(height_mm: int) -> Array:
    return wall_film(
        _GRID_C, air_c=_STILL_AIR_C, height_m=height_mm / 1000, emissivity=glass.EMISSIVITY
    )


@functools.lru_cache(maxsize=256)
def _top_film(diameter_mm: int) -> Array:
    return top_film(
        _GRID_C, air_c=_STILL_AIR_C, diameter_m=diameter_mm / 1000, emissivity=glass.EMISSIVITY
    )
