"""How many molds keep one pair of hands busy: the same cup with one, two, and so on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any, TypeVar

import numpy as np

from pourwright.forecast.hot_cup import HotCup
from pourwright.forecast.rotation import Hands, Pour, Rotation
from pourwright.forecast.turns import rotated
from pourwright.heat.bait_in_mold import BaitInMold, Mold, Shot, bait_in_mold

MOST_MOLDS = 6
BUSY_SHARE = 0.15

R = TypeVar("R", Pour, Hands, HotCup, Shot, Mold)


def by_molds(pour: Pour, hands: Hands, cup: HotCup, bait: BaitInMold) -> tuple[Rotation, ...]:
    """The same cup with one mold, two, and so on until hands are busy; typical values only."""
    single = _typical(hands), _typical(cup), bait_in_mold(_typical(bait.shot), _typical(bait.mold))
    start, found = _typical(pour), []
    for n in range(1, min(max(pour.molds, MOST_MOLDS), pour.shots) + 1):
        found.append(rotated(replace(start, molds=n), *single))
        if n >= pour.molds and busy(found):
            break
    return tuple(found)


def busy(counts: Sequence[Rotation]) -> int | None:
    """The fewest molds that leave hands idle for less than a small share of the time."""
    found = (r.molds for r in counts if r.idle_s[0] < BUSY_SHARE * r.seconds[0])
    return next(found, None)


def _typical(record: R) -> R:
    """The same with the typical draw alone."""
    known = {f.name: getattr(record, f.name) for f in fields(record)}
    first: dict[str, Any] = {k: v[:1] for k, v in known.items() if isinstance(v, np.ndarray)}
    return replace(record, **first)
