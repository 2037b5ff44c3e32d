"""How long until something is paid back, where it may never be."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import out

# One time in twenty it is sooner than the low end, one in twenty later than the high one.
TAIL = 0.05


@dataclass(frozen=True, slots=True)
class Until:
    """How long until something is paid back."""

    low: float = out("Where things go well: one time in twenty it is sooner")
    typical: float = out("Typical")
    high: float | None = out("Where they go badly; null where it may never come")


def over(cost: float, gain: Array) -> Array:
    """How many gains make up a cost, by draw; without end where there is none to gain."""
    return np.where(gain > 0, cost / np.where(gain > 0, gain, 1), np.inf)


def until(values: Array, typical: float, *, whole: bool = False) -> Until:
    """The ends of drawn values; a high end that may never come is none."""
    ordered = np.sort(values[1:])
    last = len(ordered) - 1
    low, high = (float(ordered[round(q * last)]) for q in (TAIL, 1 - TAIL))
    if whole:
        low, high = np.ceil(low), np.ceil(high)
    late = max(float(high), typical) if math.isfinite(high) else None
    return Until(min(float(low), typical), typical, late)


def in_words(it: Until, unit: str, places: int) -> str:
    """A span with its ends, as in `61 packs (52 to 75)`."""
    typical, low = f"{it.typical:,.{places}f}", f"{it.low:,.{places}f}"
    named = f"{typical} {unit}" if typical == "1" else f"{typical} {unit}s"
    if it.high is None:
        return f"{named} (from {low}; at the bad end of what is known, never)"
    high = f"{it.high:,.{places}f}"
    return named if low == high else f"{named} ({low} to {high})"
