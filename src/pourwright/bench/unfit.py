"""What an event may find on its way into a pour: its cup, its mold, or that it does not fit."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from typing import Any

from pourwright.bench.cup_story import Happening
from pourwright.bench.pour import CupNow, Pour
from pourwright.bench.pour_setup import PourSetup

Body = Mapping[str, Any]
Fold = Callable[[PourSetup, Pour, Happening], Pour]


class Unfit(Exception):
    """Why an event does not fit where it came."""


def cup_of(pour: Pour, body: Body) -> CupNow:
    """A cup of the sheet. Raises: Unfit."""
    found = pour.cups.get(int(body["cup"]))
    if found is None:
        raise Unfit(f"this sheet has no cup {body['cup']}")
    return found


def live_cup(pour: Pour, body: Body) -> CupNow:
    """A cup that is not done with. Raises: Unfit."""
    cup = cup_of(pour, body)
    if cup.over:
        raise Unfit(f"cup {cup.number} was done with already")
    return cup


def with_cup(pour: Pour, cup: CupNow, **changes: Any) -> Pour:
    """The pour with a cup changed."""
    changed = dataclasses.replace(cup, **changes)
    return dataclasses.replace(pour, cups={**pour.cups, cup.number: changed})


def mold_of(setup: PourSetup, body: Body) -> int:
    """The number of a mold of the sheet. Raises: Unfit."""
    mold = int(body["mold"])
    if not 1 <= mold <= len(setup.molds):
        raise Unfit(f"this sheet has no mold {mold}")
    return mold
