"""The skin of a body as triangles, and the units that files of such skins are drawn in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

import numpy as np
from numpy.typing import NDArray

from pourwright.base.units import UNITS


class LengthUnit(StrEnum):
    """What one step in a file may stand for."""

    MM = "mm"
    CM = "cm"
    M = "m"
    IN = "in"
    FT = "ft"
    UM = "um"

    @property
    def mm(self) -> float:
        """The step in millimeters."""
        return UNITS[self.value].to_si(1.0) / UNITS["mm"].scale


@dataclass(frozen=True, slots=True, eq=False)
class Mesh:
    """A closed skin, right side out: points (n, 3) in steps of its file, triangles (m, 3) of them.

    `unit` is what the file itself says of its steps, or none; `notes` tell what was repaired.
    """

    called: ClassVar[str] = "a mesh"

    points: NDArray[np.float64]
    triangles: NDArray[np.int64]
    unit: LengthUnit | None = None
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for array in (self.points, self.triangles):
            if array.ndim != 2 or array.shape[1] != 3:
                raise ValueError(f"a mesh has rows of three, not {array.shape}")

    @property
    def extents(self) -> NDArray[np.float64]:
        """Sizes along the file's own axes, in steps."""
        return np.asarray(np.ptp(self.points, axis=0))

    @property
    def volume(self) -> float:
        """What the skin encloses, in cubed steps.

        Source: Gauss, divergence theorem: a sixth of the sum of the corners' triple products.
        """
        return signed_volume(self.points, self.triangles)


def signed_volume(points: NDArray[np.float64], triangles: NDArray[np.int64]) -> float:
    """What some triangles enclose, seen from the middle of their box; negative inside out."""
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    a, b, c = (points[triangles[:, k]] - middle for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c))) / 6
