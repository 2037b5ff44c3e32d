"""The four corners of a target in a photo, and the plane they span."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

UNIT = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
# A patch must hold enough pixels that its middle half can be read.
LEAST_PATCH_PX = 8.0
# Sine of the angle at a corner: flatter ones come of wrong taps or of a view from the side.
_LEAST_TURN = 0.3


def quad(corners: Array, *, patches_long: int, patches: int) -> Array:
    """The corners in the turn of the clock as seen, beginning with the first tap.

    Taps in any order will do: the patches tell which corner is which.
    Raises: BadInput for corners nearly in a line, inside one another, or too close.
    """
    middle = corners.mean(axis=0)
    around = np.arctan2(*(corners - middle).T[::-1])
    order = np.argsort(around, kind="stable")
    turned = corners[np.roll(order, -int(np.argmin(order)))]
    side = np.roll(turned, -1, axis=0) - turned
    after = np.roll(side, -1, axis=0)
    lengths = np.hypot(*side.T)
    turn = side[:, 0] * after[:, 1] - side[:, 1] * after[:, 0]
    if np.any(turn <= _LEAST_TURN * lengths * np.roll(lengths, -1)):
        why = (
            "must be the four corners of the target, seen from above: these lie nearly in a line, "
            "or one inside the others"
        )
        raise BadInput("corners", _plain(corners), why)
    area = abs(_area(turned))
    patch = min(area / patches, (lengths.max() / patches_long) ** 2, lengths.min() ** 2)
    if patch < LEAST_PATCH_PX**2:
        why = f"span a target too small to read: a patch needs at least {LEAST_PATCH_PX:g} pixels"
        raise BadInput("corners", _plain(corners), f"{why} each way; move closer")
    return turned


def plane(corners: Array) -> Array:
    """The 3 × 3 map (homography) that takes the unit square to four corners."""
    rows, right = [], []
    for (u, v), (x, y) in zip(UNIT, corners, strict=True):
        rows += [[u, v, 1, 0, 0, 0, -u * x, -v * x], [0, 0, 0, u, v, 1, -u * y, -v * y]]
        right += [x, y]
    found = np.linalg.solve(np.array(rows), np.array(right))
    return np.append(found, 1.0).reshape(3, 3)


def through(view: Array, points: Array) -> Array:
    """Points (n, 2) taken through a 3 × 3 map."""
    seen = np.concatenate([points, np.ones((len(points), 1))], axis=1) @ view.T
    return np.asarray(seen[:, :2] / seen[:, 2:])


def _area(corners: Array) -> float:
    x, y = corners.T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2


def _plain(corners: Array) -> list[list[float]]:
    return [[float(v) for v in corner] for corner in corners.round(1)]
