"""What happens to the molds of a pour: filled, found soft, opened, wet, dry."""

from __future__ import annotations

import dataclasses

from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import Happening
from pourwright.bench.pour import MoldUse, Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.unfit import Body, Fold, Unfit, live_cup, mold_of, with_cup


def _filled(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    mold = mold_of(setup, it.body)
    if pour.in_mold(mold) is not None:
        raise Unfit(f"mold {mold} was full already: tapped twice, or on two phones")
    if mold in pour.wet:
        raise Unfit(f"mold {mold} is wet: water flashes to steam in hot plastic; dry it first")
    cups = [live_cup(pour, {"cup": n}) for n in it.body["drawn_g"]]
    cold = [c.number for c in cups if not c.by_hand]
    if cold or not cups:
        raise Unfit(f"cup {cold[0]} was never heated" if cold else "no cup was named")
    for cup in cups:
        pour = with_cup(pour, cup, shots=cup.shots + 1, rounds=0)
    return dataclasses.replace(pour, uses=(*pour.uses, MoldUse(it.id, mold, it.at)))


def _soft(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    use = _used(setup, pour, it.body)
    return _use(pour, dataclasses.replace(use, soft_at=(*use.soft_at, it.at)))


def _opened(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    return _use(pour, dataclasses.replace(_used(setup, pour, it.body), opened=it.at))


def _used(setup: PourSetup, pour: Pour, body: Body) -> MoldUse:
    mold = mold_of(setup, body)
    use = pour.in_mold(mold)
    if use is None:
        raise Unfit(f"mold {mold} was empty already: tapped twice, or on two phones")
    return use


def _use(pour: Pour, use: MoldUse) -> Pour:
    place = next(i for i in reversed(range(len(pour.uses))) if pour.uses[i].id == use.id)
    uses = (*pour.uses[:place], use, *pour.uses[place + 1 :])
    return dataclasses.replace(pour, uses=uses)


def _dipped(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    mold = mold_of(setup, it.body)
    if mold in pour.wet:
        raise Unfit(f"mold {mold} was wet already")
    return dataclasses.replace(pour, wet=pour.wet | {mold}, dipped=True)


def _dried(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    if "mold" in it.body:
        mold = mold_of(setup, it.body)
        if mold not in pour.wet:
            raise Unfit(f"mold {mold} was not wet")
        return dataclasses.replace(pour, wet=pour.wet - {mold})
    if it.body["id"] in pour.dried:
        raise Unfit("it was dry already")
    return dataclasses.replace(pour, dried=pour.dried | {it.body["id"]})


# By kind, how an event about a mold changes the pour.
MOLD_FOLDS: dict[str, Fold] = {
    kind.DRIED: _dried,
    kind.FILLED: _filled,
    kind.SOFT: _soft,
    kind.OPENED: _opened,
    kind.DIPPED: _dipped,
}
