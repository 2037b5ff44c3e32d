"""A cup of plastisol in a microwave, reduced to its mean, its core and its cold shell.

Plastic and glass each have one temperature. The core runs ahead of the mean and the bottom and
wall lag behind it by shares of the rise since the last stir; a stir evens them out. Everything
is vectorised: arrays have the shape of a draw, or carry rows before it.

Source of the shares: estimates from a two-dimensional finite-volume study of a 473 mL cup; the
model's power is an effective one and belongs to this model alone.
"""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Draws
from pourwright.base.source import estimate
from pourwright.matter import plastisol, scorch
from pourwright.matter.property import Property
from pourwright.physics.convection import top_film, wall_film

MODEL = "cup.reduced"
VERSION = 1

GAS_J_MOLK = 8.314462618
GLASS_J_KGK = 830.0
GLASS_POWER_SHARE = 0.03
STIR_EVENS = 0.9
STEP_S = 3.0
CORE, BOTTOM, MEAN = 0, 1, 2

HOT_FACTOR = Property(
    "how far the core runs ahead of the mean", Band(1.10, 1.22, 1.35), estimate("cup study")
)
BOTTOM_LAG = Property(
    "how far the bottom lags behind the mean", Band(0.16, 0.26, 0.33), estimate("cup study")
)
LOSS_RATIO = Property(
    "losses of the cup against still air",
    Band(0.66, 1.0, 1.5),
    estimate("the oven's fan is unknown"),
    logarithmic=True,
)
SURFACE_SCORE = Property(
    "how the surface differs from the mean", Band(-1.645, 0.0, 1.645), estimate("cup study"),
    "read while you stir, or use a probe",
)  # fmt: skip
LOAD_HALF_KG = Property(
    "load at which half the power is taken up",
    Band(0.05, 0.1, 0.2),
    estimate("load effect of small samples, after Barringer et al. (1994)"),
    "time two batch sizes",
    logarithmic=True,
)
REFERENCE_LOAD_KG = 0.5

# First-order gelation and fusion about a reference: estimates, no measurement at this softness.
_GEL = (95.0, 1 / 40, 95e3)
_FUSE = (160.0, 1 / 40, 190e3)


@dataclass(frozen=True, slots=True)
class Cup:
    """Masses and faces of a filled cup."""

    plastic_kg: float
    glass_kg: Array
    wetted_m2: Array
    top_m2: Array
    side_m2: Array
    height_m: float
    diameter_m: float


def filled_cup(*, plastic_kg: float, cold_g_ml: Array, glass_kg: Array, diameter_m: Array) -> Cup:
    """A cylinder of plastic in its glass."""
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
class Oven:
    """The parameters of one forecast, drawn."""

    power_w: Array
    loss: Array
    surface_score: Array
    bias_k: Array
    hot_factor: Array
    bottom_lag: Array
    heat_ratio: Array
    ambient_c: Array
    scorch_j_mol: Array
    stable_s: Array


def drawn_oven(
    draws: Draws, *, power_w: Array, loss: Array, surface_score: Array, bias_k: Array,
    ambient_c: Array,
) -> Oven:  # fmt: skip
    """An oven with the parameters that no fit touches drawn from their bands."""
    return Oven(
        power_w=power_w,
        loss=loss,
        surface_score=surface_score,
        bias_k=bias_k,
        hot_factor=HOT_FACTOR.drawn(draws),
        bottom_lag=BOTTOM_LAG.drawn(draws),
        heat_ratio=plastisol.HEAT_CAPACITY_RATIO.drawn(draws),
        ambient_c=ambient_c,
        scorch_j_mol=scorch.ACTIVATION_J_MOL.drawn(draws),
        stable_s=scorch.STABLE_MIN_AT_190C.drawn(draws) * 60,
    )


def loaded_power(power_w: Array, load_half_kg: Array, plastic_kg: float) -> Array:
    """Power taken up by another load, where `power_w` holds for half a kilogram."""
    here = plastic_kg / (plastic_kg + load_half_kg)
    there = REFERENCE_LOAD_KG / (REFERENCE_LOAD_KG + load_half_kg)
    return np.asarray(power_w * here / there)


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
    stirred: bool = False

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


def advance(state: State, cup: Cup, oven: Oven, seconds: float, *, on: bool) -> State:
    """The cup after some seconds in the oven, on or off."""
    steps = max(1, math.ceil(seconds / STEP_S - 1e-9)) if seconds > 0 else 0
    for _ in range(steps):
        state = _step(state, cup, oven, seconds / steps, on=on)
    return state


def stirred(state: State) -> State:
    """The cup after a thorough stir."""
    left = 1 - STIR_EVENS
    mean_gel = _evened(state.gelled)
    mean_fuse = _evened(state.fused)
    return replace(
        state,
        ahead_k=state.ahead_k * left,
        behind_k=state.behind_k * left,
        gelled=mean_gel + left * (state.gelled - mean_gel),
        fused=mean_fuse + left * (state.fused - mean_fuse),
        stirred=True,
    )


def reading(state: State, oven: Oven) -> Array:
    """What a thermometer reads off the surface.

    Before a stir the face differs from the mean by +4 K near 75 °C and by -7 K when hot; ten
    seconds after a stir a film has cooled by 2.7 % of the excess over 40 °C. Estimates.
    """
    return np.asarray(_surface_c(state, oven) + oven.bias_k)


def _surface_c(state: State, oven: Oven) -> Array:
    if state.stirred:
        film = 0.027 * np.maximum(state.mean_c - 40, 0)
        return np.asarray(state.mean_c - film + 0.35 * film * oven.surface_score)
    offset = np.interp(state.mean_c, [40.0, 75.0, 165.0], [0.0, 4.0, -7.0])
    spread = np.interp(state.mean_c, [40.0, 75.0, 165.0], [0.5, 1.5, 4.5])
    return np.asarray(state.mean_c + offset + spread * oven.surface_score)


def _evened(zones: Array) -> Array:
    """Mean over the cup: core and bottom count an eighth each."""
    return np.asarray(0.125 * zones[CORE] + 0.125 * zones[BOTTOM] + 0.75 * zones[MEAN])


def _step(state: State, cup: Cup, oven: Oven, dt: float, *, on: bool) -> State:
    power = oven.power_w if on else 0.0
    mean, glass = state.mean_c, state.glass_c
    mobile = np.clip(1 - state.gelled[MEAN] + state.fused[MEAN], 0, 1)
    to_glass = (25 + 22 * mobile) * cup.wetted_m2 * (mean - glass)
    top = (
        oven.loss
        * _film(mean, cup.diameter_m, upright=False)
        * cup.top_m2
        * (mean - oven.ambient_c)
    )
    side = (
        oven.loss
        * _film(glass, cup.height_m, upright=True)
        * cup.side_m2
        * (glass - oven.ambient_c)
    )
    base = 3.0 * cup.top_m2 * (glass - oven.ambient_c)
    heat = cup.plastic_kg * oven.heat_ratio * np.interp(mean, _GRID_C, _HEAT_J_KGK)
    rise = dt * (power * (1 - GLASS_POWER_SHARE) - to_glass - top) / heat
    glass_rise = dt * (power * GLASS_POWER_SHARE + to_glass - side - base)
    ahead, behind = _shell(state, oven, rise, dt, on=on)
    mean = mean + rise
    zones = np.stack([mean + ahead, mean - behind, mean])
    gelled = 1 - (1 - state.gelled) * np.exp(-dt * _rate(zones, _GEL))
    fused = gelled - (gelled - state.fused) * np.exp(-dt * _rate(zones, _FUSE))
    hottest_k = zones[CORE] + 273.15
    spent = np.exp(-oven.scorch_j_mol / GAS_J_MOLK * (1 / hottest_k - 1 / 463.15)) / oven.stable_s
    glass = glass + glass_rise / (cup.glass_kg * GLASS_J_KGK)
    return State(mean, glass, ahead, behind, gelled, fused, state.dose + dt * spent)


def _shell(state: State, oven: Oven, rise: Array, dt: float, *, on: bool) -> tuple[Array, Array]:
    if on:
        ahead = state.ahead_k + (oven.hot_factor - 1) * rise
        return np.asarray(ahead), np.asarray(state.behind_k + oven.bottom_lag * rise)
    fade = math.exp(-dt / 300)
    return state.ahead_k * fade, state.behind_k * fade


def _rate(zones_c: Array, kinetics: tuple[float, float, float]) -> Array:
    reference_c, rate_s, energy = kinetics
    return np.asarray(
        rate_s
        * np.exp(-energy / GAS_J_MOLK * (1 / (zones_c + 273.15) - 1 / (reference_c + 273.15)))
    )


_GRID_C = np.arange(-20.0, 321.0, 2.0)
_HEAT_J_KGK = plastisol.heat_capacity_j_kgk(_GRID_C)
_STILL_AIR_C = 25.0


def _film(surface_c: Array, length_m: float, *, upright: bool) -> Array:
    table = _film_table(max(5, round(length_m * 1000)), upright)
    return np.asarray(np.interp(surface_c, _GRID_C, table))


@functools.lru_cache(maxsize=256)
def _film_table(length_mm: int, upright: bool) -> Array:
    film = wall_film if upright else top_film
    return film(_GRID_C, _STILL_AIR_C, length_mm / 1000)
