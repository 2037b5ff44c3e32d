"""Thin tails that lie in the parting plane: sickles that curl, ribbons that wave."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid, swept

# How much of a tail its thick root takes, and how thick it is there against the body's end.
ROOT_TAKES, ROOT_THICK = 0.16, 0.75
STATIONS = 81


@dataclass(frozen=True, slots=True, kw_only=True)
class Blade:
    """Width and thickness of a tail from its root (s = 0) to its tip (s = 1)."""

    root_mm: float
    width_mm: float
    thick_mm: float

    def along(self, path: Array, *, broadest: float) -> Solid:
        """The tail along a path, broadest at that share of it."""
        s = np.linspace(0, 1, len(path))
        root = ROOT_THICK * self.root_mm * np.clip(1 - s / ROOT_TAKES, 0, 1) ** 2
        width = np.maximum(self.width_mm * _outline(s, broadest), root)
        thick = np.maximum(self.thick_mm * (1 - 0.25 * s), root)
        return swept(path, width / 2, thick / 2, points=24)


def _outline(s: Array, broadest: float) -> Array:
    """Share of the full width: a third at the root, full where broadest, none at the tip."""
    rising = 1 / 3 + 2 / 3 * np.sin(math.pi / 2 * np.minimum(s / broadest, 1)) ** 1.5
    falling = (1 - np.clip((s - broadest) / (1 - broadest), 0, 1) ** 2) ** 0.85
    return np.asarray(rising * falling)


def curl(turn_degrees: float, radius_mm: float, *, first: float) -> Array:
    """A path from the origin along x that turns toward y, its bend growing evenly to its tip.

    It leaves with the share `first` of its tightest bend, which has the stated radius.
    """
    halfway = (np.arange(STATIONS - 1) + 0.5) / (STATIONS - 1)
    turn = math.radians(turn_degrees)
    length = turn * radius_mm * 2 / (1 + first)
    heading = turn * (first * halfway + (1 - first) * halfway**2 / 2) * 2 / (1 + first)
    steps = np.stack([np.cos(heading), np.sin(heading)], axis=1) * length / (STATIONS - 1)
    return np.vstack([np.zeros(2), np.cumsum(steps, axis=0)])


def wave(length_mm: float, swing_mm: float, bends: int) -> Array:
    """A path from the origin along x that swings to either side and ends in its last bend."""
    s = np.linspace(0, 1, STATIONS)
    settled = np.clip(s * (2 * bends - 1), 0, 1)
    reach = swing_mm / 2 * settled**2 * (3 - 2 * settled)
    side = np.sin(math.pi / 2 * (2 * bends - 1) * s) if bends else np.zeros_like(s)
    return np.stack([length_mm * s, reach * side], axis=1)


def tightest_mm(length_mm: float, swing_mm: float, bends: int) -> float:
    """Radius of the tightest bend of such a wave; infinite for a straight one."""
    if not bends or not swing_mm:
        return math.inf
    per_mm = math.pi / 2 * (2 * bends - 1) / length_mm
    return 1 / (swing_mm / 2 * per_mm**2)
