"""The measuring cups: a straight glass cylinder with a floor, some borosilicate, some soda-lime.

Glass properties from memory, common handbook values.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speed.kitchen.draws import Array, Luck


@dataclass(frozen=True, slots=True, eq=False)
class Glass:
    """Inner radius, wall, floor and inner height of each cup and what it is made of; (n,)."""

    inner_m: Array
    wall_m: Array
    floor_m: Array
    tall_m: Array
    density_kg_m3: Array
    heat_j_kgk: Array
    conduct_w_mk: Array


def draw_glass(luck: Luck, plastic_m3: Array) -> Glass:
    """A cup for each stream that the cold plastic fills to between 55 and 75 %."""
    slender = luck.uniform(0.75, 1.15)
    inner_m = np.cbrt(plastic_m3 / (2 * np.pi * slender))
    borosilicate = luck.whether(0.5)
    return Glass(
        inner_m=inner_m,
        wall_m=luck.uniform(3.5e-3, 5.5e-3),
        floor_m=luck.uniform(5e-3, 9e-3),
        tall_m=2 * inner_m * slender / luck.uniform(0.55, 0.75),
        density_kg_m3=np.where(borosilicate, 2230.0, 2500.0),
        heat_j_kgk=np.where(borosilicate, 830.0, 840.0) * luck.uniform(0.97, 1.06),
        conduct_w_mk=np.where(borosilicate, 1.15, 0.98),
    )
