"""The body of a grub: short, thick and ringed."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid
from pourwright.body.part.ring import COARSE, rings
from pourwright.body.part.rod import Rod

# Rings begin behind a smooth head, at this share of the length.
HEAD = 0.24


def grub_body(
    *,
    length_mm: float,
    thick_mm: float,
    root_mm: float,
    ring_count: int | None,
    ring_depth_mm: float | None,
) -> Solid:
    """A round body that thins over its second half toward the root of its tail."""
    domes = thick_mm / 2, root_mm / 2

    def thick(x: Array) -> Array:
        thinned = np.clip(2 * x / length_mm - 1, 0, 1) ** 2
        return np.asarray(thick_mm + (root_mm - thick_mm) * thinned)

    ringed = max(HEAD * length_mm, 0.7 * domes[0]), length_mm - 0.7 * domes[1]
    rod = Rod(
        length_mm=length_mm,
        domes_mm=domes,
        thick=thick,
        rings=rings(ring_count, ring_depth_mm, ringed, thick_mm, style=COARSE),
    )
    return rod.solid()
