"""A pincer: arm, thick palm and two fingers around a notch."""

from __future__ import annotations

import functools

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid, joined, swept
from pourwright.body.part.limb import bent, shares


def claw(length_mm: float, width_mm: float, thick_mm: float) -> Solid:
    """A claw from the origin along x, of just that length, width and thickness."""
    return _claw().scale((length_mm, width_mm, thick_mm))


@functools.cache
def _claw() -> Solid:
    """A claw in a box of 1 by 1 by 1, its stronger finger toward +y."""
    arm = bent((0.0, 0.0), (0.2, 0.02), (0.4, 0.0), count=9)
    along = shares(9)
    s = (1 - np.cos(np.pi * np.linspace(0, 1, 19))) / 2
    palm = np.stack([0.22 + 0.46 * s, np.zeros_like(s)], axis=1)
    swelling = np.sqrt(1 - (2 * s - 1) ** 2)
    strong = bent((0.42, 0.18), (0.74, 0.52), (1.0, 0.4), (1.0, 0.02), count=19)
    weak = bent((0.48, -0.2), (0.7, -0.48), (0.92, -0.42), (0.93, -0.1), count=19)
    raw = joined(
        swept(arm, 0.1 + 0.03 * along, 0.28 + 0.04 * along, points=16),
        swept(palm, 0.4 * swelling * (0.85 + 0.15 * s), 0.5 * swelling, points=24),
        _finger(strong, 0.165),
        _finger(weak, 0.12),
    )
    low_x, low_y, low_z, high_x, high_y, high_z = raw.bounding_box()
    size = high_x - low_x, high_y - low_y, high_z - low_z
    middle = raw.translate((-low_x, -(low_y + high_y) / 2, 0.0))
    return middle.scale(tuple(1 / v for v in size))


def _finger(path: Array, half: float) -> Solid:
    """A finger that swells a little and ends in a point."""
    s = shares(len(path))
    swelling = (1 + 0.35 * np.sin(np.pi * s)) * (1 - s**2) ** 0.8
    return swept(path, half * swelling, 0.38 * swelling, points=16)
