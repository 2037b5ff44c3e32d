"""What happens once the baits are out: counted, weighed, finished, hung."""

from __future__ import annotations

import dataclasses

from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import Happening
from pourwright.bench.pour import Hung, Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.tap_body import KeptBack
from pourwright.bench.unfit import Fold, Unfit
from pourwright.shop.lot import COUNTED


def _tallied(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    name = it.body["came_out"]
    if name in pour.tally:
        raise Unfit(f"{name} was counted already as {pour.tally[name]}; take that back first")
    return dataclasses.replace(pour, tally={**pour.tally, name: int(it.body["n"])})


def _five(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.five_asked:
        raise Unfit("five were weighed already; take that back first")
    return dataclasses.replace(pour, five_g=it.body["five_g"], five_asked=True)


def _kept_back(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.back is not None:
        raise Unfit("that was weighed already; take it back first")
    back = KeptBack(remelt_g=it.body["remelt_g"], sprue_g=it.body["sprue_g"])
    return dataclasses.replace(pour, back=back)


def _counted(_: PourSetup, pour: Pour, _it: Happening) -> Pour:
    return dataclasses.replace(pour, counted=True)


def _finished(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if it.body["what"] in pour.finished:
        raise Unfit("that was done already")
    return dataclasses.replace(pour, finished=pour.finished | {it.body["what"]})


def _hung(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.hung is not None:
        raise Unfit("they hang already")
    place, hours = str(it.body["place"]), float(it.body["for_h"])
    return dataclasses.replace(pour, hung=Hung(place, it.at, hours))


def _off(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.hung is None or pour.off_at:
        raise Unfit("nothing hangs" if pour.hung is None else "they were taken off already")
    return dataclasses.replace(pour, off_at=it.at)


# By kind, how an event about the baits changes the pour.
BAIT_FOLDS: dict[str, Fold] = {
    kind.TALLIED: _tallied,
    kind.WEIGHED_FIVE: _five,
    kind.KEPT_BACK: _kept_back,
    COUNTED: _counted,
    kind.FINISHED: _finished,
    kind.HUNG: _hung,
    kind.TAKEN_OFF: _off,
}
