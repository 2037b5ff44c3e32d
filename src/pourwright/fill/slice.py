"""The way of the plastic through a mold, cut into slices that fill one after the other."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, pick
from pourwright.base.record import Record

# Fine enough for 1 % of the time of a tube; coarse enough for a tenth of a second a mold.
FINEST_MM, MOST_SLICES = 2.0, 60


class Part(StrEnum):
    """Which part of the mold a slice belongs to."""

    SPRUE = "sprue"
    RUNNER = "runner"
    GATE = "gate"
    CAVITY = "cavity"


FEED = (Part.SPRUE, Part.RUNNER, Part.GATE)


@dataclass(frozen=True, slots=True, kw_only=True)
class SlicePart(Record):
    """A piece of the way, taken as an ellipse of the same section all along."""

    length_mm: float = number("Length along the flow", low=0.05, high=1000)
    width_mm: float = number("Width of the section", low=0.05, high=300)
    thick_mm: float = number("Thickness of the section, its smaller measure", low=0.05, high=100)
    copies: int = number(
        "How many of it fill side by side in the whole mold", low=1, high=200, default=1
    )
    part: Part = pick("Which part of the mold it is", default=Part.CAVITY)

    def check(self) -> None:
        """Refuse a slice that is thicker than wide."""
        if self.thick_mm > self.width_mm * (1 + 1e-9):
            why = f"must not exceed the width of {self.width_mm:g} mm: swap the two"
            raise BadInput("thick_mm", self.thick_mm, why)


@dataclass(frozen=True, slots=True, eq=False)
class Chain:
    """Slices in the order of filling; arrays of one entry a slice, in meters.

    `copies` may be a fraction where fewer cavities share what is left of a branch.
    """

    length_m: Array
    half_width_m: Array
    half_thick_m: Array
    copies: Array
    part: tuple[Part, ...]

    @property
    def volume_m3(self) -> Array:
        """Volume of all copies of each slice."""
        section = np.pi * self.half_width_m * self.half_thick_m
        return np.asarray(section * self.length_m * self.copies)

    @property
    def reach_m(self) -> Array:
        """Distance from the nozzle to the middle of each slice."""
        return np.asarray(np.cumsum(self.length_m) - self.length_m / 2)

    @property
    def feed_m(self) -> float:
        """Length of sprue, runner and gate together."""
        return float(self.length_m[self._is(FEED)].sum())

    def at(self, distance_m: float) -> int:
        """The slice that holds a place so far from the nozzle; the last one beyond the end."""
        ends = np.cumsum(self.length_m)
        return min(int(np.searchsorted(ends, distance_m * (1 + 1e-12))), len(ends) - 1)

    def with_cavities(self, now: int, wanted: int) -> Chain:
        """The same mold with another number of its cavities filled."""
        sharing = self._is((Part.GATE, Part.CAVITY))
        fewer = np.where(sharing, self.copies * wanted / now, np.minimum(self.copies, wanted))
        return replace(self, copies=fewer)

    def with_gate(self, larger_mm: float) -> Chain:
        """The same mold with every gate wider and thicker by so much."""
        grown = np.where(self._is((Part.GATE,)), larger_mm / 2000, 0.0)
        return replace(
            self, half_width_m=self.half_width_m + grown, half_thick_m=self.half_thick_m + grown
        )

    def _is(self, wanted: tuple[Part, ...]) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
        return np.array([p in wanted for p in self.part])


def chain_of(slices: Iterable[SlicePart]) -> Chain:
    """The slices of a mold cut fine, every piece as long as its neighbors of the same slice."""
    given = tuple(slices)
    total = sum(s.length_mm for s in given)
    finest = max(FINEST_MM, total / MOST_SLICES)
    pieces = [max(1, math.ceil(s.length_mm / finest - 1e-9)) for s in given]
    cut = [
        (s, s.length_mm / n / 1000) for s, n in zip(given, pieces, strict=True) for _ in range(n)
    ]
    return Chain(
        length_m=np.array([length for _, length in cut]),
        half_width_m=np.array([s.width_mm for s, _ in cut]) / 2000,
        half_thick_m=np.array([s.thick_mm for s, _ in cut]) / 2000,
        copies=np.array([float(s.copies) for s, _ in cut]),
        part=tuple(s.part for s, _ in cut),
    )


def refuse_shuffled(slices: tuple[SlicePart, ...]) -> None:
    """Raises: BadInput where sprue, runner, gate and cavity do not follow in that order."""
    order = list(Part)
    for i, (before, after) in enumerate(itertools.pairwise(slices)):
        if order.index(after.part) < order.index(before.part):
            why = f"a {after.part.value} cannot come after a {before.part.value}"
            raise BadInput(f"chain[{i + 1}].part", after.part.value, why)
