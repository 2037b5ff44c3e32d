"""The whole way of the plastic through a mold: its feed, then its cavities as a chain."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.units import convert
from pourwright.body.body_input import BodyInput
from pourwright.body.chain import chain
from pourwright.body.dead_end import DeadEnd
from pourwright.body.filling import FillingMap, filling_map, nose_xy
from pourwright.fill.branch import BranchPart
from pourwright.fill.slice import SlicePart
from pourwright.forecast.cavity_count import side_by_side
from pourwright.forecast.mold_feed import FeedSizes, MoldFeed, sizes

SLICES, KEPT = 24, 32
# Dead ends that hardly differ are judged once, and no more of them than these, worst first.
ALIKE, MOST_BRANCHES = 0.15, 5
# The very tip of a leg rounds off to nothing and is no part of the way.
THINNEST_MM = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Cavity:
    """One cavity: its order of filling, its slices from the gate, its dead ends."""

    filled: FillingMap
    slices: tuple[SlicePart, ...]
    branches: tuple[BranchPart, ...]
    volume_ml: float
    shadow_cm2: float
    width_mm: float


@functools.lru_cache(maxsize=KEPT)
def cavity_of(body: BodyInput) -> Cavity:
    """The cavity of a body, gated at its nose."""
    solid = body.solid()
    filled = filling_map(solid, nose_xy(solid))
    volume = solid.volume()
    return Cavity(
        filled=filled,
        slices=tuple(
            SlicePart(
                length_mm=s.length_mm, width_mm=s.width_mm, thick_mm=s.thick_mm, copies=s.copies
            )
            for s in chain(filled, SLICES, volume)
        ),
        branches=_branches(filled),
        volume_ml=volume / 1000,
        shadow_cm2=len(filled.xy) * filled.pitch_mm**2 / 100,
        width_mm=float(np.ptp(filled.xy[:, 1])) + filled.pitch_mm,
    )


def feed_of(cavity: Cavity, feed: MoldFeed) -> FeedSizes:
    """The feed of a mold for such cavities."""
    return sizes(feed, bait_width_mm=cavity.width_mm)


def way_of(cavity: Cavity, feed: FeedSizes, cavities: int) -> tuple[SlicePart, ...]:
    """Sprue, runner, gates and so many cavities, in the order of filling."""
    return (*feed.slices(cavities), *side_by_side(cavity.slices, cavities))


def _branches(filled: FillingMap) -> tuple[BranchPart, ...]:
    """The dead ends beside the chain: those long and thin first, alike ones once."""
    kept: list[BranchPart] = []
    for one in sorted((_branch(filled, end) for end in _aside(filled)), key=_ease):
        if not any(_alike(one, other) for other in kept):
            kept.append(one)
    return tuple(kept[:MOST_BRANCHES])


def _aside(filled: FillingMap) -> Iterable[DeadEnd]:
    return (e for e in filled.dead_ends() if e.branch_mm < e.path_mm * (1 - 1e-9))


def _branch(filled: FillingMap, end: DeadEnd) -> BranchPart:
    """Thick at its root as the cavity halfway up and at its tip say."""
    way = filled.way(end.cell)
    left = filled.path_mm[end.cell] - filled.path_mm[way]
    middle = float(filled.gap_mm[way[np.argmin(abs(left - end.branch_mm / 2))]])
    thin = max(min(end.thick_mm, middle), THINNEST_MM)
    return BranchPart(
        label=f"end {end.path_mm:.0f} mm / {convert(end.path_mm, 'mm', 'in'):.1f} in from the gate",
        path_mm=end.path_mm,
        least_thick_mm=thin,
        branch_mm=end.branch_mm,
        root_thick_mm=max(2 * middle - thin, thin),
        flat=end.flat,
    )


def _ease(branch: BranchPart) -> float:
    """How easily it fills: thick and short."""
    return branch.least_thick_mm**2 / branch.length_mm


def _alike(one: BranchPart, other: BranchPart) -> bool:
    return all(
        math.isclose(a, b, rel_tol=ALIKE)
        for a, b in (
            (one.path_mm, other.path_mm),
            (one.length_mm, other.length_mm),
            (one.thickest_mm, other.thickest_mm),
        )
    )
