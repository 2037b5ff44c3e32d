"""What was told of a cup's fill before it was heated: the scale, raw plastic, air."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable

from pourwright.bench.cup_story import WORKED, Happening, taken_back
from pourwright.bench.tap_kind import PART_IN, READ_START, TAKEN_UP
from pourwright.heat.cooked_cup import CookedCup


def told_fill(happenings: Iterable[Happening], number: int, planned: CookedCup) -> CookedCup:
    """The planned fill with what scale and thermometer said before the cup's first round.

    The start is read once, and once more by who takes the pour up again.
    """
    told = list(happenings)
    gone = taken_back(told)
    plastic_g, start_c, ambient_c = planned.plastic_g, planned.start_c, planned.ambient_c
    seen: set[str] = set()
    read = False
    for it in told:
        if it.id in gone:
            continue
        if it.kind == WORKED and it.body["cup"] == number:
            break
        if it.kind == TAKEN_UP:
            read = False
        elif it.kind == READ_START and not read:
            read = True
            start_c = _or(it.body["plastic_c"], start_c)
            ambient_c = _or(it.body["air_c"], ambient_c)
        elif it.kind == PART_IN and it.body["cup"] == number and it.body["part"] not in seen:
            seen.add(it.body["part"])
            plastic_g += it.body["grams"] - it.body["wanted_g"]
    return dataclasses.replace(
        planned, plastic_g=round(plastic_g, 1), start_c=start_c, ambient_c=ambient_c
    )


def _or(told: float | None, planned: float | None) -> float | None:
    return planned if told is None else told
