"""Volume of each layer of a bait: thin bars of plastic along its height, cut where layers part.

Source: Cavalieri's principle.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Grid, crossings, triangles
from pourwright.body.division import Division, Place
from pourwright.body.loft import Solid

# Bars over the box around the bait: enough for shares within a thousandth.
BARS = 30_000


@dataclass(frozen=True, slots=True)
class Bars:
    """Every run of plastic along `up`: where it stands and from which height to which.

    Each is `long_mm` along the bait and `wide_mm` across it.
    """

    x_mm: Array
    across_mm: Array
    from_mm: Array
    to_mm: Array
    long_mm: float
    wide_mm: float

    @property
    def section_mm2(self) -> float:
        """Section of one bar."""
        return self.long_mm * self.wide_mm

    @property
    def volume_mm3(self) -> float:
        """Volume of all of them."""
        return float(_long(self.from_mm, self.to_mm).sum()) * self.section_mm2


def bars_of(solid: Solid, up: int) -> Bars:
    """The bars of a solid along the axis that its back points along."""
    corners = triangles(solid)[:, :, (0, 3 - up, up)]
    low, high = corners.min(axis=(0, 1))[:2], corners.max(axis=(0, 1))[:2]
    count = np.ceil((high - low) * np.sqrt(BARS / np.prod(high - low)))
    # Bars that just fill the box, so that a straight side cuts none of them.
    side = (high - low) / count
    long, wide = (int(v) for v in count)
    corners = (corners - [*low, 0.0]) / [*side, 1.0]
    grid = Grid((0.0, 0.0), 1.0, (long, wide))
    cell, one, other = crossings(corners, grid).gaps()
    column, row = np.divmod(cell, wide)
    # Two axes changed places turn a solid inside out, so that its rays come out where they go in.
    ends = np.minimum(one, other), np.maximum(one, other)
    x, across = low[0] + side[0] * (column + 0.5), low[1] + side[1] * (row + 0.5)
    return Bars(x, across, *ends, float(side[0]), float(side[1]))


def volumes(bars: Bars, division: Division) -> Mapping[str, float]:
    """Volume of each layer, mm³, its edges taken as sharp."""
    cut = Cut(bars, division)
    over = [cut.free_over(line) for line in division.lines_mm]
    edges = [cut.free_over(-np.inf), *over, 0.0]
    layers = {
        place: below - above
        for place, (below, above) in zip(division.stack, itertools.pairwise(edges), strict=True)
    }
    within = {Place.VEIN: cut.vein, Place.CORE: cut.core}
    layers |= {place: found() for place, found in within.items() if division.holds(place)}
    return {place: layers[place] for place in division.places}


class Cut:
    """Bars with the runs that a vein and a core take out of them."""

    def __init__(self, bars: Bars, division: Division) -> None:
        self._bars = bars
        self._area = bars.section_mm2
        self._swing = division.swing_mm(bars.x_mm, bars.across_mm)
        self._core = _core_run(bars, division)
        self._vein = _vein_run(self._swing, division)
        self._wide = _vein_cover(bars, division)

    def free_over(self, line_mm: float) -> float:
        """Volume over a line that neither vein nor core takes, mm³."""
        return self._area * (
            self._over(line_mm + self._swing) - self._vein_over(line_mm) - self._core_over(line_mm)
        )

    def vein(self) -> float:
        """Volume of the vein outside the core, mm³."""
        return self._area * self._vein_over(-np.inf)

    def core(self) -> float:
        """Volume of the core, mm³."""
        return self._area * self._core_over(-np.inf)

    def line_area(self, line_mm: float) -> float:
        """Area of a line's face between two layers, seen from above, mm²."""
        line = line_mm + self._swing
        met = (self._bars.from_mm < line) & (line < self._bars.to_mm)
        return self._area * float(np.count_nonzero(met))

    def _core_over(self, line_mm: float) -> float:
        return self._over(line_mm + self._swing, self._core)

    def _vein_over(self, line_mm: float) -> float:
        line = line_mm + self._swing
        whole = self._run(line, self._vein)
        shared = self._run(line, self._vein, self._core)
        return float((self._wide * (whole - shared)).sum())

    def _over(self, line: Array, *runs: tuple[Array, Array]) -> float:
        return float(self._run(line, *runs).sum())

    def _run(self, line: Array, *runs: tuple[Array, Array]) -> Array:
        """Length of each bar that lies over a line and within some runs."""
        low = np.maximum(self._bars.from_mm, line)
        high = self._bars.to_mm
        for start, end in runs:
            low, high = np.maximum(low, start), np.minimum(high, end)
        return _long(low, high)


def _core_run(bars: Bars, division: Division) -> tuple[Array, Array]:
    """From where to where the core lies along each bar; back to front where it does not."""
    if not division.holds(Place.CORE):
        return np.full_like(bars.x_mm, np.inf), np.full_like(bars.x_mm, -np.inf)
    it = division.profile
    mid_up, half_up, mid_across, half_across = (
        division.at(values, bars.x_mm)
        for values in (it.mid_up_mm, it.half_up_mm, it.mid_across_mm, it.half_across_mm)
    )
    off = np.abs(bars.across_mm - mid_across)
    out = np.divide(off, half_across, out=np.full_like(off, np.inf), where=half_across > 0)
    left = division.core_share**2 - out**2
    half = np.where(left > 0, half_up * np.sqrt(np.maximum(left, 0)), -np.inf)
    return mid_up - half, mid_up + half


def _vein_run(swing: Array, division: Division) -> tuple[Array, Array]:
    half = division.vein_thick_mm / 2 if division.holds(Place.VEIN) else -np.inf
    line = division.vein_mm + swing
    return line - half, line + half


def _vein_cover(bars: Bars, division: Division) -> Array:
    """Share of each bar's width that the vein reaches over, 0 to 1."""
    off = np.abs(bars.across_mm - division.at(division.profile.mid_across_mm, bars.x_mm))
    return np.clip((division.vein_wide_mm / 2 - off) / bars.wide_mm + 0.5, 0, 1)


def _long(low: Array, high: Array) -> Array:
    return np.asarray(np.maximum(high - low, 0))
