"""The thickest place of a solid: the largest ball that fits inside."""

from __future__ import annotations

import math
from dataclasses import dataclass

import manifold3d
import numpy as np

from pourwright.base.draws import Array
from pourwright.body.columns import triangles
from pourwright.body.loft import Solid
from pourwright.body.triangle import feet
from pourwright.body.voxel import deep_places

# Of the deep places, so many are grown, each in at most so many moves.
GROWN, MOST_MOVES = 2, 24
# A move that lets the ball grow by less than this share is the last.
LEAST_GAIN = 1e-4
# A section this many times the ball's disk cools as a slab does; estimate.
SLAB_SECTION = 1.9
# Directions are told apart in steps of one over this.
DIRECTIONS = 12.0


@dataclass(frozen=True, slots=True)
class ThickestPlace:
    """Diameter and center of the largest inside ball, and whether the place is a slab."""

    diameter_mm: float
    center_mm: tuple[float, float, float]
    flat: bool


class _Skin:
    """The triangles of a solid, asked for those near a point."""

    def __init__(self, corners: Array) -> None:
        self._corners = corners
        self._middle = corners.mean(axis=1)
        self._reach = np.linalg.norm(corners - self._middle[:, None], axis=2).max(axis=1)

    def near(self, point: Array, slack: float) -> Array:
        """All triangles that are nearest, or farther than that by no more than a slack."""
        away = np.linalg.norm(self._middle - point, axis=1)
        close = self._corners[away - self._reach <= away.min() + slack]
        low, high = close.min(axis=1), close.max(axis=1)
        gap = np.linalg.norm(np.maximum(np.maximum(low - point, point - high), 0), axis=1)
        return np.asarray(close[gap <= away.min() + slack])


def thickest_place(solid: Solid) -> ThickestPlace:
    """Voxels find the deep places; exact distances to the surface then settle them.

    Where many places are equally thick, the one found is the nearest to the nose.
    """
    skin = _Skin(triangles(solid))
    places, pitch = deep_places(solid)
    depths = np.array([distance(skin.near(place, 0.0), place) for place in places])
    starts = places[np.argsort(-depths, kind="stable")[:GROWN]]
    radius, center = max((_grown(skin, start, pitch) for start in starts), key=lambda ball: ball[0])
    x, y, z = (float(v) for v in center)
    return ThickestPlace(2 * radius, (x, y, z), _flat(solid, center, radius))


def distance(corners: Array, point: Array) -> float:
    """Distance from a point to the nearest of some triangles, shape (triangles, 3, 3)."""
    return float(np.linalg.norm(feet(corners, point) - point, axis=1).min())


def _grown(skin: _Skin, center: Array, pitch: float) -> tuple[float, Array]:
    """Radius and middle of the largest ball that a start grows into, moving as it grows."""
    radius = distance(skin.near(center, 0.0), center)
    for _ in range(MOST_MOVES):
        step = min(pitch, radius / 4)
        grown, there = _farther(skin, center, _best_move(skin.near(center, 4 * step), center, step))
        if grown <= radius * (1 + LEAST_GAIN):
            return max((radius, center), (grown, there), key=lambda ball: ball[0])
        radius, center = grown, there
    return radius, center


def _farther(skin: _Skin, center: Array, move: Array) -> tuple[float, Array]:
    """The end of a move, or of twice, four times ... the move while the ball still grows.

    No step is longer than the ball it begins in, so none leaves the solid.
    """
    center = center + move
    radius = distance(skin.near(center, 0.0), center)
    while np.linalg.norm(move) < radius:
        there = center + move
        grown = distance(skin.near(there, 0.0), there)
        if grown <= radius:
            break
        center, radius, move = there, grown, 2 * move
    return radius, center


def _best_move(near: Array, center: Array, most: float) -> Array:
    """The move, no longer than `most` along each axis, that promises the largest ball.

    The distance to a triangle is convex, so far + away · move never promises too much: a linear
    program for the move and the least distance. Of triangles in much the same direction the
    nearest one speaks for all.
    """
    from scipy.optimize import linprog  # noqa: PLC0415  slow to load

    arm = center - feet(near, center)
    far = np.linalg.norm(arm, axis=1)
    turn = np.argsort(far, kind="stable")
    away = arm[turn] / far[turn, None]
    _, first = np.unique(np.round(away * DIRECTIONS), axis=0, return_index=True)
    best = linprog(
        [0, 0, 0, -1],
        A_ub=np.column_stack([-away[first], np.ones(len(first))]),
        b_ub=far[turn][first],
        bounds=[(-most, most)] * 3 + [(0, None)],
    )
    return np.asarray(best.x)[:3]


def _flat(solid: Solid, center: Array, radius: float) -> bool:
    """Whether sections through the place, cut to twice the ball, are much more than its disk.

    Both the section across the bait and the one along it must be: a rod is narrow in one of them.
    """
    window = manifold3d.CrossSection.square((4 * radius, 4 * radius), center=True)
    there = solid.translate(tuple(-center))
    across, along = there.rotate((0.0, 90.0, 0.0)), there.rotate((90.0, 0.0, 0.0))
    least = min((turned.slice(0.0) ^ window).area() for turned in (across, along))
    return bool(least > SLAB_SECTION * math.pi * radius**2)
