"""What happens to a cup of a pour: weighed, heated, read, tinted, emptied."""

from __future__ import annotations

import dataclasses

from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import MEANT, POURED, WORKED, Happening
from pourwright.bench.pour import Burst, CupNow, Dripped, Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.tap_body import CARD, READ
from pourwright.bench.unfit import Fold, Unfit, cup_of, live_cup, with_cup


def _part_in(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup, part = live_cup(pour, it.body), it.body["part"]
    task = setup.cup(cup.number)
    if task is None or part not in {p.key for p in task.weigh}:
        raise Unfit(f"nothing called {part!r} is weighed into cup {cup.number}")
    if part in cup.weighed:
        raise Unfit("it was in already: tapped twice, or on two phones")
    return with_cup(pour, cup, weighed={**cup.weighed, part: float(it.body["grams"])})


def _parts_in(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    """All that was still missing, as the sheet asks for it."""
    cup = live_cup(pour, it.body)
    task = setup.cup(cup.number)
    missing = {p.key: p.grams for p in task.weigh if p.key not in cup.weighed} if task else {}
    if not missing:
        raise Unfit("all parts were in already")
    return with_cup(pour, cup, weighed={**cup.weighed, **missing})


def _begun(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = live_cup(pour, it.body)
    if pour.in_oven is not None:
        raise Unfit(f"cup {pour.in_oven.number} is in the oven and was not read yet")
    return with_cup(pour, cup, burst=Burst(it.id, it.at, float(it.body["for_s"])), by_hand=True)


def _ended(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = live_cup(pour, it.body)
    if cup.burst is None or cup.burst.ended:
        raise Unfit("no oven was running on it")
    return with_cup(pour, cup, burst=dataclasses.replace(cup.burst, ended=it.at))


def _worked(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = live_cup(pour, it.body)
    return with_cup(pour, cup, burst=None, by_hand=True, rounds=cup.rounds + 1)


def _read(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    """A reading the bench could not place; one that fits is kept as a round of its cup."""
    cup = live_cup(pour, it.body)
    raise Unfit(f"cup {cup.number} was read already: tapped twice, or on two phones")


def _meant(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = cup_of(pour, it.body)
    story = pour.stories.get(cup.number)
    if story is None or all(e.id != it.body["event"] for e in story.entries):
        raise Unfit(f"cup {cup.number} has no such reading")
    return pour


def _hot(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = live_cup(pour, it.body)
    if cup.hot:
        raise Unfit(f"cup {cup.number} was said to be hot already")
    if not cup.by_hand:
        raise Unfit(f"cup {cup.number} was never heated")
    return with_cup(pour, cup, hot=True)


def _dripped(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup, part = live_cup(pour, it.body), it.body["part"]
    before = _tint(setup, cup, part)
    drops = before.drops + int(it.body.get("drops") or 0)
    grams = before.grams + float(it.body.get("lost_g") or 0.0)
    return with_cup(pour, cup, tint={**cup.tint, part: Dripped(drops, grams)})


def _tinted(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup, part = live_cup(pour, it.body), it.body["part"]
    done = dataclasses.replace(_tint(setup, cup, part), done=True)
    return with_cup(pour, cup, tint={**cup.tint, part: done})


def _tint(setup: PourSetup, cup: CupNow, part: str) -> Dripped:
    task = setup.cup(cup.number)
    if part != CARD and (task is None or part not in {p.key for p in task.tint}):
        raise Unfit(f"nothing called {part!r} tints cup {cup.number}")
    found = cup.tint.get(part, Dripped())
    if found.done:
        raise Unfit("that was all in already")
    return found


def _primed(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    cup = live_cup(pour, it.body)
    if cup.primed:
        raise Unfit("the injector was warmed already")
    return with_cup(pour, cup, primed=True)


def _more(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    for number in it.body["cups"]:
        cup = live_cup(pour, {"cup": number})
        pour = with_cup(pour, cup, more=cup.more + 1)
    return pour


def _poured(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    return with_cup(pour, live_cup(pour, it.body), over=True, burst=None)


def _discarded(_: PourSetup, pour: Pour, it: Happening) -> Pour:
    return with_cup(pour, live_cup(pour, it.body), over=True, discarded=True, burst=None)


# By kind, how an event about a cup changes the pour.
CUP_FOLDS: dict[str, Fold] = {
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
    kind.MORE: _more,
    POURED: _poured,
    kind.DISCARDED: _discarded,
}
