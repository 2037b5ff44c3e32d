"""Rings: grooves around a body, evenly spaced, and the ribs they leave between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.body.part.usual import or_usual

# Where a groove is cut into sections, from its middle (0) to its edges (±1).
SECTIONS = np.array([-1.0, -0.55, 0.0, 0.55, 1.0])
MOST_USUAL = 56


@dataclass(frozen=True, slots=True)
class RingStyle:
    """Usual rings, a shape of our own: pitch and depth as shares of the body's thickness.

    A groove takes the share `groove` of the pitch to either side of its middle.
    """

    pitch: float
    deep: float
    groove: float


FINE = RingStyle(0.42, 0.04, 0.3)
COARSE = RingStyle(0.27, 0.055, 0.42)


@dataclass(frozen=True, slots=True)
class Rings:
    """Grooves around x: their middles, how far each reaches to either side, how deep they go.

    The depth is a share of the thickness, so that a thin tail keeps its core.
    """

    middles_mm: Array
    reach_mm: float
    depth_share: float

    def among(self, plain: Array) -> Array:
        """Places along x that show a body and its grooves, in rising order.

        Of the rising plain places those go that a groove's own place stands in for: nearer than
        half the way to the next plain one.
        """
        own = np.sort((self.middles_mm[:, None] + self.reach_mm * SECTIONS).ravel())
        if not len(own):
            return plain
        bounds = np.concatenate([[-np.inf], own, [np.inf]])
        behind = np.searchsorted(own, plain)
        away = np.minimum(plain - bounds[behind], bounds[behind + 1] - plain)
        step = np.diff(plain, prepend=-np.inf, append=np.inf)
        return np.union1d(own, plain[away >= np.minimum(step[:-1], step[1:]) / 2])

    def left(self, x: Array) -> Array:
        """Share of the thickness that the grooves leave at x: round at their bottom."""
        if not len(self.middles_mm) or not self.depth_share:
            return np.ones_like(x)
        off = np.abs(x - self.middles_mm[:, None]).min(axis=0) / self.reach_mm
        return np.asarray(1 - self.depth_share * np.cos(np.pi / 2 * np.minimum(off, 1)))


def rings(
    count: int | None,
    depth_mm: float | None,
    span_mm: tuple[float, float],
    thick_mm: float,
    *,
    style: RingStyle = FINE,
) -> Rings:
    """Grooves spread evenly over a span; what nobody counted or measured follows the style."""
    first, last = span_mm
    usual = min(round((last - first) / (style.pitch * thick_mm)), MOST_USUAL)
    number = or_usual(count, usual)
    pitch = (last - first) / max(number, 1)
    middles = np.asarray(first + pitch * (np.arange(number) + 0.5))
    deep = or_usual(depth_mm, style.deep * thick_mm)
    return Rings(middles, style.groove * pitch, 2 * deep / thick_mm)


def refuse_deep_rings(depth_mm: float | None, thick_mm: float) -> None:
    """Refuse rings that would cut through the body.

    Raises: BadInput naming `ring_depth_mm`.
    """
    if depth_mm and depth_mm > thick_mm / 4:
        raise BadInput("ring_depth_mm", depth_mm, "is over a quarter of the body's thickness")
