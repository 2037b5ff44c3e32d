"""Loose triangles become a skin: equal points made one, triangles without use dropped."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array

Corners = NDArray[np.int64]

# A file whose triangles nearly all have a twin facing the other way was saved with both faces.
BOTH_FACES = 0.99


def welded(points: Array, triangles: Corners, step: float = 0.0) -> tuple[Array, Corners]:
    """Points that are equal, or round to the same multiple of a step, made one."""
    keys = np.round(points / step) if step else points
    order = np.lexsort(keys.T)
    new = np.ones(len(order), dtype=bool)
    new[1:] = (keys[order[1:]] != keys[order[:-1]]).any(axis=1)
    back = np.zeros(len(order), dtype=np.int64)
    back[order] = np.cumsum(new) - 1
    return points[order[new]], back[triangles]


def with_area(triangles: Corners) -> Corners:
    """Triangles of three different points."""
    a, b, c = triangles.T
    return np.asarray(triangles[(a != b) & (b != c) & (c != a)])


def once(triangles: Corners) -> Corners:
    """Every triangle once.

    Two that are equal but face each other are a wall between two pieces that touch, and both go;
    where nearly all are doubled so, the file holds both faces of its skin, and one of each stays.
    """
    key, turned = _seen(triangles)
    order = np.lexsort((turned, *key.T))
    key, turned = key[order], turned[order]
    first = np.ones(len(key), dtype=bool)
    first[1:] = (key[1:] != key[:-1]).any(axis=1)
    group = np.cumsum(first) - 1
    back = np.bincount(group, turned)
    fore = np.bincount(group) - back
    both = (fore > 0) & (back > 0)
    walls = 2 * np.minimum(fore, back).sum() < BOTH_FACES * len(triangles)
    kept = fore != back if walls else np.ones(len(both), dtype=bool)
    facing = np.where(both & (back > fore), 1, 0) if walls else np.zeros(len(both), dtype=int)
    # Of a group that faces both ways unevenly, one of the more frequent facing stays.
    last = np.append(np.flatnonzero(first)[1:], len(key)) - 1
    pick = np.where(facing == 1, last, np.flatnonzero(first))
    return np.asarray(triangles[np.sort(order[pick[kept]])])


def _seen(triangles: Corners) -> tuple[Corners, NDArray[np.int64]]:
    """Corners of each triangle in rising order, and whether putting them so turned it over."""
    order = np.argsort(triangles, axis=1)
    turned = (order[:, 1] - order[:, 0]) % 3 != 1
    return np.take_along_axis(triangles, order, axis=1), turned.astype(np.int64)
