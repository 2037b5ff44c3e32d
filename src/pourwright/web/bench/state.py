"""Where a pour stands, as the page of the bench gets it."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import pourwright
from pourwright.actions.guide_pour import Guide
from pourwright.base.record import to_json
from pourwright.base.wording import span
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import seconds_between
from pourwright.bench.hand import Stage, What, open_cups
from pourwright.bench.pour import Newest
from pourwright.shop.lot import CLOCK_OFF_S
from pourwright.web.bench.ahead import ahead, led
from pourwright.web.bench.deed_words import deed_words
from pourwright.web.bench.live import Live, live
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Pad, Screen
from pourwright.web.bench.trouble import TroubleScreen, troubles
from pourwright.web.show import Settings, opened

MOST_CLOCKS = 4
# How long a word about a tap that did not fit stays, and how many of them.
SAID_S, MOST_SAID = 600.0, 3
OFF_S = 60
UNDO_S = 10
UNBOOKED = (
    "The stock does not hold this count: the lot says so too, and keeping what came out there "
    "books it."
)
LOOK_AGAIN_S = 15
_COOLING = frozenset({What.COOK, What.HOT, What.TINT, What.CARD, What.PRIME, What.FILL, What.WAIT})


@dataclass(frozen=True, slots=True)
class Chip:
    """A clock of a mold."""

    key: str
    name: str
    until: str
    over: str


@dataclass(frozen=True, slots=True)
class Undo:
    """What an undo would take back."""

    id: str
    words: str
    at: str


@dataclass(frozen=True, slots=True)
class Way:
    """A way to another page."""

    words: str
    address: str


@dataclass(frozen=True, slots=True)
class State:
    """Everything the page of the bench shows; see the fields of `screen` for a step."""

    sheet: int
    code: str
    title: str
    newest: int
    now: str
    screen: Screen
    ahead: Mapping[str, Screen]
    clocks: tuple[Chip, ...]
    live: Live | None
    undo: Undo | None
    said: tuple[str, ...]
    wrong: tuple[TroubleScreen, ...]
    look_again_s: int | None
    over: bool
    leave: Way
    menu: tuple[Way, ...]
    held: tuple[Pad, ...]


def state_of(guide: Guide, settings: Settings) -> State:
    """The state of a pour for its page."""
    told, hand = guide.told, guide.hand
    moment = Moment(told, hand, guide.now, settings, guide.cups.get(hand.cup))
    found = ahead(moment)
    wrong, halts = _troubles(moment)
    number = told.sheet.number
    over = hand.what in {What.RACK, What.DONE}
    return State(
        sheet=number,
        code=told.sheet.code,
        title=told.sheet.title,
        newest=told.newest,
        now=guide.now,
        screen=found.screen,
        ahead={**found.later, **halts},
        clocks=_chips(guide),
        live=live(guide, settings),
        undo=_undo(guide),
        said=_said(guide),
        wrong=wrong,
        look_again_s=_look_again_s(guide),
        over=over,
        leave=Way("To the lot", f"/lots/{number}") if over else Way("To the sheet", _sheet(number)),
        menu=_menu(guide),
        held=_held(guide),
    )  # fmt: skip


def as_json(state: State) -> dict[str, Any]:
    """The state as plain JSON values; a row of a table begins `from` a reading."""
    found: dict[str, Any] = to_json(state)
    for screen in (found["screen"], *found["ahead"].values()):
        for phase in screen["phases"]:
            for pad in phase["pads"]:
                pad["next_by"] = pad["next_by"] and [
                    {"from": r["reads"], "unit": r["unit"], "next": r["next"]}
                    for r in pad["next_by"]
                ]
    return found


def in_page(state: State) -> str:
    """The state as text that may stand within a script element."""
    return json.dumps(as_json(state), ensure_ascii=False).replace("<", "\\u003c")


def _look_again_s(guide: Guide) -> int | None:
    """How soon the phone asks anew: a standing cup cools, a wait ends."""
    if guide.hand.what not in _COOLING:
        return None
    soonest = [d.at for d in guide.told.due] + [guide.hand.until] * bool(guide.hand.until)
    left = [seconds_between(guide.now, at) for at in soonest]
    return max(2, min([LOOK_AGAIN_S, *(round(s) + 1 for s in left if s > 0)]))


def _sheet(number: int) -> str:
    return f"/sheets/{number}"


def _chips(guide: Guide) -> tuple[Chip, ...]:
    names = guide.told.setup.molds
    soonest = sorted(guide.told.firm, key=lambda f: f.at)[:MOST_CLOCKS]
    return tuple(
        Chip(f"mold-{f.mold}", f"Mold {f.mold}: {names[f.mold - 1]}", f.at, "Open it")
        for f in soonest
    )


def _undo(guide: Guide) -> Undo | None:
    newest = guide.told.pour.newest
    if newest is None or _ran(guide, newest):
        return None
    return Undo(newest.id, deed_words(guide.told, newest.kind, newest.body), newest.at)


def _ran(guide: Guide, newest: Newest) -> bool:
    """Whether it is a burst that ran: its heat is in the cup, whatever is undone."""
    return newest.kind == kind.BEGUN and seconds_between(newest.at, guide.now) > UNDO_S


def _troubles(it: Moment) -> tuple[tuple[TroubleScreen, ...], dict[str, Screen]]:
    """The sorts of trouble, each leading to the screen on which all halts."""
    found, screens = [], {}
    for one in troubles():
        screen = led(it, one.pad)
        if screen is not None:
            screens[screen.key] = dataclasses.replace(screen, began=None)
            one = dataclasses.replace(one, pad=dataclasses.replace(one.pad, next=screen.key))  # noqa: PLW2901
        found.append(one)
    return tuple(found), screens


def _held(guide: Guide) -> tuple[Pad, ...]:
    """What is rarely done: give a cup up, put the pour away while nothing is hot or closed."""
    told, hand = guide.told, guide.hand
    if hand.what in {What.RACK, What.DONE, What.TAKE_UP, What.HALTED}:
        return ()
    cups = [
        Pad(f"Give cup {n} up", kind.DISCARDED, {"cup": n}, hold=True)
        for n in open_cups(told.setup, told.pour)
    ]
    busy = told.pour.in_oven is not None or told.pour.full
    away = [] if busy else [Pad("Put away for today", kind.PUT_AWAY, hold=True)]
    return (*cups, *away)


def _said(guide: Guide) -> tuple[str, ...]:
    """Taps that did not fit, what the stock lacks, a clock that is off, another version."""
    told, words = guide.told, []
    if told.sheet.version != pourwright.__version__:
        words.append(
            f"Sheet frozen by version {told.sheet.version}, this is {pourwright.__version__}: "
            "weights and doses are the sheet's own, times are reckoned anew."
        )
    strays = [s for s in told.pour.strays if seconds_between(s.at, guide.now) < SAID_S]
    words += [f"Kept, but it does not count: {s.why}." for s in strays[-MOST_SAID:]]
    words += _booked(guide)
    off = _clock_off(guide)
    if off:
        ahead_of = "ahead of" if off > 0 else "behind"
        words.append(
            f"A phone's clock is {span(abs(off))} {ahead_of} the laptop's: its times were put "
            "right."
        )
    return tuple(words)


def _booked(guide: Guide) -> tuple[str, ...]:
    if guide.books is None:
        return ()
    found = [f"{opened(it.words)}." for it in guide.books.found]
    if guide.books.eyes_short:
        found.append(f"{opened(guide.books.eyes_words)}.")
    return (*((UNBOOKED,) if guide.books.behind else ()), *found)


def _clock_off(guide: Guide) -> float:
    newest = guide.told.happenings[-10:]
    found = [h.body[CLOCK_OFF_S] for h in newest if abs(h.body.get(CLOCK_OFF_S, 0)) > OFF_S]
    return float(found[-1]) if found else 0.0


def _menu(guide: Guide) -> tuple[Way, ...]:
    number = guide.told.sheet.number
    cups = [
        Way(f"Cup {n}: enter from notes", f"/sheets/{number}/cups/{n}?late=1") for n in guide.cups
    ]
    cold = guide.hand.stage in {Stage.COUNT, Stage.FINISH, Stage.HANG, Stage.DONE}
    lot = [Way("The lot", f"/lots/{number}")] if cold else []
    paper = Way("The sheet on paper (PDF)", f"/sheets/{number}/sheet.pdf")
    return (*cups, paper, *lot, Way("Phones", "/phones"))
