"""A picture of the colors a shelf makes: cuts at a few lightnesses."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.spectrum.color_space import hex_of, srgb_of, xyz_of_lab
from pourwright.spectrum.light import white_xyz

LEVELS = tuple(range(10, 100, 10))
_HALF_BAND = 3.0
_CELL = 6.0
_SECTORS = 24


@dataclass(frozen=True, slots=True)
class GamutPoint:
    """A color of the picture."""

    a: float = out("a*, green to red")
    b: float = out("b*, blue to yellow")
    srgb_hex: str = out("The color for a screen")


@dataclass(frozen=True, slots=True)
class GamutLevel:
    """The colors of about one lightness."""

    lightness: float = out("L*, give or take 3")
    outline: tuple[GamutPoint, ...] = out(
        "The farthest color found in each of 24 directions from the middle of the points; bays "
        "narrower than a direction do not show"
    )
    points: tuple[GamutPoint, ...] = out("One color found in each square of 6 by 6 in a* and b*")


def gamut(labs: Array) -> tuple[GamutLevel, ...]:
    """Cuts through colors, L*a*b* (n, 3); lightnesses without any are left out."""
    cuts = ((level, _cut(labs, level)) for level in LEVELS)
    return tuple(
        GamutLevel(float(level), _points(_outline(cut)), _points(_thinned(cut)))
        for level, cut in cuts
        if len(cut)
    )


def screen_hex(labs: Array) -> tuple[str, ...]:
    """Colors for a screen, the nearest it can show, of L*a*b* (n, 3)."""
    return tuple(hex_of(c) for c in srgb_of(xyz_of_lab(labs, white_xyz()))[0])


def _cut(labs: Array, level: float) -> Array:
    """Colors of the level, the nearest to its lightness first."""
    off = abs(labs[:, 0] - level)
    kept = labs[off <= _HALF_BAND]
    return np.asarray(kept[np.argsort(off[off <= _HALF_BAND], kind="stable")])


def _thinned(cut: Array) -> Array:
    cells = np.floor(cut[:, 1:] / _CELL).astype(int)
    _, first = np.unique(cells, axis=0, return_index=True)
    return np.asarray(cut[first])


def _outline(cut: Array) -> Array:
    off = cut[:, 1:] - _thinned(cut)[:, 1:].mean(axis=0)
    turn = np.arctan2(off[:, 1], off[:, 0]) % (2 * np.pi)
    sector = np.minimum((turn / (2 * np.pi) * _SECTORS).astype(int), _SECTORS - 1)
    order = np.lexsort((-np.hypot(*off.T), sector))
    _, first = np.unique(sector[order], return_index=True)
    return np.asarray(cut[order[first]])


def _points(labs: Array) -> tuple[GamutPoint, ...]:
    return tuple(
        GamutPoint(float(a), float(b), color)
        for (_, a, b), color in zip(labs, screen_hex(labs), strict=True)
    )
