"""Whole drops, level spoons and steps of a scale that stand in for an exact amount."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.color import spoon

FEW_STEPS = 5
LETDOWN = "make a bigger cup, or thin the colorant 1:10 (a letdown) and count ten times the drops"
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Count:
    """What is really measured out, in drops, teaspoons or grams as the dose was given."""

    amount: float
    drops: int | None = None
    spoons: str = ""
    note: str = ""


def dripped(wanted: float) -> Count:
    """Whole drops; a half drop is left out, since more can be added but none taken out.

    >>> dripped(20.16).drops, dripped(2.5).drops
    (20, 2)
    """
    drops = max(math.ceil(wanted - 0.5 - _SLACK), 0)
    if wanted and drops <= 1:
        word = "drop" if drops == 1 else "drops"
        return Count(drops, drops, note=f"rounds to {drops} {word}: {LETDOWN}")
    return Count(drops, drops)


def spooned(wanted: float, sizes: tuple[float, ...]) -> Count:
    """Level spoons for an amount in teaspoons, from sizes in teaspoons."""
    spoons = spoon.spooned(wanted, sizes)
    words = spoon.in_words(spoons)
    if wanted and not spoons:
        least = spoon.in_fraction(min(sizes))
        return Count(0.0, spoons=words, note=f"rounds to no spoon of {least} tsp: weigh it instead")
    return Count(spoon.total(spoons), spoons=words)


def weighed(wanted: float, step_g: float) -> Count:
    """Grams in whole steps of the scale.

    >>> weighed(3.36, 0.1).amount
    3.4
    """
    steps = math.floor(wanted / step_g + 0.5 + _SLACK)
    few = "under five steps of the scale: use a finer scale or a bigger cup"
    return Count(round(steps * step_g, 9), note=few if wanted and steps < FEW_STEPS else "")
