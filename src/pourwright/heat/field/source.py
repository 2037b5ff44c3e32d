"""Where the microwaves go: watts to each cell of plastic, by a pattern and the penetration depth.

Waves enter through the wall, the face and the base and fade as exp(-depth / penetration depth)
(Lambert); the rest comes from everywhere at once. Hot plastic lets them in deeper or less deep, so
the pattern drifts while the cup heats.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.heat.field.grid import Grid
from pourwright.matter import dielectric
from pourwright.physics.dielectric import penetration_depth_m


class Pattern(StrEnum):
    """Where an oven's waves mostly enter the cup."""

    WALL = "wall"
    EVEN = "even"
    TOP = "top"
    BASE = "base"


@dataclass(frozen=True, slots=True)
class Entry:
    """Shares of the power that enter through wall, face and base; the rest is everywhere."""

    wall: float
    face: float
    base: float


PATTERNS = {
    Pattern.WALL: Entry(0.55, 0.25, 0.08),
    Pattern.EVEN: Entry(0.35, 0.15, 0.10),
    Pattern.TOP: Entry(0.40, 0.45, 0.05),
    Pattern.BASE: Entry(0.45, 0.15, 0.25),
}


def plastic_watts(cells: Grid, entry: Entry, temp_c: Array, loss_ratio: float) -> Array:
    """Watts in each plastic cell for one watt in all; `temp_c` has the shape of the plastic."""
    real, loss = dielectric.permittivity(temp_c)
    fades = 1 / penetration_depth_m(real, loss * loss_ratio, dielectric.OVEN_HZ)
    across = fades * cells.columns_m[: cells.plastic_columns][None, :]
    up = fades * cells.rows_m[cells.glass_rows :][:, None]
    from_axis, whole = _to_middle(across, axis=1)
    from_base, depth = _to_middle(up, axis=0)
    inward = np.exp(from_axis - whole) + np.exp(-from_axis - whole)
    parts = (
        (entry.wall, fades * inward),
        (entry.face, fades * np.exp(from_base - depth)),
        (entry.base, fades * np.exp(-from_base)),
        (1 - entry.wall - entry.face - entry.base, fades),
    )
    volume = cells.volume_m3[cells.plastic]
    shares = np.zeros_like(volume)
    for share, density in parts:
        watts = density * volume
        shares += share * watts / watts.sum()
    return shares


def _to_middle(depths: Array, axis: int) -> tuple[Array, Array]:
    """Optical depth from the first edge to each middle, and the whole of it."""
    ends = np.cumsum(depths, axis=axis)
    return ends - depths / 2, ends.take([-1], axis=axis)
