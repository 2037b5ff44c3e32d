"""From the color a powder is sold by to the thickness of its film."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.film.plate import Plate, mirrored
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import white_xyz, xyz_of

FILMS_NM = np.arange(20.0, 351.0)
# Chroma below which a film is silver, and above which it is sold by its hue; estimates.
_GRAY, _COLORED = 12.0, 20.0
# A hue this far from the one asked for is another color; estimate.
_FAR_DEG = 20.0


class Grade(StrEnum):
    """The color a powder flashes over black, as powders are sold."""

    SILVER = "silver"
    GOLD = "gold"
    RED = "red"
    VIOLET = "violet"
    BLUE = "blue"
    TURQUOISE = "turquoise"
    GREEN = "green"

    @property
    def hue_deg(self) -> float | None:
        """Its CIELAB hue angle; none for silver. Estimates."""
        return _HUES_DEG.get(self)


_HUES_DEG = {
    Grade.GOLD: 90.0,
    Grade.RED: 350.0,
    Grade.VIOLET: 310.0,
    Grade.BLUE: 265.0,
    Grade.TURQUOISE: 210.0,
    Grade.GREEN: 155.0,
}


@dataclass(frozen=True, slots=True)
class FilmColor:
    """A film thickness and the color its flakes flash, met straight on."""

    film_nm: float
    lab: tuple[float, float, float]
    hue_miss_deg: float

    @property
    def chroma(self) -> float:
        """How far it is from gray."""
        return float(np.hypot(self.lab[1], self.lab[2]))


def films_of(plate: Plate, hue_deg: float | None) -> tuple[FilmColor, ...]:
    """Film thicknesses that show a hue, or silver where there is none, thinnest first.

    A hue comes back order by order as the film grows. Films thinner than the first silver are its
    pale blue forerunners and count for no hue. Where no film comes near the hue the nearest is
    given, with how far it misses.
    """
    lab = film_labs(plate)
    chroma = np.hypot(lab[:, 1], lab[:, 2])
    if hue_deg is None:
        found = [i for i in _dips(chroma) if chroma[i] < _GRAY]
        return tuple(_film(lab, i, 0.0) for i in found or [int(np.argmin(chroma))])
    miss = hue_miss(lab, hue_deg)
    colored = (chroma >= _COLORED) & (np.arange(len(lab)) > _first_peak(lab[:, 0]))
    apart = np.where(colored, np.abs(miss), 360.0)
    found = [i for i in _dips(apart) if apart[i] <= _FAR_DEG] or [int(np.argmin(apart))]
    return tuple(_film(lab, i, float(miss[i])) for i in found)


def hue_of(lab: Array) -> float | None:
    """The hue angle of a color in degrees; none for one that is nearly gray."""
    if np.hypot(lab[1], lab[2]) < _GRAY:
        return None
    return float(np.degrees(np.arctan2(lab[2], lab[1])) % 360)


def hue_miss(lab: Array, hue_deg: float) -> Array:
    """How far hues lie from one, -180 to 180 degrees."""
    return np.asarray((np.degrees(np.arctan2(lab[:, 2], lab[:, 1])) - hue_deg + 180) % 360 - 180)


@functools.lru_cache(maxsize=64)
def film_labs(plate: Plate) -> Array:
    """L*a*b* in daylight of flakes met straight on, for `FILMS_NM`."""
    straight = mirrored(plate, FILMS_NM, np.zeros(1))[:, 0]
    found = lab_of(xyz_of(straight), white_xyz())
    found.setflags(write=False)
    return found


def _film(lab: Array, at: int, miss: float) -> FilmColor:
    lightness, a, b = (float(v) for v in lab[at])
    return FilmColor(float(FILMS_NM[at]), (lightness, a, b), miss)


def _dips(values: Array) -> list[int]:
    """Where values are lower than before and no higher than after."""
    middle = values[1:-1]
    return [int(i) + 1 for i in np.flatnonzero((middle < values[:-2]) & (middle <= values[2:]))]


def _first_peak(values: Array) -> int:
    return next(iter(_dips(-values)), 0)
