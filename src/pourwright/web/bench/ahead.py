"""The screens to come, along the pads, so that a phone out of reach goes on by itself."""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.tap_event import Tap, foreseen
from pourwright.base.errors import BadInput
from pourwright.bench.clock import after as later
from pourwright.bench.cup_story import MEANT
from pourwright.bench.hand import UNLOAD_S, What, next_hand
from pourwright.bench.tap_body import READ
from pourwright.bench.tap_kind import TAKEN_BACK
from pourwright.web.bench.heat_table import Table, heat_table
from pourwright.web.bench.hot import heat_plan
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Pad, Screen
from pourwright.web.bench.screens import screen_of

# Screens foreseen along the main pads, how many of them lead on by their side pads too, and how
# many of those to screens off the way: enough for the parts of a cup or some rounds of molds.
MOST_AHEAD, SIDES_AHEAD, BESIDE = 48, 12, 3
# A link leads out of the pour, taking back asks for the events before it, and whether a cup is hot
# once its reading was in the other unit is for the laptop to judge.
_UNFORESEEN = frozenset({"", TAKEN_BACK, MEANT})


@dataclass(frozen=True, slots=True)
class Ahead:
    """The screen of now with its pads leading on, and the screens they lead to."""

    screen: Screen
    later: Mapping[str, Screen]


@dataclass(frozen=True, slots=True)
class _Stop:
    """A moment on the way, and its screen."""

    moment: Moment
    screen: Screen


def led(it: Moment, pad: Pad) -> Screen | None:
    """The screen a pad leads to from a moment; none where it leads nowhere."""
    after = _after(it, pad)
    return None if after is None else screen_of(after)


def ahead(it: Moment) -> Ahead:
    """Follow the main pads from a moment, and the side pads of the first few steps."""
    way = _way(it)
    leads = {_place(a.screen, _main(a.screen)): b.screen.key for a, b in itertools.pairwise(way)}
    stops = {s.screen.key: s for s in way}
    for n, stop in enumerate(way[:SIDES_AHEAD]):
        for pad in _pads(stop.screen):
            place = _place(stop.screen, pad)
            after = None if place in leads else _after(stop.moment, pad)
            if after is not None:
                beside = _Stop(after, screen_of(after))
                leads[place] = beside.screen.key
                if n < BESIDE:
                    stops.setdefault(beside.screen.key, beside)
    tables = _tables(way)
    screens = {k: _linked(s, leads, stops, tables) for k, s in stops.items()}
    later = {k: dataclasses.replace(s, began=None) for k, s in screens.items()}
    for table in tables.values():
        later |= table.screens
    first = screens[way[0].screen.key]
    del later[first.key]
    return Ahead(first, later)


_Place = tuple[str, str]


def _place(screen: Screen, pad: Pad | None) -> _Place:
    """A pad of a screen, by what tells it apart there."""
    return screen.key, pad.label if pad else ""


def _way(it: Moment) -> list[_Stop]:
    """Along the main pads, until nothing new comes."""
    found = [_Stop(it, screen_of(it))]
    seen = {found[0].screen.key}
    while len(found) <= MOST_AHEAD:
        after = _after(found[-1].moment, _main(found[-1].screen))
        if after is None:
            break
        stop = _Stop(after, screen_of(after))
        if stop.screen.key in seen:
            break
        seen.add(stop.screen.key)
        found.append(stop)
    return found


def _tables(way: list[_Stop]) -> dict[int, Table]:
    """The sheet's table for every cup read on the way, with what follows a hot reading.

    The table holds for a full cup: one that was poured from is read, and waits for the laptop.
    """
    found: dict[int, Table] = {}
    for stop, following in itertools.pairwise(way):
        pad = _main(stop.screen)
        full = stop.moment.hand.cup and not stop.moment.cup.shots
        if pad is not None and pad.kind == READ and full:
            cup = stop.moment.hand.cup
            found.setdefault(cup, heat_table(stop.moment, hot=following.screen.key))
    return found


def _linked(
    stop: _Stop,
    leads: Mapping[_Place, str],
    stops: Mapping[str, _Stop],
    tables: Mapping[int, Table],
) -> Screen:
    """The screen of a stop, its pads leading to screens that were foreseen."""

    def led(pad: Pad) -> Pad:
        if pad.kind == READ:
            table = tables.get(stop.moment.hand.cup)
            return dataclasses.replace(pad, next_by=table.rows if table else None)
        key = leads.get(_place(stop.screen, pad))
        return dataclasses.replace(pad, next=key if key in stops else None)

    phases = tuple(
        dataclasses.replace(p, pads=tuple(led(pad) for pad in p.pads)) for p in stop.screen.phases
    )
    return dataclasses.replace(stop.screen, phases=phases)


def _after(it: Moment, pad: Pad | None) -> Moment | None:
    """The moment after a pad, its numbers left as they stand; none where it leads nowhere new."""
    if pad is None or pad.kind in _UNFORESEEN:
        return None
    body = dict(pad.body)
    if pad.kind == READ:
        body |= {"read_c": _target_c(it), "after": None}
    elif pad.entry:
        body |= _as_it_stands(it, pad)
    # Two shots of a chain must not share an id, or opening the one would open the other.
    key, now = f"foreseen-{pad.kind}-{len(it.told.pour.uses)}", _then(it, pad)
    try:
        told = foreseen(it.told, Tap(key, pad.kind, now, body), at=now)
    except BadInput:
        return None
    if told.pour.strays != it.told.pour.strays:
        return None
    hand = next_hand(told.setup, told.pour, now=now, judged={}, due=told.due)
    return Moment(told, hand, now, it.settings)


def _then(it: Moment, pad: Pad) -> str:
    """When a pad is pressed: now, but a mold that cools is unloaded once it is due."""
    if it.hand.what is not What.WAIT or not pad.main:
        return it.now
    due = next(d.at for d in it.told.due if d.mold == it.hand.mold)
    return max(it.now, later(due, round(UNLOAD_S)))


def _as_it_stands(it: Moment, pad: Pad) -> dict[str, float]:
    """The numbers offered by the entries beside a pad."""
    phase = next(p for p in screen_of(it).phases if pad in p.pads)
    return {e.name: _number(e.value) for e in phase.entries if e.value}


def _number(text: str) -> float:
    value = float(text)
    return int(value) if value.is_integer() else value


def _target_c(it: Moment) -> float:
    return float(heat_plan(it)["target_c"])


def _pads(screen: Screen) -> tuple[Pad, ...]:
    return tuple(pad for phase in screen.phases for pad in phase.pads)


def _main(screen: Screen) -> Pad | None:
    """What the last phase asks to press."""
    return next((pad for pad in reversed(_pads(screen)) if pad.main), None)
