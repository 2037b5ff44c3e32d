"""What the hands do next, decided from where the pour stands, the clock and what is judged hot."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from pourwright.bench.clock import after, seconds_between
from pourwright.bench.pour import CupNow, Pour
from pourwright.bench.pour_setup import CupTask, PourSetup, WetThing
from pourwright.bench.tap_body import CARD, CameOut, Finish
from pourwright.heat.next_step import Next

# Besides its seconds on, a rewarm takes carrying, a rest, a stir and a reading; a mold takes
# opening and closing: estimates.
HANDLING_S, UNLOAD_S = 60.0, 75.0
# A rewarm beside cooling molds begins so long before the latest moment at most, and not when a mold
# is about to be due.
EARLY_S, LEAST_ROOM_S = 15.0, 20.0
# A bait found soft is looked at again after so long: estimate.
SOFT_MORE_S = 60
# Rounds in the oven since a cup's last shot after which the little in it will not stay hot:
# estimate.
MOST_ROUNDS = 6


class Stage(StrEnum):
    """The steps of a pour, as their screens are headed."""

    STOPPED = "Stopped"
    READY = "Ready"
    WEIGH = "Weigh"
    HEAT = "Heat"
    TINT = "Tint"
    POUR = "Pour"
    COOL = "Cool and open"
    REWARM = "Rewarm"
    COUNT = "Count"
    FINISH = "Finish"
    HANG = "Hang"
    DONE = "Done"


class What(StrEnum):
    """What exactly is to be done within a step."""

    HALTED = "halted"
    TAKE_UP = "take up"
    READY = "make ready"
    WEIGH = "weigh"
    OVEN = "oven"
    COOK = "cook"
    HOT = "hot"
    TINT = "tint"
    CARD = "card"
    PRIME = "prime"
    DRY = "dry"
    DRY_TOOL = "dry a tool"
    FILL = "fill"
    OPEN = "open"
    WAIT = "wait"
    EMPTY = "empty"
    TOO_LITTLE = "too little"
    TALLY = "tally"
    FIVE = "five"
    BACK = "back"
    COUNTED = "counted"
    FINISH = "finish"
    HANG = "hang"
    RACK = "rack"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class Judged:
    """What the thermometer says of a hot cup: the next move, and how long it stays pourable."""

    do: Next
    on_s: float = 0.0
    pourable_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Due:
    """When a full mold may be opened."""

    mold: int
    at: str


@dataclass(frozen=True, slots=True)
class Hand:
    """One thing to do. `cups` are the cups a shot is drawn from; `item` a part, a tally, a thing
    to make ready; `until` when a wait ends, by a mold that is due or a cup to be warmed.
    """

    stage: Stage
    what: What
    cup: int = 0
    mold: int = 0
    item: str = ""
    until: str = ""
    cups: tuple[int, ...] = ()


# A cup nobody judged yet: taken to be pourable, for looking ahead along the main pads.
UNJUDGED = Judged(Next.POUR, pourable_s=float("inf"))


def next_hand(
    setup: PourSetup,
    pour: Pour,
    *,
    now: str,
    judged: Mapping[int, Judged],
    due: tuple[Due, ...],
) -> Hand:
    """The next thing to do.

    Rules: after trouble nothing goes on until somebody says so; never away from a heating cup; a
    mold that is due is opened at once; every cup of the shot is weighed, heated and tinted before
    the first draw; empty molds are filled while the cup is pourable; a cup is warmed while molds
    cool, or before a draw that would find it cold; one whose partner in another layer is gone is
    emptied, and so is one with too little left to stay hot.
    """
    if pour.halted:
        oven = pour.in_oven.number if pour.in_oven else 0
        return Hand(Stage.STOPPED, What.HALTED, cup=oven, item=pour.troubles[-1].what)
    if pour.away_since:
        return Hand(Stage.READY, What.TAKE_UP)
    if pour.in_oven is not None:
        cup = pour.in_oven
        return Hand(Stage.REWARM if cup.hot else Stage.HEAT, What.OVEN, cup=cup.number)
    ripe = tuple(d for d in due if seconds_between(d.at, now) >= 0)
    if ripe:
        return Hand(Stage.COOL, What.OPEN, mold=min(ripe, key=lambda d: d.at).mold)
    if open_cups(setup, pour):
        wet = next((w.id for w in setup.wet if not _dry(pour, w)), None)
        if wet:
            return Hand(Stage.READY, What.DRY_TOOL, item=wet)
        unready = next((i for i in setup.ready if i not in pour.ready), None)
        if unready:
            return Hand(Stage.READY, What.READY, item=unready)
        return _with_cups(setup, pour, now=now, judged=judged, due=due)
    unpaired = next((c.number for c in pour.cups.values() if c.by_hand and not c.over), None)
    if unpaired:
        return Hand(Stage.POUR, What.EMPTY, cup=unpaired)
    if due:
        soonest = min(due, key=lambda d: d.at)
        return Hand(Stage.COOL, What.WAIT, mold=soonest.mold, until=soonest.at)
    return _cold(pour)


def open_cups(setup: PourSetup, pour: Pour) -> tuple[int, ...]:
    """The cups the next shot is drawn from: of each layer the first that is not done.

    None once a layer has no cup left, since a bait wants all its layers.
    """
    found = []
    for layer in setup.layers:
        left = [c for c in setup.cups if c.layer == layer and not pour.cups[c.number].over]
        if not left:
            return ()
        found.append(left[0].number)
    return tuple(found)


def free_molds(setup: PourSetup, pour: Pour) -> tuple[int, ...]:
    """The molds that hold no shot."""
    return tuple(m for m in range(1, len(setup.molds) + 1) if pour.in_mold(m) is None)


def shots_left(task: CupTask, cup: CupNow) -> int:
    """Shots the cup should still give."""
    return max(0, task.shots + cup.more - cup.shots)


def _with_cups(
    setup: PourSetup, pour: Pour, *, now: str, judged: Mapping[int, Judged], due: tuple[Due, ...]
) -> Hand:
    numbers = open_cups(setup, pour)
    tasks = [c for c in setup.cups if c.number in numbers]
    for task in tasks:
        cup = pour.cups[task.number]
        missing = next((p.key for p in task.weigh if p.key not in cup.weighed), None)
        if missing and not cup.by_hand:
            return Hand(Stage.WEIGH, What.WEIGH, cup=task.number, item=missing)
    for task in tasks:
        cup, seen = pour.cups[task.number], judged.get(task.number, UNJUDGED)
        if not shots_left(task, cup):
            continue
        if not cup.hot:
            cooked = cup.by_hand and seen.do is Next.POUR
            return Hand(Stage.HEAT, What.HOT if cooked else What.COOK, cup=task.number)
        untinted = next((p.key for p in task.tint if not _done(cup, p.key)), None)
        if untinted:
            return Hand(Stage.TINT, What.TINT, cup=task.number, item=untinted)
        if task.tint and not _done(cup, CARD):
            return Hand(Stage.TINT, What.CARD, cup=task.number)
    empty = next((t for t in tasks if not shots_left(t, pour.cups[t.number])), None)
    if empty:
        return Hand(Stage.POUR, What.EMPTY, cup=empty.number, cups=numbers)
    return _drawing(setup, pour, numbers, now=now, judged=judged, due=due)


def _drawing(
    setup: PourSetup,
    pour: Pour,
    numbers: tuple[int, ...],
    *,
    now: str,
    judged: Mapping[int, Judged],
    due: tuple[Due, ...],
) -> Hand:
    """Every cup of the shot is tinted and has shots left: fill, warm, or wait."""
    seen = {n: judged.get(n, UNJUDGED) for n in numbers}
    spent = next((n for n in numbers if _spent(pour.cups[n], seen[n])), None)
    if spent:
        return Hand(Stage.POUR, What.TOO_LITTLE, cup=spent, cups=numbers)
    halted = next((n for n, s in seen.items() if s.do in {Next.STOP, Next.READ_AGAIN}), None)
    if halted:
        return Hand(Stage.REWARM, What.COOK, cup=halted)
    free = free_molds(setup, pour)
    cold = next((n for n, s in seen.items() if s.pourable_s <= 0), None)
    if free:
        if cold:
            return Hand(Stage.REWARM, What.COOK, cup=cold)
        unprimed = next((n for n in numbers if not pour.cups[n].primed), None)
        if setup.injector and unprimed:
            return Hand(Stage.POUR, What.PRIME, cup=unprimed, cups=numbers)
        dry = [m for m in free if m not in pour.wet]
        if not dry:
            return Hand(Stage.POUR, What.DRY, mold=free[0])
        return Hand(Stage.POUR, What.FILL, mold=_rested(pour, dry), cups=numbers)
    soonest = min(due, key=lambda d: d.at)
    left_s = seconds_between(now, soonest.at)
    until = soonest.at
    for n, s in seen.items():
        cold_by_then = s.pourable_s < left_s + UNLOAD_S * len(due)
        spare_s = left_s - s.on_s - HANDLING_S
        warms = s.do in {Next.HEAT, Next.STIR_AND_READ}
        if cold_by_then and warms and left_s > LEAST_ROOM_S:
            if spare_s <= EARLY_S:
                return Hand(Stage.REWARM, What.COOK, cup=n)
            until = min(until, after(now, round(spare_s)))
    return Hand(Stage.COOL, What.WAIT, mold=soonest.mold, until=until, cups=numbers)


def _dry(pour: Pour, tool: WetThing) -> bool:
    """Whether a tool may be used; the molds dipped in this pour are asked about one by one."""
    return tool.id in pour.dried or (tool.sort == "mold" and pour.dipped)


def _spent(cup: CupNow, seen: Judged) -> bool:
    """Whether a cup that was poured from is cold, and warming it leads nowhere."""
    if not cup.shots or seen.pourable_s > 0:
        return False
    return seen.do is Next.STOP or cup.rounds >= MOST_ROUNDS


def _rested(pour: Pour, molds: list[int]) -> int:
    """The mold that has been empty longest."""
    opened = {m: max((u.opened for u in pour.uses if u.mold == m), default="") for m in molds}
    return min(molds, key=lambda m: (opened[m], m))


def _done(cup: CupNow, part: str) -> bool:
    found = cup.tint.get(part)
    return found is not None and found.done


def _cold(pour: Pour) -> Hand:
    """All cups are done and all molds empty."""
    if not pour.counted:
        tally = next((t for t in CameOut if t not in pour.tally), None)
        if tally:
            return Hand(Stage.COUNT, What.TALLY, item=tally)
        if not pour.five_asked:
            return Hand(Stage.COUNT, What.FIVE)
        if pour.back is None:
            return Hand(Stage.COUNT, What.BACK)
        return Hand(Stage.COUNT, What.COUNTED)
    left = next((f for f in Finish if f not in pour.finished), None)
    if left:
        return Hand(Stage.FINISH, What.FINISH, item=left)
    if pour.hung is None:
        return Hand(Stage.HANG, What.HANG)
    if not pour.off_at:
        due = after(pour.hung.at, round(pour.hung.for_h * 3600))
        return Hand(Stage.HANG, What.RACK, until=due)
    return Hand(Stage.DONE, What.DONE)
