"""What concerns a whole pour: made ready, put away, gone wrong."""

from __future__ import annotations

import dataclasses

from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.cup_story import Happening
from pourwright.bench.pour import Pour, WentWrong
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.unfit import Fold, Unfit, with_cup


def _ready(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    item = it.body["item"]
    if item not in setup.ready:
        raise Unfit(f"there is nothing called {item!r} to make ready")
    if item in pour.ready:
        raise Unfit("that was made sure of already")
    return dataclasses.replace(pour, ready=pour.ready | {item})


def _read_start(_: PourSetup, pour: Pour, _it: Happening) -> Pour:
    if "start" in pour.ready:
        raise Unfit("air and plastic were read already")
    return dataclasses.replace(pour, ready=pour.ready | {"start"})


def _put_away(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.away_since:
        raise Unfit("the pour was put away already")
    if pour.in_oven is not None:
        raise Unfit(f"cup {pour.in_oven.number} is in the oven and was not read yet")
    return dataclasses.replace(pour, away_since=it.at)


def _taken_up(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    """What was made ready is made ready anew, cups and injector are warmed anew."""
    if not pour.away_since:
        raise Unfit("the pour was not put away")
    away = pour.away_s + max(0.0, seconds_between(pour.away_since, it.at))
    cold = {n: dataclasses.replace(c, hot=False, primed=False) for n, c in pour.cups.items()}
    return dataclasses.replace(pour, away_since="", away_s=away, ready=frozenset(), cups=cold)


def _wrong(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    """Everything halts, and an oven that runs counts as switched off."""
    troubles = (*pour.troubles, WentWrong(it.body["what"], it.at))
    cup = pour.in_oven
    if cup is not None and cup.burst is not None and not cup.burst.ended:
        pour = with_cup(pour, cup, burst=dataclasses.replace(cup.burst, ended=it.at))
    return dataclasses.replace(pour, troubles=troubles, halted=True)


def _went_on(_: PourSetup, pour: Pour, _it: Happening) -> Pour:
    if not pour.halted:
        raise Unfit("nothing had halted")
    return dataclasses.replace(pour, halted=False)


# By kind, how such an event changes the pour.
WHOLE_FOLDS: dict[str, Fold] = {
    kind.READY: _ready,
    kind.READ_START: _read_start,
    kind.PUT_AWAY: _put_away,
    kind.TAKEN_UP: _taken_up,
    kind.WRONG: _wrong,
    kind.WENT_ON: _went_on,
}
