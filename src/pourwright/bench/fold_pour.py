"""The fold: events of a lot, oldest first, into where its pour stands."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.cup_story import (
    MEANT,
    POURED,
    TOLD_OF_CUPS,
    WORKED,
    Happening,
    cup_stories,
    taken_back,
)
from pourwright.bench.pour import (
    Burst,
    CupNow,
    Dripped,
    Hung,
    KeptBack,
    MoldUse,
    Newest,
    Pour,
    Stray,
    Trouble,
)
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.tap_body import CARD, READ
from pourwright.shop.lot import COUNTED


class _Unfit(Exception):
    """Why an event does not fit where it came."""


def pour_of(setup: PourSetup, happenings: Iterable[Happening]) -> Pour:
    """The pour that the events tell. Events of other kinds are left alone.

    The same id a second time changes nothing; an event that was taken back counts as if it had
    not happened, and what came after it and no longer fits becomes a stray.
    """
    told = list({h.id: h for h in happenings}.values())
    gone = taken_back(told)
    kept = [h for h in told if h.id not in gone]
    pour = Pour(cups={c.number: CupNow(c.number) for c in setup.cups}, stories=cup_stories(told))
    ids = {h.id for h in told}
    for it in kept:
        if it.kind in _FOLDS:
            pour = after(setup, pour, it)
        elif it.kind == kind.TAKEN_BACK and it.body["event"] not in ids:
            pour = _astray(pour, it, "what it takes back was never kept")
    return pour


def after(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    """The pour after one more event; one that does not fit is kept among the strays."""
    try:
        found = _FOLDS[it.kind](setup, pour, it)
    except _Unfit as why:
        return _astray(pour, it, str(why))
    newest = Newest(it.id, it.kind, it.at, it.body)
    return dataclasses.replace(found, newest=newest, began_at=found.began_at or it.at)


def grown(setup: PourSetup, pour: Pour, happenings: Sequence[Happening]) -> Pour:
    """The pour after the newest of its events, as `pour_of` of all of them."""
    it = happenings[-1]
    if it.kind not in _FOLDS:
        return pour_of(setup, happenings)
    found = after(setup, pour, it)
    if it.kind not in TOLD_OF_CUPS:
        return found
    return dataclasses.replace(found, stories=cup_stories(happenings))


def _astray(pour: Pour, it: Happening, why: str) -> Pour:
    return dataclasses.replace(pour, strays=(*pour.strays, Stray(it.id, it.kind, it.at, why)))


def known(kind_of_event: str) -> bool:
    """Whether the fold has a use for events of that kind."""
    return kind_of_event in _FOLDS


_Body = Mapping[str, Any]


def _cup(pour: Pour, body: _Body) -> CupNow:
    found = pour.cups.get(int(body["cup"]))
    if found is None:
        raise _Unfit(f"this sheet has no cup {body['cup']}")
    return found


def _live(pour: Pour, body: _Body) -> CupNow:
    cup = _cup(pour, body)
    if cup.over:
        raise _Unfit(f"cup {cup.number} was done with already")
    return cup


def _put(pour: Pour, cup: CupNow, **changes: Any) -> Pour:
    changed = dataclasses.replace(cup, **changes)
    return dataclasses.replace(pour, cups={**pour.cups, cup.number: changed})


def _mold(setup: PourSetup, body: _Body) -> int:
    mold = int(body["mold"])
    if not 1 <= mold <= len(setup.molds):
        raise _Unfit(f"this sheet has no mold {mold}")
    return mold


def _ready(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    item = it.body["item"]
    if item not in setup.ready:
        raise _Unfit(f"there is nothing called {item!r} to make ready")
    if item in pour.ready:
        raise _Unfit("that was made sure of already")
    return dataclasses.replace(pour, ready=pour.ready | {item})


def _read_start(_: PourSetup, pour: Pour, _it: Happening) -> Pour:
    if "start" in pour.ready:
        raise _Unfit("air and plastic were read already")
    return dataclasses.replace(pour, ready=pour.ready | {"start"})


def _dried(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    if "mold" in it.body:
        mold = _mold(setup, it.body)
        if mold not in pour.wet:
            raise _Unfit(f"mold {mold} was not wet")
        return dataclasses.replace(pour, wet=pour.wet - {mold})
    if it.body["id"] in pour.dried:
        raise _Unfit("it was dry already")
    return dataclasses.replace(pour, dried=pour.dried | {it.body["id"]})


def _part_in(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup, part = _live(pour, it.body), it.body["part"]
    task = setup.cup(cup.number)
    if task is None or part not in {p.key for p in task.weigh}:
        raise _Unfit(f"nothing called {part!r} is weighed into cup {cup.number}")
    if part in cup.weighed:
        raise _Unfit("it was in already: tapped twice, or on two phones")
    return _put(pour, cup, weighed={**cup.weighed, part: float(it.body["grams"])})


def _parts_in(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    """All that was still missing, as the sheet asks for it."""
    cup = _live(pour, it.body)
    task = setup.cup(cup.number)
    missing = {p.key: p.grams for p in task.weigh if p.key not in cup.weighed} if task else {}
    if not missing:
        raise _Unfit("all parts were in already")
    return _put(pour, cup, weighed={**cup.weighed, **missing})


def _begun(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = _live(pour, it.body)
    if pour.in_oven is not None:
        raise _Unfit(f"cup {pour.in_oven.number} is in the oven and was not read yet")
    return _put(pour, cup, burst=Burst(it.id, it.at, float(it.body["for_s"])), by_hand=True)


def _ended(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = _live(pour, it.body)
    if cup.burst is None or cup.burst.ended:
        raise _Unfit("no oven was running on it")
    return _put(pour, cup, burst=dataclasses.replace(cup.burst, ended=it.at))


def _worked(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = _live(pour, it.body)
    return _put(pour, cup, burst=None, by_hand=True, rounds=cup.rounds + 1)


def _read(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    """A reading the bench could not place; one that fits is kept as a round of its cup."""
    cup = _live(pour, it.body)
    raise _Unfit(f"cup {cup.number} was read already: tapped twice, or on two phones")


def _meant(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = _cup(pour, it.body)
    story = pour.stories.get(cup.number)
    if story is None or all(e.id != it.body["event"] for e in story.entries):
        raise _Unfit(f"cup {cup.number} has no such reading")
    return pour


def _hot(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = _live(pour, it.body)
    if cup.hot:
        raise _Unfit(f"cup {cup.number} was said to be hot already")
    if not cup.by_hand:
        raise _Unfit(f"cup {cup.number} was never heated")
    return _put(pour, cup, hot=True)


def _dripped(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup, part = _live(pour, it.body), it.body["part"]
    before = _tint(setup, cup, part)
    drops = before.drops + int(it.body.get("drops") or 0)
    grams = before.grams + float(it.body.get("lost_g") or 0.0)
    return _put(pour, cup, tint={**cup.tint, part: Dripped(drops, grams)})


def _tinted(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup, part = _live(pour, it.body), it.body["part"]
    done = dataclasses.replace(_tint(setup, cup, part), done=True)
    return _put(pour, cup, tint={**cup.tint, part: done})


def _tint(setup: PourSetup, cup: CupNow, part: str) -> Dripped:
    task = setup.cup(cup.number)
    if part != CARD and (task is None or part not in {p.key for p in task.tint}):
        raise _Unfit(f"nothing called {part!r} tints cup {cup.number}")
    found = cup.tint.get(part, Dripped())
    if found.done:
        raise _Unfit("that was all in already")
    return found


def _primed(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = _live(pour, it.body)
    if cup.primed:
        raise _Unfit("the injector was warmed already")
    return _put(pour, cup, primed=True)


def _filled(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    mold = _mold(setup, it.body)
    if pour.in_mold(mold) is not None:
        raise _Unfit(f"mold {mold} was full already: tapped twice, or on two phones")
    if mold in pour.wet:
        raise _Unfit(f"mold {mold} is wet: water flashes to steam in hot plastic; dry it first")
    cups = [_live(pour, {"cup": n}) for n in it.body["drawn_g"]]
    cold = [c.number for c in cups if not c.by_hand]
    if cold or not cups:
        raise _Unfit(f"cup {cold[0]} was never heated" if cold else "no cup was named")
    for cup in cups:
        pour = _put(pour, cup, shots=cup.shots + 1, rounds=0)
    return dataclasses.replace(pour, uses=(*pour.uses, MoldUse(it.id, mold, it.at)))


def _soft(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    use = _used(setup, pour, it.body)
    return _use(pour, dataclasses.replace(use, soft_at=(*use.soft_at, it.at)))


def _opened(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    return _use(pour, dataclasses.replace(_used(setup, pour, it.body), opened=it.at))


def _used(setup: PourSetup, pour: Pour, body: _Body) -> MoldUse:
    mold = _mold(setup, body)
    use = pour.in_mold(mold)
    if use is None:
        raise _Unfit(f"mold {mold} was empty already: tapped twice, or on two phones")
    return use


def _use(pour: Pour, use: MoldUse) -> Pour:
    place = next(i for i in reversed(range(len(pour.uses))) if pour.uses[i].id == use.id)
    uses = (*pour.uses[:place], use, *pour.uses[place + 1 :])
    return dataclasses.replace(pour, uses=uses)


def _dipped(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    mold = _mold(setup, it.body)
    if mold in pour.wet:
        raise _Unfit(f"mold {mold} was wet already")
    return dataclasses.replace(pour, wet=pour.wet | {mold}, dipped=True)


def _more(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    for number in it.body["cups"]:
        cup = _live(pour, {"cup": number})
        pour = _put(pour, cup, more=cup.more + 1)
    return pour


def _poured(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    return _put(pour, _live(pour, it.body), over=True, burst=None)


def _discarded(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    return _put(pour, _live(pour, it.body), over=True, discarded=True, burst=None)


def _tallied(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    name = it.body["came_out"]
    if name in pour.tally:
        raise _Unfit(f"{name} was counted already as {pour.tally[name]}; take that back first")
    return dataclasses.replace(pour, tally={**pour.tally, name: int(it.body["n"])})


def _five(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.five_asked:
        raise _Unfit("five were weighed already; take that back first")
    return dataclasses.replace(pour, five_g=it.body["five_g"], five_asked=True)


def _kept_back(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.back is not None:
        raise _Unfit("that was weighed already; take it back first")
    back = KeptBack(it.body["remelt_g"], it.body["sprue_g"])
    return dataclasses.replace(pour, back=back)


def _counted(_: PourSetup, pour: Pour, _it: Happening) -> Pour:
    return dataclasses.replace(pour, counted=True)


def _finished(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if it.body["what"] in pour.finished:
        raise _Unfit("that was done already")
    return dataclasses.replace(pour, finished=pour.finished | {it.body["what"]})


def _hung(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.hung is not None:
        raise _Unfit("they hang already")
    place, hours = str(it.body["place"]), float(it.body["for_h"])
    return dataclasses.replace(pour, hung=Hung(place, it.at, hours))


def _off(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.hung is None or pour.off_at:
        raise _Unfit("nothing hangs" if pour.hung is None else "they were taken off already")
    return dataclasses.replace(pour, off_at=it.at)


def _put_away(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    if pour.away_since:
        raise _Unfit("the pour was put away already")
    if pour.in_oven is not None:
        raise _Unfit(f"cup {pour.in_oven.number} is in the oven and was not read yet")
    return dataclasses.replace(pour, away_since=it.at)


def _taken_up(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    """What was made ready is made ready anew, cups and injector are warmed anew."""
    if not pour.away_since:
        raise _Unfit("the pour was not put away")
    away = pour.away_s + max(0.0, seconds_between(pour.away_since, it.at))
    cold = {n: dataclasses.replace(c, hot=False, primed=False) for n, c in pour.cups.items()}
    return dataclasses.replace(pour, away_since="", away_s=away, ready=frozenset(), cups=cold)


def _wrong(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    """Everything halts, and an oven that runs counts as switched off."""
    troubles = (*pour.troubles, Trouble(it.body["what"], it.at))
    cup = pour.in_oven
    if cup is not None and cup.burst is not None and not cup.burst.ended:
        pour = _put(pour, cup, burst=dataclasses.replace(cup.burst, ended=it.at))
    return dataclasses.replace(pour, troubles=troubles, halted=True)


def _went_on(_: PourSetup, pour: Pour, _it: Happening) -> Pour:
    if not pour.halted:
        raise _Unfit("nothing had halted")
    return dataclasses.replace(pour, halted=False)


_FOLDS: dict[str, Callable[[PourSetup, Pour, Happening], Pour]] = {
    kind.READY: _ready,
    kind.READ_START: _read_start,
    kind.DRIED: _dried,
    kind.PART_IN: _part_in,
    kind.PARTS_IN: _parts_in,
    kind.BEGUN: _begun,
    kind.ENDED: _ended,
    WORKED: _worked,
    READ: _read,
    MEANT: _meant,
    kind.HOT: _hot,
    kind.DRIPPED: _dripped,
    kind.TINTED: _tinted,
    kind.PRIMED: _primed,
    kind.FILLED: _filled,
    kind.SOFT: _soft,
    kind.OPENED: _opened,
    kind.DIPPED: _dipped,
    kind.MORE: _more,
    POURED: _poured,
    kind.DISCARDED: _discarded,
    kind.TALLIED: _tallied,
    kind.WEIGHED_FIVE: _five,
    kind.KEPT_BACK: _kept_back,
    COUNTED: _counted,
    kind.FINISHED: _finished,
    kind.HUNG: _hung,
    kind.TAKEN_OFF: _off,
    kind.PUT_AWAY: _put_away,
    kind.TAKEN_UP: _taken_up,
    kind.WRONG: _wrong,
    kind.WENT_ON: _went_on,
}
