"""Heat flow in the cup: explicit finite volumes that keep the books of energy exactly."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.field.grid import Grid
from pourwright.heat.field.mixing import raised
from pourwright.heat.field.source import Entry, plastic_watts
from pourwright.heat.field.state import ENTHALPY, FieldState
from pourwright.matter import glass, scorch
from pourwright.matter.gelation import FUSE, GEL, Rate
from pourwright.matter.plastisol import conductivity_w_mk, heat_capacity_j_kgk
from pourwright.physics.convection import CELSIUS_K, top_film, wall_film

LONGEST_STEP_S = 0.5
REFRESHED_S = 2.0
# The base stands on the glass plate of the oven: estimate.
TABLE_W_M2K = 12.0
_STABLE_SHARE = 0.8
# The face lies within the rim of the cup, which shields it from the air and the cold walls.
_WITHIN_RIM = 0.7


@dataclass(frozen=True, slots=True)
class FieldOven:
    """An oven and a plastic as the field model knows them.

    Watts go into plastic and glass together, `glass_share` of them into the glass. `loss` scales
    the films of still air, `currents` the cup's own mixing, `loss_ratio` the dielectric loss.
    """

    power_w: float
    entry: Entry
    ambient_c: float = 22.0
    glass_share: float = 0.03
    loss: float = 1.0
    currents: float = 1.0
    loss_ratio: float = 1.0
    gel: Rate = GEL
    fuse: Rate = FUSE


def advanced(
    state: FieldState,
    oven: FieldOven,
    seconds: float,
    *,
    on: bool,
    longest_step_s: float = LONGEST_STEP_S,
) -> FieldState:
    """The cup after some seconds in the oven, on or off."""
    left = seconds
    while left > 1e-9:
        span = min(REFRESHED_S, left)
        state = _span(state, oven, span, on=on, longest_step_s=longest_step_s)
        left -= span
    return state


def face_c(state: FieldState, oven: FieldOven) -> float:
    """What an infrared thermometer without bias reads off a face at rest.

    The skin between the middle of the uppermost cell and its face lets the heat lost through.
    """
    _, up = _conductivities(state, oven)
    middle = slice(0, max(1, state.cells.plastic_columns * 6 // 10))
    hinders = float(state.cells.rows_m[-1]) / (2 * float(up[-1, middle].mean()))
    upper = state.upper_c
    film = oven.loss * float(np.interp(upper, _FILM_C, _films(state.cells)[1]))
    across = film * hinders
    return upper - (upper - oven.ambient_c) * across / (1 + across)


@dataclass(frozen=True, slots=True)
class Flows:
    """Conductances of one span, W/K, and the watts of each cell; arrays of the grid."""

    across: Array
    up: Array
    wall: Array
    face: Array
    base: Array
    watts: Array


def _span(
    state: FieldState, oven: FieldOven, seconds: float, *, on: bool, longest_step_s: float
) -> FieldState:
    flows = _flows(state, oven, on=on)
    steps = math.ceil(seconds / min(longest_step_s, _stable_s(state, flows)) - 1e-9)
    dt = seconds / steps
    plastic = state.cells.plastic
    temp = state.temp_c.copy()
    mass = state.mass_kg[plastic]
    heat = ENTHALPY.of_c(temp[plastic])
    per_k = state.mass_kg * glass.HEAT_CAPACITY_J_KGK.typical
    lost, peak = 0.0, state.peak_c
    for _ in range(steps):
        gain, out = gains(temp, flows, oven.ambient_c)
        temp = temp + dt * gain / per_k
        heat = heat + dt * gain[plastic] / mass
        temp[plastic] = ENTHALPY.to_c(heat)
        lost += dt * out
        peak = max(peak, float(temp[plastic].max()))
    inverse_k = 1 / (temp[plastic] + CELSIUS_K)
    gelled = 1 - (1 - state.gelled) * np.exp(-seconds * oven.gel.at(inverse_k))
    fused = gelled - (gelled - state.fused) * np.exp(-seconds * oven.fuse.at(inverse_k))
    aging = scorch.speed_up(inverse_k, np.asarray(scorch.ACTIVATION_J_MOL.typical))
    return replace(
        state,
        temp_c=temp,
        gelled=gelled,
        fused=fused,
        dose=state.dose + seconds * aging / (scorch.STABLE_MIN_AT_190C.typical * 60),
        at_s=state.at_s + seconds,
        lost_j=state.lost_j + lost,
        gained_j=state.gained_j + seconds * float(flows.watts.sum()),
        peak_c=peak,
    )


def gains(temp: Array, flows: Flows, ambient_c: float) -> tuple[Array, float]:
    """Watts gained by every cell, and watts lost to the outside."""
    gain = flows.watts.copy()
    inward = flows.across * (temp[:, 1:] - temp[:, :-1])
    gain[:, :-1] += inward
    gain[:, 1:] -= inward
    down = flows.up * (temp[1:] - temp[:-1])
    gain[:-1] += down
    gain[1:] -= down
    wall = flows.wall * (temp[:, -1] - ambient_c)
    face = flows.face * (temp[-1] - ambient_c)
    base = flows.base * (temp[0] - ambient_c)
    gain[:, -1] -= wall
    gain[-1] -= face
    gain[0] -= base
    return gain, float(wall.sum() + face.sum() + base.sum())


def _flows(state: FieldState, oven: FieldOven, *, on: bool) -> Flows:
    cells, temp = state.cells, state.temp_c
    across, up = _conductivities(state, oven)
    films = _films(cells)
    watts = np.zeros(temp.shape)
    if on:
        outside = (1 - cells.is_plastic) * cells.volume_m3
        watts = oven.power_w * oven.glass_share * outside / outside.sum()
        shares = plastic_watts(cells, oven.entry, state.plastic_c, oven.loss_ratio)
        watts[cells.plastic] = oven.power_w * (1 - oven.glass_share) * shares
    return Flows(
        across=_between(across, cells.columns_m[None, :], axis=1) * cells.radial_m2,
        up=_between(up, cells.rows_m[:, None], axis=0) * cells.flat_m2[None, :],
        wall=oven.loss * np.interp(temp[:, -1], _FILM_C, films[0]) * cells.outer_m2,
        face=oven.loss * np.interp(temp[-1], _FILM_C, films[1]) * cells.flat_m2,
        base=oven.loss * TABLE_W_M2K * cells.flat_m2,
        watts=watts,
    )


def _conductivities(state: FieldState, oven: FieldOven) -> tuple[Array, Array]:
    cells = state.cells
    across = np.full(state.temp_c.shape, glass.CONDUCTIVITY_W_MK)
    up = across.copy()
    rest = conductivity_w_mk(state.plastic_c)
    sideways, upward = raised(
        cells, state.plastic_c, state.gelled, state.fused, currents=oven.currents
    )
    across[cells.plastic] = rest * sideways
    up[cells.plastic] = rest * upward
    return across, up


def _between(k: Array, size_m: Array, axis: int) -> Array:
    """Conductance over the face between two cells, W/(m²·K): half of each in series."""
    hinders = size_m / (2 * k)
    ends = (slice(None),) * axis
    return np.asarray(1 / (hinders[(*ends, slice(1, None))] + hinders[(*ends, slice(None, -1))]))


def _stable_s(state: FieldState, flows: Flows) -> float:
    """Longest step that keeps every cell from swinging."""
    total = np.zeros(state.temp_c.shape)
    total[:, :-1] += flows.across
    total[:, 1:] += flows.across
    total[:-1] += flows.up
    total[1:] += flows.up
    total[:, -1] += flows.wall
    total[-1] += flows.face
    total[0] += flows.base
    plastic = heat_capacity_j_kgk(state.temp_c)
    capacity = np.where(state.cells.is_plastic > 0, plastic, glass.HEAT_CAPACITY_J_KGK.typical)
    return _STABLE_SHARE * float((state.mass_kg * capacity / total).min())


_FILM_C = np.arange(20.0, 322.0, 2.0)


def _films(cells: Grid) -> tuple[Array, Array]:
    height = float(cells.rows_m.sum())
    diameter = 2 * float(cells.columns_m[: cells.plastic_columns].sum())
    return _film_tables(round(height, 4), round(diameter, 4))


@functools.lru_cache(maxsize=64)
def _film_tables(height_m: float, diameter_m: float) -> tuple[Array, Array]:
    wall = wall_film(_FILM_C, air_c=25.0, height_m=height_m, emissivity=glass.EMISSIVITY)
    face = top_film(_FILM_C, air_c=25.0, diameter_m=diameter_m, emissivity=glass.EMISSIVITY)
    return wall, _WITHIN_RIM * face
