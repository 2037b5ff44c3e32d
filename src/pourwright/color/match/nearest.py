"""How near to a target colors can come that are known only within limits."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.bound import frame
from pourwright.color.match.span import Sheaf, Span

_SWEEPS = 4


def least(colors: Sheaf, target: Array, limits: Span) -> tuple[Array, Sheaf]:
    """No color of the sheaf within the limits is nearer than this, (n,).

    Beside it, the miss as CIEDE2000 weighs it: never longer than the difference.
    """
    seen = frame(target, colors, limits)
    miss = np.einsum("nij,nj->ni", seen.turn, colors.at - target) + seen.off
    slopes = np.einsum("nij,njk->nik", seen.turn, colors.slopes)
    loose = seen.loose + np.einsum("nij,nj->ni", abs(seen.turn), colors.loose)
    toward = _nearest(miss, slopes, colors.reach)
    by_sheaf = _along(toward, miss, slopes, colors.reach, loose)
    inside = np.clip(target, limits.low, limits.high) - target
    corner = np.einsum("nij,nj->ni", seen.turn, inside) + seen.off
    middle = np.einsum("nij,nj->ni", seen.turn, limits.middle - target) + seen.off
    by_limits = _along(corner, middle, seen.turn, limits.half, seen.loose)
    return np.maximum(by_sheaf, by_limits), Sheaf(miss, slopes, colors.reach, loose)


def _nearest(miss: Array, slopes: Array, reach: Array) -> Array:
    """About the shortest of miss + slopes·x, by setting one x after the other."""
    x = np.zeros_like(reach)
    left = miss.copy()
    norms = (slopes**2).sum(axis=1) + 1e-30
    for _ in range(_SWEEPS):
        for j in range(reach.shape[1]):
            row = slopes[:, :, j]
            new = np.clip(
                x[:, j] - (row * left).sum(axis=1) / norms[:, j], -reach[:, j], reach[:, j]
            )
            left += row * (new - x[:, j])[:, None]
            x[:, j] = new
    return left


def _along(way: Array, miss: Array, slopes: Array, reach: Array, loose: Array) -> Array:
    """How far every miss + slopes·x ± loose is out along a way, at least."""
    way = way / (np.linalg.norm(way, axis=1) + 1e-30)[:, None]
    back = (abs(np.einsum("ni,nij->nj", way, slopes)) * reach).sum(axis=1)
    found = (way * miss).sum(axis=1) - back - (abs(way) * loose).sum(axis=1)
    return np.asarray(np.maximum(found, 0))
