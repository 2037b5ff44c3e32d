"""Which way the triangles of a skin face, and where it is open."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.base.errors import BadInput

Corners = NDArray[np.int64]


def open_edges(triangles: Corners) -> Corners:
    """Edges from a to b (n, 2) that no triangle passes the other way; none of a closed skin."""
    ends = edges_of(triangles)
    size = int(ends.max()) + 1
    there, back = ends[:, 0] * size + ends[:, 1], ends[:, 1] * size + ends[:, 0]
    keys, times = np.unique(there, return_counts=True)
    found, met = np.unique(back, return_counts=True)
    at = np.searchsorted(found, keys)
    at_most = np.minimum(at, len(found) - 1)
    spare = times - np.where(found[at_most] == keys, met[at_most], 0)
    left = np.repeat(keys, np.maximum(spare, 0))
    return np.stack([left // size, left % size], axis=1)


def edges_of(triangles: Corners) -> Corners:
    """The three directed edges of every triangle, shape (3 n, 2)."""
    return np.stack([triangles, np.roll(triangles, -1, axis=1)], axis=2).reshape(-1, 2)


def agreeing(triangles: Corners) -> tuple[Corners, int]:
    """Triangles that face the way their neighbors do, and how many had to be turned.

    In every connected part the facing of most decides.
    Raises: BadInput for a skin with one side only.
    """
    neighbors, against = _neighbors(triangles)
    if not any(map(any, against)):
        return triangles, 0
    turn = np.array(_turns(neighbors, against))
    turned = triangles.copy()
    turned[turn] = turned[turn][:, ::-1]
    return turned, int(turn.sum())


def _turns(neighbors: list[list[int]], against: list[list[bool]]) -> list[bool]:
    """Whether to turn each triangle: a walk over the neighbors, part by part."""
    turn: list[bool | None] = [None] * len(neighbors)
    for start in range(len(neighbors)):
        if turn[start] is not None:
            continue
        turn[start] = False
        part = [start]
        for face in part:
            for beside, faces_away in zip(neighbors[face], against[face], strict=True):
                if beside < 0:
                    continue
                wanted = turn[face] != faces_away
                if turn[beside] is None:
                    turn[beside] = wanted
                    part.append(beside)
                elif turn[beside] != wanted:
                    raise BadInput("file", "a skin", "has one side only: inside and outside meet")
        if 2 * sum(bool(turn[face]) for face in part) > len(part):
            for face in part:
                turn[face] = not turn[face]
    return [bool(t) for t in turn]


def _neighbors(triangles: Corners) -> tuple[list[list[int]], list[list[bool]]]:
    """The triangle beyond each edge, -1 where there is none or more than one; whether it faces
    the other way.
    """
    ends = edges_of(triangles)
    low, high = ends.min(axis=1), ends.max(axis=1)
    key = low * (int(ends.max()) + 1) + high
    order = np.argsort(key, kind="stable")
    first = np.flatnonzero(np.append(True, np.diff(key[order]) != 0))
    times = np.diff(np.append(first, len(key)))
    one, other = order[first[times == 2]], order[first[times == 2] + 1]
    beyond = np.full(len(key), -1)
    beyond[one], beyond[other] = other // 3, one // 3
    same = np.zeros(len(key), dtype=bool)
    same[one] = same[other] = (ends[one] == ends[other]).all(axis=1)
    return beyond.reshape(-1, 3).tolist(), same.reshape(-1, 3).tolist()
