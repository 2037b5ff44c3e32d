"""What solids that should only touch have in common, by rays along the pull."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from pourwright.body.columns import Crossings, Grid, crossings, triangles
from pourwright.body.loft import Solid

RAYS, FINEST_MM = 40_000, 0.25


def common_rays(solids: Sequence[Solid]) -> tuple[Crossings, ...]:
    """The same rays through each of some solids, close enough to meet a pin or a fin."""
    boxes = np.array([solid.bounding_box() for solid in solids]).reshape(-1, 2, 3)
    low, high = boxes[:, 0, :2].min(axis=0), boxes[:, 1, :2].max(axis=0)
    pitch = max(math.sqrt(float(np.prod(high - low)) / RAYS), FINEST_MM)
    wide, deep = (int(n) for n in np.ceil((high - low) / pitch))
    grid = Grid((float(low[0]), float(low[1])), pitch, (wide, deep))
    return tuple(crossings(triangles(solid), grid) for solid in solids)


def shared_mm3(a: Crossings, b: Crossings) -> float:
    """Volume that two closed solids share, as far as the rays tell."""
    cell, depth, sign = (
        np.concatenate([getattr(rays, name) for rays in (a, b)])
        for name in ("cell", "depth", "sign")
    )
    turn = np.lexsort((depth, cell))
    inside = np.cumsum(-sign[turn])[:-1]
    way = np.diff(depth[turn])
    return float(way[inside > 1.5].sum()) * a.grid.pitch**2
