"""The front of the plastic marches through the mold, slice by slice, in every draw at once.

It advances by volume: a step in time has no size at the first instant, when nothing resists yet.
One chain, one temperature of the moving melt, a liquid without yield.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.fill.air_way import Air
from pourwright.fill.narrowed import Way, narrowed, way_of
from pourwright.fill.push import Drive
from pourwright.fill.skin import Chill
from pourwright.fill.slice import Chain

# Nobody pushes longer than that.
LONGEST_S = 60.0
# Parts of a slice that fill one after the other.
PARTS = 2

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Shot:
    """One push into one mold; everything but the chain is a draw."""

    chain: Chain
    drive: Drive
    viscosity_pa_s: Array
    chill: Chill
    air: Air


@dataclass(frozen=True, slots=True, eq=False)
class Front:
    """How far each draw has come.

    `shut` is the slice whose skins met, -1 where none did; `arrived_s` is when each slice was
    reached.
    """

    going: Flags
    clock_s: Array
    flow_m3_s: Array
    peak_m3_s: Array
    volume_m3: Array
    length_m: Array
    shut: NDArray[np.intp]
    arrived_s: Array


@dataclass(frozen=True, slots=True, eq=False)
class _Step:
    """A part of a slice: how long it takes each draw, what flows, and which slices are shut."""

    seconds: Array
    flow_m3_s: Array
    shut: Flags


def march(shot: Shot) -> Front:
    """Push until the mold is full, or the skins of a slice meet, or a minute is over.

    Draws still going at the end have filled the chain.
    """
    front, way = _start(shot), way_of(shot.chain, shot.chill)
    volume = np.repeat(shot.chain.volume_m3 / PARTS, PARTS)
    filled = (np.cumsum(volume) - volume) / volume.sum()
    for i, (part_m3, share) in enumerate(zip(volume, filled, strict=True)):
        at, part = divmod(i, PARTS)
        if part == 0:
            front.arrived_s[at] = front.clock_s
        step = _step(shot, way, front, at, (part + 0.5) / PARTS, float(part_m3), float(share))
        front = _moved(shot, front, step, at, float(part_m3))
        if not front.going.any():
            break
    return front


def _start(shot: Shot) -> Front:
    none = np.zeros_like(shot.viscosity_pa_s)
    return Front(
        going=shot.chill.fluid,
        clock_s=none,
        flow_m3_s=shot.drive.most_m3_s,
        peak_m3_s=none,
        volume_m3=none,
        length_m=none,
        shut=np.full(none.shape, -1, np.intp),
        arrived_s=np.full((len(shot.chain.part), *none.shape), np.inf),
    )


def _step(
    shot: Shot, way: Way, front: Front, at: int, middle: float, part_m3: float, filled: float
) -> _Step:
    """The part taken at its middle, reached as fast as the part before went by."""
    then_s = front.clock_s + part_m3 / front.flow_m3_s / 2
    age_s = np.maximum(then_s - front.arrived_s[: at + 1], 0.0)
    now = narrowed(way, shot.viscosity_pa_s, age_s=age_s, flow_m3_s=front.flow_m3_s)
    now.resistance[at] *= middle
    free = shot.air.lets_flow(
        push_pa=shot.drive.pressure_pa, resistance=now.resistance.sum(axis=0), filled=filled
    )
    flow = np.minimum(free, shot.drive.most_m3_s)
    return _Step(part_m3 / flow, flow, now.shut)


def _moved(shot: Shot, front: Front, step: _Step, at: int, part_m3: float) -> Front:
    closed = front.going & step.shut.any(axis=0)
    going = front.going & ~closed & (front.clock_s + step.seconds <= LONGEST_S)
    return Front(
        going=going,
        clock_s=np.where(going, front.clock_s + step.seconds, front.clock_s),
        flow_m3_s=np.where(going, step.flow_m3_s, front.flow_m3_s),
        peak_m3_s=np.where(going, np.maximum(front.peak_m3_s, step.flow_m3_s), front.peak_m3_s),
        volume_m3=front.volume_m3 + going * part_m3,
        length_m=front.length_m + going * (shot.chain.length_m[at] / PARTS),
        shut=np.where(closed, step.shut.argmax(axis=0), front.shut),
        arrived_s=front.arrived_s,
    )
