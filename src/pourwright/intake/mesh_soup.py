"""The triangles of a mesh file as they stand in it, and the limits every such file keeps."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit

FIELD = "file"
MOST_BYTES = 40_000_000
MOST_TRIANGLES = 200_000
# A closed skin has about half as many corners as triangles; loose triangles have three each.
MOST_POINTS = 3 * MOST_TRIANGLES
# Farther than this from its origin a file says nothing sensible in any unit.
FARTHEST = 1e7
# And smaller than this.
SMALLEST = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class Soup:
    """Points (n, 3) and triangles (m, 3) of them, unchecked; `unit` is what the file says."""

    points: NDArray[np.float64]
    triangles: NDArray[np.int64]
    unit: LengthUnit | None = None
    notes: tuple[str, ...] = ()


def refused(value: object, why: str) -> BadInput:
    """The refusal of a mesh file."""
    return BadInput(FIELD, value, why)


def check_size(data: bytes) -> None:
    """Refuse nothing at all, and more than anybody needs. Raises: BadInput."""
    if not data:
        raise refused("0 bytes", "is empty")
    if len(data) > MOST_BYTES:
        raise refused(f"{len(data):,} bytes", f"must be at most {MOST_BYTES:,} bytes")


def check_count(triangles: int) -> None:
    """Refuse more triangles than anybody's bait needs. Raises: BadInput."""
    if triangles > MOST_TRIANGLES:
        why = f"has more than {MOST_TRIANGLES:,} triangles; reduce it where it was made"
        raise refused(f"{triangles:,} triangles", why)
    if triangles < 1:
        raise refused("no triangles", "holds no surface at all")


def checked(soup: Soup) -> Soup:
    """The same, once every number is sound. Raises: BadInput."""
    check_count(len(soup.triangles))
    if not np.isfinite(soup.points).all():
        at = int(np.argmin(np.isfinite(soup.points).all(axis=1)))
        raise refused(f"point {at + 1}", "has a coordinate that is no number, or infinite")
    low, high = int(soup.triangles.min()), int(soup.triangles.max())
    if low < 0 or high >= len(soup.points):
        raise refused(f"{len(soup.points):,} points", "has triangles of points that are not there")
    if np.abs(soup.points).max() > FARTHEST:
        raise refused(float(np.abs(soup.points).max()), f"reaches farther than {FARTHEST:,.0f}")
    size = float(np.ptp(soup.points[soup.triangles.ravel()], axis=0).max())
    if size < SMALLEST:
        raise refused(f"a size of {size:g}", "is no more than a single point")
    return soup
