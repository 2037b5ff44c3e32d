"""Small holes in a skin, and when a hole is too large to guess what was there."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

Corners = NDArray[np.int64]

# Of the skin's area: what all holes together may take, and what no hole at all takes; estimates.
MOST_SHARE, CRACK_SHARE = 0.01, 1e-6
# One triangle is missing: what was there is plain, however coarse the skin.
ONE_FACET_SHARE = 1 / 3
MOST_HOLES, MOST_EDGES = 20, 6000


@dataclass(frozen=True, slots=True, eq=False)
class Hole:
    """A ring of points around nothing, in the order that closes it, and its share of the skin."""

    ring: tuple[int, ...]
    share: float
    width: float


@dataclass(frozen=True, slots=True, eq=False)
class Filled:
    """A closed skin, and the holes it had."""

    points: Array
    triangles: Corners
    holes: tuple[Hole, ...]


def filled(points: Array, triangles: Corners, edges: Corners) -> Filled:
    """The skin with its small holes closed: a triangle, or a cone to the middle of the ring.

    `edges` are those from a to b that no triangle passes the other way.
    Raises: BadInput for a skin that is open wide, or in many places.
    """
    if len(edges) > MOST_EDGES:
        raise BadInput("file", f"{len(edges):,} open edges", "is no closed body")
    skin = _area(points, triangles)
    holes = [_hole(points, ring, skin) for ring in _rings(edges)]
    _check([hole for hole in holes if hole.share > CRACK_SHARE])
    wide = [hole for hole in holes if len(hole.ring) > 3]
    tops = [points[list(hole.ring)].mean(axis=0) for hole in wide]
    cones = [_cone(hole.ring, len(points) + k) for k, hole in enumerate(wide)]
    facets = [np.array([hole.ring]) for hole in holes if len(hole.ring) == 3]
    return Filled(np.vstack([points, *tops]), np.vstack([triangles, *cones, *facets]), tuple(holes))


def _check(holes: list[Hole]) -> None:
    together = sum(hole.share for hole in holes)
    if len(holes) == 1 and len(holes[0].ring) == 3 and together <= ONE_FACET_SHARE:
        return
    if len(holes) > MOST_HOLES or together > MOST_SHARE:
        what = f"{len(holes)} hole{'s' * (len(holes) > 1)}, {together:.1%} of the skin"
        why = (
            f"is open: at most {MOST_HOLES} holes of together {MOST_SHARE:.0%} are closed here; "
            "close them where the file was made"
        )
        raise BadInput("file", what, why)


def _cone(ring: tuple[int, ...], top: int) -> Corners:
    return np.stack([ring, np.roll(ring, -1), np.full(len(ring), top)], axis=1)


def _hole(points: Array, ring: list[int], skin: float) -> Hole:
    spots = points[ring]
    spokes = spots - spots.mean(axis=0)
    twice = np.linalg.norm(np.cross(spokes, np.roll(spokes, -1, axis=0)), axis=1).sum()
    return Hole(tuple(ring), float(twice) / 2 / skin, float(np.ptp(spots, axis=0).max()))


def _rings(edges: Corners) -> list[list[int]]:
    """Rings of points that close the edges; where rings touch in a point they come apart there."""
    onward: dict[int, list[int]] = defaultdict(list)
    for a, b in edges.tolist():
        onward[b].append(a)
    rings: list[list[int]] = []
    for start in list(onward):
        while onward[start]:
            rings += _walked(onward, start)
    return rings


def _walked(onward: dict[int, list[int]], start: int) -> list[list[int]]:
    rings: list[list[int]] = []
    path, place = [start], {start: 0}
    while True:
        if not onward[path[-1]]:
            raise BadInput("file", "a skin", "has triangles that meet in no sensible way")
        here = onward[path[-1]].pop()
        if here in place:
            ring = path[place[here] :]
            rings.append(ring)
            for point in ring[1:]:
                del place[point]
            del path[place[here] + 1 :]
            if len(path) == 1:
                return rings
        else:
            place[here] = len(path)
            path.append(here)


def _area(points: Array, triangles: Corners) -> float:
    a, b, c = (points[triangles[:, k]] for k in range(3))
    return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum()) / 2
