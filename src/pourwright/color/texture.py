"""Flakes close up: plates at random places and tilts, and whether the eye still parts them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array

# What a sharp eye parts: one minute of arc; from memory.
ACUITY_RAD = math.radians(1 / 60)
_HEXAGON = np.radians(np.arange(30, 390, 60))


@dataclass(frozen=True, slots=True, eq=False)
class Plates:
    """Flakes seen from above, the deepest first.

    Corners in mm in a window that begins at (0, 0), (flakes, 6, 2); depth of their middles in mm,
    (flakes,). Some reach in from outside.
    """

    corners_mm: Array
    depth_mm: Array
    window_mm: float


def plates(
    *, per_mm3: float, size_mm: float, thick_mm: float, seed: int, widest_mm: float, most: int
) -> Plates:
    """One pattern of a Boolean model of flat hexagons, measured flat to flat, tilted at random.

    Their number is Poisson's, `per_mm3` on average; where more than `most` (at least 100) are to be
    expected the window is made narrower, so that none is left out. Flakes deeper than where others
    hide 999 parts in 1000 are not drawn.
    """
    rng = np.random.Generator(np.random.PCG64(seed))
    reach_mm = size_mm / math.sqrt(3)
    deep_mm = min(thick_mm, _hidden_from_mm(per_mm3 * hexagon_mm2(size_mm)))
    window_mm = widest_mm
    if per_mm3:
        window_mm = min(widest_mm, math.sqrt(most / (per_mm3 * deep_mm)) - 2 * reach_mm)
    side_mm = window_mm + 2 * reach_mm
    count = int(rng.poisson(per_mm3 * deep_mm * side_mm**2))
    middles = rng.random((count, 1, 2)) * side_mm - reach_mm
    depth_mm = np.sort(rng.random(count) * deep_mm)[::-1]
    return Plates(middles + reach_mm * _shadows(rng, count), np.asarray(depth_mm), window_mm)


def merging_distance_m(size_mm: float) -> float:
    """From how far flakes of that size are no longer parted by the eye.

    >>> round(merging_distance_m(0.008 * 25.4), 1)
    0.7
    """
    return size_mm / 1000 / math.tan(ACUITY_RAD)


def hexagon_mm2(size_mm: float) -> float:
    """Area of a regular hexagon measured flat to flat.

    >>> hexagon_mm2(2.0) == 2 * math.sqrt(3)
    True
    """
    return math.sqrt(3) / 2 * size_mm**2


def _hidden_from_mm(faces_per_mm: float) -> float:
    return 2 * math.log(1000) / faces_per_mm if faces_per_mm else math.inf


def _shadows(rng: np.random.Generator, count: int) -> Array:
    """Corners of unit hexagons seen from above, (count, 6, 2).

    The plate's normal is even over the sphere, so that the cosine of its tilt is even from 0 to 1.
    """
    turn = rng.random((count, 1)) * (math.pi / 3)
    squeeze = rng.random((count, 1))
    toward = rng.random((count, 1)) * (2 * math.pi)
    across, along = np.cos(_HEXAGON + turn), np.sin(_HEXAGON + turn) * squeeze
    return np.stack(
        [
            across * np.cos(toward) - along * np.sin(toward),
            across * np.sin(toward) + along * np.cos(toward),
        ],
        axis=-1,
    )
