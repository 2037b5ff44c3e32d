"""Where in a bait each layer of a look lies: lines between layers, a vein, a core."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

import numpy as np

from pourwright.base.draws import Array

# How fast a vein and a core fade into the plastic around them; estimate.
EDGE_MM = 0.1


class Place(StrEnum):
    """Where in the bait a layer lies."""

    BODY = "body"
    BELLY = "belly"
    BACK = "back"
    VEIN = "vein"
    CORE = "core"


# Layers that lie one on the other, from the belly up; the others lie within them.
STACK = (Place.BELLY, Place.BODY, Place.BACK)


class Wave(NamedTuple):
    """One swing of the line between two layers along the bait."""

    amplitude_mm: float
    length_mm: float
    phase_rad: float
    slant_rad_per_mm: float


@dataclass(frozen=True, slots=True)
class Profile:
    """The round of plastic about the bait's middle, station by station along its length."""

    station_mm: Array
    mid_up_mm: Array
    half_up_mm: Array
    mid_across_mm: Array
    half_across_mm: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """Where each layer lies, in the bait's own frame: nose at x = 0, mm.

    `up` is the axis that the back points along (1 or 2), `across` the other one; `low_mm` and
    `high_mm` are how far the bait reaches along `up`. Of two layers one over the other `line_mm`
    parts them; of three it is the upper line and `low_line_mm` the lower one. The vein is a band
    as high as `vein_thick_mm` about `vein_mm` and as wide as `vein_wide_mm`, the core the inner
    `core_share` of the profile. Lines and vein swing along the bait with the `waves`.
    """

    places: tuple[str, ...]
    up: int
    low_mm: float
    high_mm: float
    line_mm: float
    low_line_mm: float
    soft_mm: float
    waves: tuple[Wave, ...]
    vein_mm: float
    vein_thick_mm: float
    vein_wide_mm: float
    core_share: float
    profile: Profile

    @property
    def across(self) -> int:
        """The axis that is neither along the bait nor up."""
        return 3 - self.up

    @property
    def stack(self) -> tuple[str, ...]:
        """The layers that lie one on the other, from the belly up; never none."""
        return stack_of(self.places)

    @property
    def lines_mm(self) -> tuple[float, ...]:
        """Heights of the lines between the layers of the stack, from below."""
        return (self.low_line_mm, self.line_mm)[3 - len(self.stack) :]

    def share_of_height(self, up_mm: float) -> float:
        """A height as a share of the bait's, 0 at its lowest place."""
        return (up_mm - self.low_mm) / (self.high_mm - self.low_mm)

    def holds(self, place: Place) -> bool:
        """Whether a vein or a core lies within the other layers."""
        return place in self.places and place not in self.stack

    def swing_mm(self, x_mm: Array, across_mm: Array) -> Array:
        """How far the lines are off their height."""
        swing = np.zeros_like(x_mm)
        for wave in self.waves:
            turn = 2 * np.pi * x_mm / wave.length_mm + wave.phase_rad
            swing = swing + wave.amplitude_mm * np.sin(turn + wave.slant_rad_per_mm * across_mm)
        return swing

    def at(self, values: Array, x_mm: Array) -> Array:
        """A column of the profile, straight between its stations."""
        return np.interp(x_mm, self.profile.station_mm, values)

    def weights(self, points_mm: Array) -> Array:
        """Share of each layer at some points, shape (n, places); every row adds up to 1."""
        x, up, across = points_mm[:, 0], points_mm[:, self.up], points_mm[:, self.across]
        share = dict.fromkeys(self.places, np.zeros(len(points_mm)))
        left = np.ones(len(points_mm))
        if self.holds(Place.CORE):
            share[Place.CORE] = self._core(x, up, across)
            left = left - share[Place.CORE]
        if self.holds(Place.VEIN):
            share[Place.VEIN] = left * self._vein(x, up, across)
            left = left - share[Place.VEIN]
        for place, inside in zip(self.stack, self._stacked(x, up, across), strict=True):
            share[place] = left * inside
        return np.stack([share[place] for place in self.places], axis=1)

    def _stacked(self, x: Array, up: Array, across: Array) -> list[Array]:
        """Share of each layer of the stack where neither vein nor core lies, from the belly up."""
        height = up - self.swing_mm(x, across)
        over = [_risen((height - line) / self.soft_mm) for line in self.lines_mm]
        edges = [np.ones_like(up), *over, np.zeros_like(up)]
        return [below - above for below, above in itertools.pairwise(edges)]

    def _vein(self, x: Array, up: Array, across: Array) -> Array:
        height = up - self.swing_mm(x, across)
        high = self.vein_thick_mm / 2 - np.abs(height - self.vein_mm)
        wide = self.vein_wide_mm / 2 - np.abs(across - self.at(self.profile.mid_across_mm, x))
        return _risen(high / EDGE_MM) * _risen(wide / EDGE_MM)

    def _core(self, x: Array, up: Array, across: Array) -> Array:
        half_up = np.maximum(self.at(self.profile.half_up_mm, x), EDGE_MM)
        half_across = np.maximum(self.at(self.profile.half_across_mm, x), EDGE_MM)
        out = np.hypot(
            (up - self.at(self.profile.mid_up_mm, x)) / half_up,
            (across - self.at(self.profile.mid_across_mm, x)) / half_across,
        )
        depth_mm = (self.core_share - out) * np.minimum(half_up, half_across)
        return _risen(depth_mm / EDGE_MM)


def stack_of(places: tuple[str, ...]) -> tuple[str, ...]:
    """The layers that lie one on the other, from the belly up; a lone other one fills the bait."""
    return tuple(place for place in STACK if place in places) or places[:1]


def _risen(steps: Array) -> Array:
    """A logistic step from 0 to 1 about 0."""
    return np.asarray(0.5 + 0.5 * np.tanh(steps / 2))
