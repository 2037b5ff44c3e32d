"""When the molds of a pour may be opened, as they were really filled and emptied."""

from __future__ import annotations

import functools
from statistics import NormalDist

from pourwright.base.band import Band
from pourwright.base.draws import Z90, Draws
from pourwright.forecast.mold_in_use import Use, open_after_s
from pourwright.forecast.pouring import MoldBench, mold_bench
from pourwright.forecast.request import BatchRequest
from pourwright.plan.cooking import kitchen_of

DRAWS = 80
# Of a normal spread, as many deviations lie below four cases of five.
_FOUR_OF_FIVE = NormalDist().inv_cdf(0.8)


def ring_s(after_s: Band) -> float:
    """When to look at a bait: once it is firm in four cases of five, for a logarithmic spread.

    A bait opened too early dents, one opened late does not.
    """
    wide = max(after_s.high / after_s.typical, 1.0)
    return float(after_s.typical * wide ** (_FOUR_OF_FIVE / Z90))


@functools.lru_cache(maxsize=512)
def opening(request: BatchRequest, shot_g: float, uses: tuple[Use, ...]) -> Band:
    """Seconds from a mold's last filling until its bait is firm, for the uses of one mold.

    `shot_g` is all that one shot brings into it. Raises: NoAnswer where mold or room are as warm
    as the bait should come out.
    """
    draws = Draws(seed=request.seed, count=DRAWS)
    return draws.band(open_after_s(_bench(request, round(shot_g, 1)), uses))


@functools.lru_cache(maxsize=8)
def _bench(request: BatchRequest, shot_g: float) -> MoldBench:
    kitchen = kitchen_of(request, Draws(seed=request.seed, count=DRAWS))
    return mold_bench(kitchen, request.bait, request.mold, request.injector, shot_g)
