"""A forecast with its range."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """A value with the range that holds it nine times in ten."""

    low: float
    typical: float
    high: float

    def __post_init__(self) -> None:
        if not all(math.isfinite(v) for v in (self.low, self.typical, self.high)):
            raise ValueError(f"a band needs finite ends: {self.low}, {self.typical}, {self.high}")
        if not self.low <= self.typical <= self.high:
            raise ValueError(f"a band needs low <= typical <= high: {self}")

    def scaled(self, factor: float) -> Band:
        """The band in another unit; a negative factor swaps its ends."""
        ends = sorted((self.low * factor, self.high * factor))
        return Band(ends[0], self.typical * factor, ends[1])

    @property
    def half_width(self) -> float:
        """Half the distance from low to high."""
        return (self.high - self.low) / 2


def rounded_to(step: float) -> Band:
    """What rounding to the nearest step leaves open: errors spread evenly over half a step."""
    return Band(-0.45 * step, 0.0, 0.45 * step)


def exact(value: float) -> Band:
    """A value taken as certain."""
    return Band(value, value, value)
