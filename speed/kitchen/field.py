"""Where the oven's power goes: how much the load takes, and in which cells."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speed.kitchen.draws import Array, Luck
from speed.kitchen.grid import FLOOR_ROWS, RINGS, Grid
from speed.kitchen.plastic import BASE_C, Plastic, absorption_per_m

LOAD_KG = 0.5
"""The load for which `power_w` holds."""
CUP_TO_CUP = 0.03


@dataclass(frozen=True, slots=True, eq=False)
class Oven:
    """Label, power and habits of each oven, (n,).

    `power_w` is what half a kilogram takes, `half_load_kg` the load that would take half of what
    an endless one does. `side`, `top`, `bottom` and `even` share the plastic's power and sum to
    one; `drift_per_k` is how coupled power changes with the plastic's mean temperature.
    """

    label_w: Array
    power_w: Array
    half_load_kg: Array
    side: Array
    top: Array
    bottom: Array
    even: Array
    glass_share: Array
    drift_per_k: Array
    droop: Array
    warm_up_s: Array
    fan: Array
    air_rise_k: Array


def draw_oven(luck: Luck) -> Oven:
    """An oven for each stream."""
    label_w = np.round(luck.uniform(600, 1200) / 50) * 50
    ways = np.stack([luck.uniform(*w) for w in ((35, 75), (5, 35), (3, 25), (5, 30))])
    side, top, bottom, even = ways / ways.sum(axis=0)
    return Oven(
        label_w=label_w,
        power_w=0.66 * label_w * luck.factor(0.22),
        half_load_kg=luck.uniform(0.05, 0.20),
        side=side,
        top=top,
        bottom=bottom,
        even=even,
        glass_share=luck.uniform(0.01, 0.08),
        drift_per_k=luck.uniform(-8e-4, 8e-4),
        droop=luck.uniform(0, 0.05),
        warm_up_s=luck.uniform(1.5, 3),
        fan=luck.factor(0.25),
        air_rise_k=luck.uniform(3, 15),
    )


def cup_share(oven: Oven, number: Array, luck: Luck) -> Array:
    """What the n-th cup in a row (from 0) takes of the oven's power: it droops as the oven warms
    up and no two cups stand alike.
    """
    return np.asarray((1 - oven.droop * (1 - np.exp(-number / 1.5))) * luck.factor(CUP_TO_CUP))


def coupled_w(oven: Oven, plastic_kg: Array, mean_c: Array) -> Array:
    """Power into cup and plastic."""
    load = plastic_kg / (plastic_kg + oven.half_load_kg)
    load /= LOAD_KG / (LOAD_KG + oven.half_load_kg)
    return oven.power_w * load * (1 + oven.drift_per_k * (mean_c - BASE_C))


def plastic_pattern(oven: Oven, plastic: Plastic, temp_c: Array, cells: Grid) -> Array:
    """Share of the plastic's power in each of its cells, (rows, rings, n); sums to one.

    Each way in is weakened exponentially on its way (Lambert), by what the plastic there
    swallows at its own temperature; from the side it goes on beyond the axis.
    """
    bite = absorption_per_m(plastic, temp_c)
    takes = bite * (cells.high[FLOOR_ROWS:, None] * cells.area[:RINGS])
    inward = bite * cells.wide[:RINGS]
    to_axis = np.cumsum(inward, axis=1)
    near = np.exp(to_axis - inward / 2 - to_axis[:, -1:])
    far = np.exp(-2 * to_axis[:, -1:]) / near
    upward = bite * cells.high[FLOOR_ROWS:, None]
    from_floor = np.cumsum(upward, axis=0)
    below = np.exp(upward / 2 - from_floor)
    above = np.exp(-from_floor[-1:]) / below
    return np.asarray(
        _shared(oven.side, takes * (near + far))
        + _shared(oven.top, takes * above)
        + _shared(oven.bottom, takes * below)
        + _shared(oven.even, takes)
    )


def _shared(part: Array, raw: Array) -> Array:
    raw *= part / raw.sum(axis=(0, 1))
    return raw
