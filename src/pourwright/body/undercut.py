"""Where a half of the mold is caught: hollows under an overhang along the pull."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import Crossings, Index, Mask, crossings, triangles
from pourwright.body.grid_of import grid_over
from pourwright.body.local_gap import column_height, local_gap, to_edge
from pourwright.body.loft import Solid

# A hollow lower than this is a facet, or no more than a caliper reads.
LOWEST_MM = 0.05
# Soft plastic stretches out of an overhang up to this share of its thickness; estimate.
HARMLESS = 1 / 3
# A hollow across the parting plane is a bore if less of its rim than this is open, else a slot.
BORE_OPEN = 0.25
# Slits narrower than this through the wall of a bore do not open it.
SLIT_MM = 3.2


class Caught(StrEnum):
    """What holds the halves."""

    NOTHING = "nothing"
    OVERHANG = "overhang"
    SLOT = "slot"
    BORE = "bore"


@dataclass(frozen=True, slots=True)
class Undercut:
    """How a bait holds on to its mold.

    `share` of the shadow lies over a hollow; the deepest overhang reaches `depth_mm` inward, where
    the bait is `thick_mm` thick.
    """

    caught: Caught
    share: float
    depth_mm: float
    thick_mm: float

    @property
    def harmless(self) -> bool:
        """Whether a soft bait comes out by itself."""
        return self.depth_mm <= HARMLESS * self.thick_mm


def undercut(solid: Solid) -> Undercut:
    """Undercuts of a bait in a mold that parts at z = 0 and pulls along z.

    A half is caught where it reaches under plastic. The overhang is measured sideways, from the
    hollow to the nearest edge of the shadow, for so far must the bait stretch; right within a
    pitch of the grid. A hollow closed above and below the parting plane is shaped by no half: a
    pin makes it where it is a bore, a blade where it is a slot.
    """
    rays = crossings(triangles(solid), grid_over(solid))
    full = rays.chord() > 0
    caught, across = _hollows(rays)
    if not caught.any():
        return Undercut(Caught.NOTHING, 0.0, 0.0, 0.0)
    inward = to_edge(full) * rays.grid.pitch
    deepest = np.unravel_index(np.argmax(np.where(caught, inward, 0.0)), caught.shape)
    gap = local_gap(np.where(full, column_height(rays), 0.0), rays.grid.pitch)
    found = Undercut(
        Caught.OVERHANG, float(caught.sum() / full.sum()),
        float(inward[deepest]), float(gap[deepest]),
    )  # fmt: skip
    if found.harmless or across[deepest] <= LOWEST_MM:
        return found
    main = across > across.max() / 2
    open_share = _open_share(main, full, SLIT_MM / rays.grid.pitch)
    kind = Caught.BORE if open_share < BORE_OPEN else Caught.SLOT
    return Undercut(kind, found.share, found.depth_mm, found.thick_mm)


def _hollows(rays: Crossings) -> tuple[Mask, Array]:
    """Columns where a half is caught; how high a hollow each has that is shut off across z = 0."""
    cell, enter, leave = rays.gaps()
    above, below = _hollow(rays, cell, enter, leave), _hollow(rays, cell, -leave, -enter)
    under = np.flatnonzero(cell[1:] == cell[:-1])
    under = under[(leave[under] < 0) & (enter[under + 1] > 0)]
    across = np.bincount(cell[under], enter[under + 1] - leave[under], above.size)
    return (above > LOWEST_MM) | (below > LOWEST_MM), np.reshape(across, above.shape)


def _hollow(rays: Crossings, cell: Index, enter: Array, leave: Array) -> Array:
    """Height from the parting plane up to the top of each column that is not plastic."""
    top = np.zeros(rays.grid.count[0] * rays.grid.count[1])
    np.maximum.at(top, cell, leave)
    plastic = np.bincount(cell, leave.clip(0) - enter.clip(0), top.size)
    return np.asarray((top - plastic).reshape(rays.grid.count))


def _to_empty(mask: Mask) -> Array:
    from scipy.ndimage import distance_transform_edt  # noqa: PLC0415  slow to load

    return np.asarray(distance_transform_edt(mask))


def _without_slits(full: Mask, slit: float) -> Mask:
    """A shadow with its narrow slits closed: grown by half a slit, then shrunk again."""
    reach = int(np.ceil(slit)) + 1
    grown = _to_empty(~np.pad(full, reach)) <= slit / 2
    return (_to_empty(grown) > slit / 2)[reach:-reach, reach:-reach]


def _open_share(hollow: Mask, full: Mask, slit: float) -> float:
    """Share of the rim of a hollow that leads out of the shadow, slits aside."""
    inner, outside = np.pad(hollow, 1), ~np.pad(_without_slits(full, slit), 1)
    rim = opened = 0
    for axis in (0, 1):
        for step in (1, -1):
            ends = np.roll(inner, step, axis) & ~inner
            rim += int(ends.sum())
            opened += int((ends & outside).sum())
    return opened / rim
