"""The truth of many kitchens at once, and one cup standing in each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from speed.kitchen.air import Air, draw_room
from speed.kitchen.draws import Array, Counts, luck
from speed.kitchen.field import Oven, cup_share, draw_oven
from speed.kitchen.glass import Glass, draw_glass
from speed.kitchen.grid import (
    FLOOR_ROWS,
    PLASTIC,
    RINGS,
    ROW_SHARE,
    ROWS,
    WALL,
    WALL_RINGS,
    Grid,
    grid,
    plastic_mean,
    stretched,
)
from speed.kitchen.plastic import BASE_C, Plastic, density_kg_m3, draw_plastic, enthalpy_j_kg
from speed.kitchen.ripening import Ripeness

G_PER_KG = 1000.0
LEAST_G = 5.0
FREE_M = 3e-3
"""Rim that must stay dry, or the cup runs over."""
_PLASTIC, _GLASS, _OVEN, _ROOM, _THERMOMETER, _CUP, _STIR, _HAND = range(8)


@dataclass(frozen=True, slots=True, eq=False)
class Ovens:
    """Everything that is true of each of n kitchens: `seed` (n,) decides all of it.

    `renewal_s` is how long a patch of the surface lasts under the maker's stirring.
    """

    seed: Counts
    oven: Oven
    plastic: Plastic
    glass: Glass
    room: Air
    infrared_bias_k: Array
    probe_bias_k: Array
    renewal_s: Array

    def __len__(self) -> int:
        return len(self.seed)


@dataclass(frozen=True, slots=True, eq=False)
class Cups:
    """One cup in each kitchen.

    `temp_c` (floor and plastic rows, plastic and wall rings, n) and `rim_c` (n,), the dry glass
    above the level; `ripeness` of the plastic; `level_m` where the plastic stands; `peak_c` the
    hottest any plastic cell has been. Books in joules: `absorbed_j` from the oven, `lost_j` to
    the air, `carried_j` with plastic added less plastic drawn.
    """

    ovens: Ovens
    number: Counts
    share: Array
    stirs: Counts
    plastic_kg: Array
    level_m: Array
    temp_c: Array
    rim_c: Array
    ripeness: Ripeness
    peak_c: Array
    absorbed_j: Array
    lost_j: Array
    carried_j: Array

    def __len__(self) -> int:
        return len(self.level_m)

    @property
    def plastic_c(self) -> Array:
        """Of the plastic cells, (rows, rings, n)."""
        return self.temp_c[PLASTIC]

    def cells(self) -> Grid:
        """Their sizes at the present level."""
        return grid(self.ovens.glass, self.level_m)


def draw_ovens(seeds: Sequence[int], *, plastic_g: ArrayLike, checked: bool = False) -> Ovens:
    """One kitchen for each seed, its cup chosen to suit `plastic_g` grams.

    `checked` says whether the infrared thermometer was held against a probe; the same seed gives
    the same luck either way.
    """
    plastic = draw_plastic(luck(seeds, _PLASTIC))
    cold_m3 = np.asarray(plastic_g, float) / G_PER_KG / plastic.density_kg_m3
    thermometer = luck(seeds, _THERMOMETER)
    return Ovens(
        seed=np.array(seeds, dtype=np.int64),
        oven=draw_oven(luck(seeds, _OVEN)),
        plastic=plastic,
        glass=draw_glass(luck(seeds, _GLASS), cold_m3),
        room=draw_room(luck(seeds, _ROOM)),
        infrared_bias_k=thermometer.normal(1) * (0.5 if checked else 2.0),
        probe_bias_k=thermometer.normal(0.7),
        renewal_s=0.5 * luck(seeds, _HAND).factor(0.5),
    )


def fresh_cups(
    ovens: Ovens, cup_number: ArrayLike, plastic_g: ArrayLike, start_c: ArrayLike
) -> Cups:
    """A cup of raw plastic in each kitchen, glass and plastic at `start_c`.

    `cup_number` counts from 0 the cups cooked one after another in that oven.
    """
    count = len(ovens)
    number = np.broadcast_to(np.asarray(cup_number, np.int64), (count,)).copy()
    warm = np.broadcast_to(np.asarray(start_c, float), (count,)).copy()
    raw = np.zeros((ROWS, RINGS, count))
    cups = Cups(
        ovens=ovens,
        number=number,
        share=cup_share(ovens.oven, number.astype(float), luck(ovens.seed, _CUP, number)),
        stirs=np.zeros(count, np.int64),
        plastic_kg=np.broadcast_to(np.asarray(plastic_g, float) / G_PER_KG, (count,)).copy(),
        level_m=ovens.glass.tall_m - FREE_M,
        temp_c=np.broadcast_to(warm, (FLOOR_ROWS + ROWS, RINGS + WALL_RINGS, count)).copy(),
        rim_c=warm.copy(),
        ripeness=Ripeness(raw, raw, raw),
        peak_c=warm.copy(),
        absorbed_j=np.zeros(count),
        lost_j=np.zeros(count),
        carried_j=np.zeros(count),
    )
    return levelled(cups)


def levelled(cups: Cups) -> Cups:
    """With the plastic standing where its mass and mean temperature put it.

    Wall rows follow the level and trade glass with the rim, so that no heat is lost.
    Raises `ValueError` for a cup that runs over or is all but empty.
    """
    glass, plastic = cups.ovens.glass, cups.ovens.plastic
    if np.any(cups.plastic_kg < LEAST_G / G_PER_KG):
        raise ValueError(f"a cup holds less than {LEAST_G:g} g")
    density = density_kg_m3(plastic, plastic_mean(cups.plastic_c))
    level_m = cups.plastic_kg / density / (np.pi * glass.inner_m**2)
    if np.any(level_m > glass.tall_m - FREE_M):
        raise ValueError("a cup runs over")
    wall = cups.temp_c[WALL]
    beyond = np.broadcast_to(cups.rim_c, wall.shape[1:])
    news = stretched(wall, beyond, level_m / cups.level_m)
    temp_c = cups.temp_c.copy()
    temp_c[WALL] = news
    shifted = _wall_heat(cups, wall, cups.level_m) - _wall_heat(cups, news, level_m)
    rim = (cups.rim_c * (glass.tall_m - cups.level_m) + shifted) / (glass.tall_m - level_m)
    return replace(cups, level_m=level_m, temp_c=temp_c, rim_c=rim)


def _wall_heat(cups: Cups, wall: Array, level_m: Array) -> Array:
    """Mean temperature of the wetted wall times its height."""
    area = cups.cells().area[RINGS:]
    by_ring = (wall * ROW_SHARE[:, None, None]).sum(axis=0)
    return np.asarray((by_ring * area).sum(axis=0) / area.sum(axis=0) * level_m)


def rim_heat_j_k(cups: Cups) -> Array:
    """Heat capacity of the dry glass."""
    glass = cups.ovens.glass
    ring_m2 = cups.cells().area[RINGS:].sum(axis=0)
    dry_m3 = ring_m2 * (glass.tall_m - cups.level_m)
    return np.asarray(glass.density_kg_m3 * glass.heat_j_kgk * dry_m3)


def held_j(cups: Cups) -> Array:
    """Heat in plastic and glass above 25 °C."""
    glass = cups.ovens.glass
    warm = (cups.temp_c - BASE_C) * cups.cells().volume_m3()
    warm[PLASTIC] = 0
    in_glass = warm.sum(axis=(0, 1)) * glass.density_kg_m3 * glass.heat_j_kgk
    in_plastic = plastic_mean(enthalpy_j_kg(cups.ovens.plastic, cups.plastic_c)) * cups.plastic_kg
    in_rim = rim_heat_j_k(cups) * (cups.rim_c - BASE_C)
    return np.asarray(in_plastic + in_glass + in_rim)
