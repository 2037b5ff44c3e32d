"""A cup of plastisol in a microwave, reduced to its mean, its core and its cold shell.

Plastic and glass each have one temperature. The core takes up more than its share of the waves and
feels nothing of what glass and air take from the outside; the bottom is drawn toward its glass. A
stir evens them out. Everything is vectorised: arrays have the shape of a draw, or carry rows
before it.

Source of the shares and times: estimates from the cup in two dimensions (`heat.field`), measured
by `tools/measure_cup_gap.py`.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat import surface
from pourwright.heat.oven import TILT_ABOUT_C, Oven
from pourwright.matter import glass as cup_glass
from pourwright.matter import plastisol, scorch
from pourwright.matter.gelation import FUSE, GEL
from pourwright.physics.convection import CELSIUS_K, top_film, wall_film

STEP_S = 2.0
# Seconds on the clock before the filament is warm: 1 to 3 (estimate; service manuals say as much).
HEATS_AFTER_S = 2.0
CORE, BOTTOM, MEAN = 0, 1, 2
# No raw plastic is as hot as that: it was melted before (common practice, no source).
COOKED_ABOVE_C = 120.0
HOTTEST_KNOWN_C = 350.0
HOTTEST_TABLED_C = 800.0
GLASS_J_KGK = cup_glass.HEAT_CAPACITY_J_KGK.typical

_GLASS_POWER_SHARE = 0.03
_STIR_EVENS = 0.9
# A core evens out slowly in the gel, faster where the plastic flows; the bottom follows its glass.
_CORE_FADES_PER_S, _FLOW_FADES_PER_S = 1 / 3000, 1 / 300
_BOTTOM_FOLLOWS_S = 35.0
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


def hot_start(start_c: Array) -> State:
    """Plastic that was cooked before and is hot still, in a cup of its own temperature."""
    ones = np.ones((3, *start_c.shape))
    return replace(cold_start(start_c), gelled=ones, fused=ones)


def advance(
    state: State, cup: Cup, oven: Oven, seconds: float, *, on: bool, step_s: float = STEP_S
) -> State:
    """The cup after some seconds in the oven, on or off, in steps of `step_s` at most."""
    steps = math.ceil(seconds / step_s - 1e-9)
    for _ in range(steps):
        state = _step(state, cup, oven, seconds / steps, on=on)
    return state


def burst(state: State, cup: Cup, oven: Oven, seconds: float, *, step_s: float = STEP_S) -> State:
    """The cup after some seconds on the oven's clock, the first of which give no power yet."""
    cold = min(HEATS_AFTER_S, seconds)
    idle = advance(state, cup, oven, cold, on=False, step_s=step_s)
    return advance(idle, cup, oven, seconds - cold, on=True, step_s=step_s)


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


def added_to(state: State, held_kg: Array | float, added_kg: float, added_c: float) -> State:
    """The cup after plastic of another temperature was stirred in.

    Raw plastic is neither gelled nor aged; from `COOKED_ABOVE_C` on it counts as fused, and as aged
    as what it joins.
    """
    share = added_kg / (np.asarray(held_kg) + added_kg)
    left = 1 - share
    cooked = share if added_c >= COOKED_ABOVE_C else 0 * share
    heat = left * heat_content(state.mean_c) + share * heat_content(np.asarray(added_c))
    return replace(
        stirred(state),
        mean_c=np.interp(heat, _ENTHALPY_J_KG, _GRID_C),
        gelled=state.gelled * left + cooked,
        fused=state.fused * left + cooked,
        dose=state.dose * (left + cooked),
    )


def reading(state: State, oven: Oven) -> Array:
    """What an infrared thermometer reads off the surface."""
    face = (
        surface.stirred_c(state.mean_c, oven.film_k)
        if state.stirred
        else surface.unstirred_c(state.mean_c, oven.surface_offset_k)
    )
    return np.asarray(face + oven.reading_bias_k)


def stirring_reading(state: State, oven: Oven) -> Array:
    """What an infrared thermometer reads while the cup is being stirred."""
    face = surface.stirring_c(state.mean_c, oven.film_k)
    return np.asarray(face + oven.reading_bias_k)


def probe_reading(state: State, oven: Oven) -> Array:
    """What a probe reads in the middle of a stirred cup."""
    return np.asarray(state.mean_c + oven.probe_bias_k)


def q95(values: Array) -> Array:
    """95th percentile over the draws, the typical one left out."""
    ordered = np.sort(values[..., 1:], axis=-1)
    at = 0.95 * (ordered.shape[-1] - 1)
    below = int(at)
    step = ordered[..., below + 1] - ordered[..., below]
    return np.asarray(ordered[..., below] + (at - below) * step)


def heat_content(temp_c: Array) -> Array:
    """Enthalpy of the plastic against -20 °C, J/kg."""
    return np.asarray(np.interp(temp_c, _GRID_C, _ENTHALPY_J_KG))


def _evened(zones: Array, left: float) -> Array:
    """Zones moved toward the mean over the cup; core and bottom count an eighth each."""
    whole = 0.125 * zones[CORE] + 0.125 * zones[BOTTOM] + 0.75 * zones[MEAN]
    return np.asarray(whole + left * (zones - whole))


def _step(state: State, cup: Cup, oven: Oven, dt: float, *, on: bool) -> State:
    power = taken_up_w(oven, state.mean_c) if on else np.zeros_like(state.mean_c)
    flowing = 1 - state.gelled[MEAN] + state.fused[MEAN]
    mean, glass_c, heated, lost = _warmed(state, flowing, power, cup, oven, dt)
    fades = dt * (_CORE_FADES_PER_S + _FLOW_FADES_PER_S * flowing)
    more = (oven.hot_factor - 1) * heated + lost
    ahead = np.maximum(state.ahead_k * np.maximum(1 - fades, 0) + more, 0)
    sinks = 1 - math.exp(-dt / _BOTTOM_FOLLOWS_S)
    pull = oven.bottom_lag * np.maximum(mean - glass_c, 0)
    behind = state.behind_k + sinks * (pull - state.behind_k)
    inverse_k = 1 / (np.stack([mean + ahead, mean - behind, mean]) + CELSIUS_K)
    gelled = 1 - (1 - state.gelled) * np.exp(-dt * GEL.at(inverse_k))
    fused = gelled - (gelled - state.fused) * np.exp(-dt * FUSE.at(inverse_k))
    dose = state.dose + dt * scorch.speed_up(inverse_k[CORE], oven.scorch_j_mol) / oven.stable_s
    return State(
        mean, glass_c, ahead, behind, gelled, fused, dose, stirred=state.stirred and not on
    )


def taken_up_w(oven: Oven, mean_c: Array) -> Array:
    """Watts into the cup at a temperature, by the oven's tilt; never below a third."""
    factor = 1 + oven.power_tilt * (mean_c - TILT_ABOUT_C) / 100
    return np.asarray(oven.power_w * np.maximum(factor, 1 / 3))


def _warmed(
    state: State, flowing: Array, power_w: Array, cup: Cup, oven: Oven, dt: float
) -> tuple[Array, Array, Array, Array]:
    """Plastic and glass after one step, and the kelvins that waves gave and the outside took.

    `flowing` is one less the gelled share plus the fused one.
    """
    mean_c, glass_c = state.mean_c, state.glass_c
    to_glass = oven.to_glass * (_TO_GLASS_GEL + _TO_GLASS_FLOW * flowing) * cup.wetted_m2
    top = np.interp(mean_c, _GRID_C, _top_table(cup.diameter_m)) * cup.top_m2
    side = np.interp(glass_c, _GRID_C, _side_table(cup.height_m)) * cup.side_m2
    off_top = oven.loss * top * (mean_c - oven.ambient_c)
    outward = oven.loss * (side + _TO_TABLE_W_M2K * cup.top_m2)
    glass_j_k = cup.glass_kg * GLASS_J_KGK
    # Over the step the glass nears its rest between plastic and room, a thin one within it.
    flows = to_glass + outward
    rest_c = (to_glass * mean_c + outward * oven.ambient_c) / flows
    nears = dt * flows / glass_j_k
    on_the_way_c = rest_c + (glass_c - rest_c) * -np.expm1(-nears) / nears
    inward = to_glass * (mean_c - on_the_way_c)
    off_glass = outward * (on_the_way_c - oven.ambient_c)
    per_kg = dt / (cup.plastic_kg * oven.heat_ratio)
    given = power_w * (1 - _GLASS_POWER_SHARE) * per_kg
    taken = (inward + off_top) * per_kg
    mean = np.interp(heat_content(mean_c) + given - taken, _ENTHALPY_J_KG, _GRID_C)
    glass_gain = power_w * _GLASS_POWER_SHARE + inward - off_glass
    glass = glass_c + dt * glass_gain / glass_j_k
    per_k = np.interp(mean_c, _GRID_C, _HEAT)
    return mean, glass, given / per_k, np.maximum(taken, 0) / per_k


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
        _GRID_C, air_c=_STILL_AIR_C, height_m=height_mm / 1000, emissivity=cup_glass.EMISSIVITY
    )


@functools.lru_cache(maxsize=256)
def _top_film(diameter_mm: int) -> Array:
    return top_film(
        _GRID_C, air_c=_STILL_AIR_C, diameter_m=diameter_mm / 1000, emissivity=cup_glass.EMISSIVITY
    )
