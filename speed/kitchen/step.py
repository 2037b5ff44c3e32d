"""One step of time for every cup: ripen, then heat along rings, then along rows."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from speed.kitchen.air import Air, floor_w_m2k, surface_w_m2k, wall_w_m2k
from speed.kitchen.cups import Cups, levelled, rim_heat_j_k
from speed.kitchen.draws import Array
from speed.kitchen.field import coupled_w, plastic_pattern
from speed.kitchen.grid import CELL_SHARE, PLASTIC, RINGS, WALL_RINGS, Grid, plastic_mean
from speed.kitchen.lines import solved
from speed.kitchen.links import ring_links, row_links
from speed.kitchen.mixing import conduct_factor
from speed.kitchen.plastic import conductivity_w_mk, enthalpy_j_kg, heat_capacity_j_kgk, temp_c_at
from speed.kitchen.ripening import gelled, ripened

ABOVE_PLASTIC = np.arange(RINGS + WALL_RINGS)[:, None] < RINGS


@dataclass(frozen=True, slots=True, eq=False)
class _Rim:
    """The dry rim over one step: `alone_c` it would have without the wall below, `holds_j_k` what
    warms it by a kelvin, `sheds_j_k` what it loses on both sides for each kelvin over the air.
    """

    alone_c: Array
    holds_j_k: Array
    sheds_j_k: Array


def step(cups: Cups, seconds: Array, on: Array, air: Air) -> Cups:
    """After `seconds` (n,), all above zero, of which the share `on` (n,) with power.

    Each direction is solved implicitly, one after the other (N. N. Yanenko, The Method of
    Fractional Steps, 1971). Fluxes enter the books as they enter the cells.
    """
    plastic, cells, before = cups.ovens.plastic, cups.cells(), cups.temp_c
    cups = replace(cups, ripeness=ripened(plastic, cups.ripeness, cups.plastic_c, seconds))
    mean_c = plastic_mean(cups.plastic_c)
    power_w = on * cups.share * coupled_w(cups.ovens.oven, cups.plastic_kg, mean_c)
    source_j, rim_j = _source(cups, cells, power_w * seconds)
    capacity = _capacity(cups, cells)
    still, stirred = _conductivities(cups)

    side = wall_w_m2k(air, before[:, -1], cups.ovens.glass.tall_m) * seconds
    side *= 2 * np.pi * cells.edge[-1] * cells.high
    links = ring_links(cells, stirred) * seconds
    across = _across(capacity, links, side, before, source_j, air)

    links = row_links(cells, still, stirred, before) * seconds
    rim = _rim(cups, cells, air, rim_j, seconds)
    floor, roof = (w_k * seconds for w_k in _ends(cups, cells, air, still))
    roof[RINGS:] *= rim.holds_j_k / (rim.holds_j_k + roof[RINGS:].sum(axis=0))
    roof_c = np.where(ABOVE_PLASTIC, air.temp_c, rim.alone_c)
    along = _along(capacity, links, (floor, roof, roof_c), across, air)

    upward_j = roof * (along[-1] - roof_c)
    rim_c = rim.alone_c + upward_j[RINGS:].sum(axis=0) / rim.holds_j_k
    lost_j = (
        (side * (across[:, -1] - air.temp_c)).sum(axis=0)
        + (floor * (along[0] - air.temp_c)).sum(axis=0)
        + upward_j[:RINGS].sum(axis=0)
        + rim.sheds_j_k * (rim_c - air.temp_c)
    )
    temp_c = _settled(cups, along)
    return levelled(
        replace(
            cups,
            temp_c=temp_c,
            rim_c=rim_c,
            peak_c=np.maximum(cups.peak_c, temp_c[PLASTIC].max(axis=(0, 1))),
            absorbed_j=cups.absorbed_j + power_w * seconds,
            lost_j=cups.lost_j + lost_j,
        )
    )


def _source(cups: Cups, cells: Grid, joules: Array) -> tuple[Array, Array]:
    """Joules into each cell and into the rim; glass takes its share by mass."""
    oven, glass = cups.ovens.oven, cups.ovens.glass
    if not np.any(joules):
        return np.zeros_like(cups.temp_c), np.zeros_like(joules)
    volume = cells.volume_m3()
    volume[PLASTIC] = 0
    rim_m3 = cells.area[RINGS:].sum(axis=0) * (glass.tall_m - cups.level_m)
    in_glass = joules * oven.glass_share / (volume.sum(axis=(0, 1)) + rim_m3)
    source = volume * in_glass
    pattern = plastic_pattern(oven, cups.ovens.plastic, cups.plastic_c, cells)
    source[PLASTIC] = pattern * (joules * (1 - oven.glass_share))
    return source, rim_m3 * in_glass


def _capacity(cups: Cups, cells: Grid) -> Array:
    """J/K of each cell."""
    glass = cups.ovens.glass
    capacity = cells.volume_m3() * (glass.density_kg_m3 * glass.heat_j_kgk)
    heat = heat_capacity_j_kgk(cups.ovens.plastic, cups.plastic_c)
    capacity[PLASTIC] = CELL_SHARE * cups.plastic_kg * heat
    return capacity


def _conductivities(cups: Cups) -> tuple[Array, Array]:
    """Of everything at rest, and with the plastic's currents."""
    plastic, glass = cups.ovens.plastic, cups.ovens.glass
    still = np.broadcast_to(glass.conduct_w_mk, cups.temp_c.shape).copy()
    still[PLASTIC] = conductivity_w_mk(plastic, cups.plastic_c)
    stirred = still.copy()
    stirred[PLASTIC] *= conduct_factor(
        plastic,
        cups.plastic_c,
        gelled(plastic, cups.ripeness),
        cups.ripeness.fused,
        np.minimum(glass.inner_m, cups.level_m),
    )
    return still, stirred


def _ends(cups: Cups, cells: Grid, air: Air, still: Array) -> tuple[Array, Array]:
    """W/K of each ring: from the floor's underside to the air, and from the top row, where
    plastic to the air, where glass to the dry rim.
    """
    glass = cups.ovens.glass
    floor = cells.area * floor_w_m2k(air, cups.temp_c[0], cells.edge[-1])
    skin = cells.high[-1] / (2 * still[-1, :RINGS])
    off = surface_w_m2k(air, cups.temp_c[-1, :RINGS], glass.inner_m)
    top = cells.area[:RINGS] * off / (1 + off * skin)
    reach = (cells.high[-1] + glass.tall_m - cups.level_m) / 2
    return floor, np.concatenate([top, cells.area[RINGS:] * glass.conduct_w_mk / reach])


def _across(
    capacity: Array, links: Array, side: Array, temp_c: Array, source: Array, air: Air
) -> Array:
    """Temperatures after heat has moved along the rings."""
    diagonal, right = capacity.copy(), capacity * temp_c + source
    diagonal[:, :-1] += links
    diagonal[:, 1:] += links
    diagonal[:, -1] += side
    right[:, -1] += side * air.temp_c
    lines = [np.swapaxes(a, 0, 1) for a in (diagonal, links, right)]
    return np.swapaxes(solved(*lines), 0, 1)


def _along(
    capacity: Array, links: Array, ends: tuple[Array, Array, Array], temp_c: Array, air: Air
) -> Array:
    """Temperatures after heat has moved along the rows."""
    floor, roof, roof_c = ends
    diagonal, right = capacity.copy(), capacity * temp_c
    diagonal[:-1] += links
    diagonal[1:] += links
    diagonal[0] += floor
    diagonal[-1] += roof
    right[0] += floor * air.temp_c
    right[-1] += roof * roof_c
    return solved(diagonal, links, right)


def _rim(cups: Cups, cells: Grid, air: Air, joules: Array, seconds: Array) -> _Rim:
    glass, capacity = cups.ovens.glass, rim_heat_j_k(cups)
    around = 2 * np.pi * (cells.edge[-1] + air.open_top * glass.inner_m)
    off = wall_w_m2k(air, cups.rim_c, glass.tall_m)
    sheds = off * around * (glass.tall_m - cups.level_m) * seconds
    holds = capacity + sheds
    return _Rim((capacity * cups.rim_c + joules + sheds * air.temp_c) / holds, holds, sheds)


def _settled(cups: Cups, linear_c: Array) -> Array:
    """The temperatures that hold the heat which the step moved at fixed heat capacity."""
    plastic, temp_c = cups.ovens.plastic, np.array(linear_c)
    gain = heat_capacity_j_kgk(plastic, cups.plastic_c) * (linear_c[PLASTIC] - cups.plastic_c)
    temp_c[PLASTIC] = temp_c_at(plastic, enthalpy_j_kg(plastic, cups.plastic_c) + gain)
    return temp_c
