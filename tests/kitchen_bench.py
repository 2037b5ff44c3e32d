"""Invented kitchens bent toward a closed form: what the checks of `speed.kitchen` start from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from speed import kitchen
from speed.kitchen.air import Air
from speed.kitchen.cups import Ovens
from speed.kitchen.draws import Array

POUR_G = 498.0
START_C = 22.0


def ones(n: int, value: float = 1.0) -> Array:
    """n times that value."""
    return np.full(n, float(value))


def drawn(n: int) -> Ovens:
    """The first n kitchens."""
    return kitchen.draw_ovens(range(n), plastic_g=POUR_G)


def changed(ovens: Ovens, **parts: Mapping[str, float]) -> Ovens:
    """`ovens` with single arrays of its parts set to one value, given as part={name: value}."""
    news = {
        part: replace(getattr(ovens, part), **{k: ones(len(ovens), v) for k, v in values.items()})
        for part, values in parts.items()
    }
    return replace(ovens, **news)


def tight(ovens: Ovens) -> Ovens:
    """Nothing leaves for the air."""
    return changed(ovens, room={"fan": 0, "glass_emits": 0, "plastic_emits": 0})


def still(ovens: Ovens) -> Ovens:
    """Plain conduction with constant properties in a cup of next to no glass."""
    plain = {"heat_slope_per_k": 0, "conduct_slope_per_k": 0, "swell_per_k": 1e-12}
    return changed(
        ovens,
        plastic={**plain, "mixing_gain": 0},
        glass={"heat_j_kgk": 1e-6, "conduct_w_mk": 1e4},
    )


def plain_air(temp_c: float, *, emits: float = 0, fan: float = 1) -> Air:
    """Around one cup, its top as open as its wall."""
    return Air(ones(1, temp_c), ones(1, fan), ones(1, emits), ones(1, emits), ones(1))
