"""A solid cut down to as many triangles as a page, a store and a sum can bear."""

from __future__ import annotations

import bisect

import numpy as np

from pourwright.body.loft import Solid

KEPT_TRIANGLES = 24_000
# How far the skin may move, in shares of the length: 0.02 mm on 100 mm, and only if need be more.
MEANT = 2e-4
STEPS = (2e-5, 5e-5, 1e-4, MEANT, 3.5e-4, 6e-4, 1e-3, 2e-3)


def simplified(solid: Solid) -> tuple[Solid, float]:
    """A solid of few triangles and the same volume, and how far its skin moved at most, as a share
    of its length.

    The first step that is enough is taken; the coarsest may still leave more than wished. Flats
    cut across what was round, so the rest is grown about its middle until the volume is back.
    """
    if solid.num_tri() <= KEPT_TRIANGLES:
        return solid, 0.0
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    size = float((high - low).max())

    def enough(share: float) -> bool:
        return bool(solid.simplify(share * size).num_tri() <= KEPT_TRIANGLES)

    share = STEPS[min(bisect.bisect_left(STEPS, True, key=enough), len(STEPS) - 1)]
    plain = solid.simplify(share * size)
    return _grown(plain, (solid.volume() / plain.volume()) ** (1 / 3)), share


def _grown(solid: Solid, ratio: float) -> Solid:
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    middle = (low + high) / 2
    return solid.translate(-middle).scale((ratio, ratio, ratio)).translate(middle)
