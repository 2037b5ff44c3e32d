"""When a mold in use may be opened: it is warmer at every shot, and cools while it is empty."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.forecast.pouring import MoldBench


@dataclass(frozen=True, slots=True)
class Use:
    """One shot in a mold, in seconds on any one clock; `opened_s` is null while it lies there."""

    filled_s: float
    opened_s: float | None = None


def open_after_s(bench: MoldBench, uses: tuple[Use, ...]) -> Array:
    """Seconds from the last filling until that shot is firm.

    The uses of one mold, oldest first; a mold is taken to have come in at the temperature the
    bench expects of it before its first shot.
    """
    cold, firm = bench.mold_c, np.zeros_like(bench.mold_c)
    opened_s: float | None = None
    for use in uses:
        if opened_s is not None:
            cold = bench.bait.mold.rested_c(cold, firm * 0 + max(0.0, use.filled_s - opened_s))
        poured = bench.bait.poured(cold)
        if use.opened_s is None:
            return bench.bait.open_s(poured)
        closed = firm * 0 + max(0.0, use.opened_s - use.filled_s)
        cold, opened_s = bench.bait.mold_c(poured, closed), use.opened_s
    raise ValueError("the last use of the mold was opened already")
