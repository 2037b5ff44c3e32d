"""Vents: straight from each place where filling ends to the nearest edge of the block."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from pourwright.base.draws import Array
from pourwright.body.loft import Solid, joined
from pourwright.body.mold.block import NOTCH_LONG_MM, XY, Block
from pourwright.body.mold.rod import box

STEP_DEGREES = 5
PITCH_MM = 0.4
# Mold between a vent and anything else that is cut, and the way it may run beside its own tip.
CLEAR_MM, BESIDE_TIP_MM = 1.0, 1.5
# A land as shallow as asked keeps melt in; behind it the vent is deeper, so that air gets out.
LAND_MM, RELIEF_DEEP_MM = 6.0, 0.6
# Cutters reach past the edge and the parting plane, so that no two faces coincide.
OVER_MM = 1.0


@dataclass(frozen=True, slots=True)
class Vent:
    """A vent from a dead end to an edge."""

    start: XY
    end: XY

    @property
    def length_mm(self) -> float:
        """Its length."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, slots=True)
class VentSize:
    """Width and depth of a vent's land."""

    width_mm: float
    depth_mm: float


class Router:
    """Finds the shortest straight way out that crosses nothing cut into the parting plane."""

    def __init__(self, block: Block, cut_xy: Array, hole_mm: float, width_mm: float) -> None:
        from scipy.spatial import cKDTree  # noqa: PLC0415  slow to load

        self._block = block
        self._apart = width_mm / 2 + CLEAR_MM
        self._cut: Any = cKDTree(cut_xy)
        self._holes = np.array([*block.pins, *block.bolts, *block.notches]).reshape(-1, 2)
        few = len(block.pins) + len(block.bolts)
        self._wide = np.array([hole_mm / 2] * few + [NOTCH_LONG_MM / 2] * len(block.notches))

    def way_out(self, start: XY, section: Any) -> Vent | None:
        """The shortest vent from a place, or none.

        `section` is the cavity cut at the height of vents: a vent must open into it.
        """
        turns = np.radians(np.arange(0, 360, STEP_DEGREES))
        rays = np.stack([np.cos(turns), np.sin(turns)], axis=1)
        lengths = np.array([self._to_edge(start, ray) for ray in rays])
        for k in np.argsort(lengths, kind="stable"):
            x, y = np.array(start) + rays[k] * lengths[k]
            vent = Vent(start, (float(x), float(y)))
            if self._clear(start, rays[k], lengths[k]) and self._opens(vent, section):
                return vent
        return None

    def _to_edge(self, start: XY, ray: Array) -> float:
        ways = [
            ((high if step > 0 else low) - at) / step
            for at, step, low, high in zip(
                start, ray, self._block.low, self._block.high, strict=True
            )
            if abs(step) > 1e-9
        ]
        return float(min(ways))

    def _opens(self, vent: Vent, section: Any) -> bool:
        wide = 2 * (self._apart - CLEAR_MM)
        strip = vent_cutter(vent, VentSize(wide, PITCH_MM)).slice(0.0)
        return float((strip ^ section).area()) > 0

    def _clear(self, start: XY, ray: Array, length: float) -> bool:
        """Whether the vent keeps clear once it has left its tip behind."""
        tip = self._apart + BESIDE_TIP_MM
        way = np.arange(min(tip, length), length, PITCH_MM)
        places = np.array(start) + way[:, None] * ray
        to_cut = self._cut.query(places)[0] if len(places) else np.array([np.inf])
        to_hole = np.hypot(*(places[:, None] - self._holes).T).T - self._wide
        return bool((to_cut >= self._apart).all() and (to_hole >= self._apart).all())


def vent_cutter(vent: Vent, size: VentSize) -> Solid:
    """What a vent takes from the upper half: a shallow land, then a deeper relief."""
    half, end = size.width_mm / 2, vent.length_mm + OVER_MM
    strip = box((0.0, -half, -OVER_MM), (end, half, size.depth_mm))
    if vent.length_mm > LAND_MM + OVER_MM:
        deep = max(RELIEF_DEEP_MM, size.depth_mm)
        strip = joined(strip, box((LAND_MM, -half, -OVER_MM), (end, half, deep)))
    (x0, y0), (x1, y1) = vent.start, vent.end
    turn = math.degrees(math.atan2(y1 - y0, x1 - x0))
    return strip.rotate((0.0, 0.0, turn)).translate((x0, y0, 0.0))
