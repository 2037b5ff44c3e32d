"""A foot with three spread toes."""

from __future__ import annotations

import functools

from pourwright.body.loft import Solid, joined
from pourwright.body.part.limb import bent, tapered

TOES_DEGREES = (-48.0, 0.0, 48.0)
TOES_LONG = (0.9, 1.0, 0.9)


def foot(length_mm: float, thick_mm: float) -> Solid:
    """A foot from its ankle at the origin along x."""
    return _foot().scale((length_mm, length_mm, thick_mm))


@functools.cache
def _foot() -> Solid:
    """A foot of length and thickness 1."""
    toes = [
        tapered(bent((0.0, 0.0), (long, 0.0), count=9), 0.3, 0.2, flat=1 / 0.3, points=12)
        .rotate((0.0, 0.0, turn))
        for turn, long in zip(TOES_DEGREES, TOES_LONG, strict=True)
    ]  # fmt: skip
    palm = tapered(bent((-0.2, 0.0), (0.4, 0.0), count=9), 0.5, 0.5, flat=2.0, points=16)
    return joined(palm, *toes)
