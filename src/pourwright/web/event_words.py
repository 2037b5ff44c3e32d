"""An event of a pour in words, with its numbers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pourwright.actions.told_pour import ToldPour
from pourwright.base.wording import clock
from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import MEANT, UNDONE, WORKED, Happening, entry_of
from pourwright.bench.tap_body import READ
from pourwright.heat.history import Did, Step
from pourwright.web.bench.deed_words import deed_words
from pourwright.web.bench.step_words import ready_words
from pourwright.web.bench.trouble import troubles
from pourwright.web.degrees import read_words
from pourwright.web.show import Settings

_Body = Mapping[str, Any]


def event_words(
    it: Happening, takes: Happening | None, told: ToldPour | None, settings: Settings
) -> str:
    """What an event says; `takes` is what it takes back, `told` names the parts of cups."""
    if takes is not None:
        return f"Took back: {_words(takes, told, settings)}"
    return _words(it, told, settings)


def _words(it: Happening, told: ToldPour | None, settings: Settings) -> str:
    if it.kind == WORKED:
        steps = (_step(s, settings) for s in entry_of(it).steps)
        return f"Cup {it.body['cup']}: {', '.join(s for s in steps if s)}"
    if it.kind in _WHOLE:
        return _WHOLE[it.kind](it.body, settings)
    words = deed_words(told, it.kind, it.body) if told else it.kind.replace("_", " ")
    detail = _DETAILS[it.kind](it.body, settings) if it.kind in _DETAILS else ""
    return f"{words}: {detail}" if detail else words


def _step(it: Step, settings: Settings) -> str:
    match it.did:
        case Did.HEATED:
            return f"heated {clock(it.for_s or 0)}"
        case Did.READ if it.read_c is not None:
            return f"read {read_words(it.read_c, settings)}"
        case Did.DRAWN | Did.ADDED:
            return f"{it.mass_g or 0:g} g {it.did.value}"
    return ""


def _start(body: _Body, settings: Settings) -> str:
    named = (("plastic", body["plastic_c"]), ("room", body["air_c"]))
    return ", ".join(f"{n} {read_words(c, settings)}" for n, c in named if c is not None)


def _kept_back(body: _Body, _: Settings) -> str:
    named = (("leftover", body["remelt_g"]), ("sprue", body["sprue_g"]))
    return ", ".join(f"{n} {g:g} g" for n, g in named if g is not None)


def _wrong(body: _Body, _: Settings) -> str:
    label = next(t.label for t in troubles() if t.what == body["what"])
    return f"Something wrong: {label.lower()}. {body['note']}".rstrip(". ")


def _ready(body: _Body, _: Settings) -> str:
    return f"Made ready: {ready_words(body['item'])}"


def _unplaced(body: _Body, settings: Settings) -> str:
    return f"Reading of cup {body['cup']}: {_read(body, settings)}"


def _back(_: _Body, __: Settings) -> str:
    return "Took back what is not known here"


def _read(body: _Body, settings: Settings) -> str:
    return read_words(body["read_c"], settings)


def _weighed(body: _Body, _: Settings) -> str:
    return f"{body['grams']:.1f} g, wanted {body['wanted_g']:.1f} g"


def _five(body: _Body, _: Settings) -> str:
    return "" if body["five_g"] is None else f"{body['five_g']:g} g"


def _hung(body: _Body, _: Settings) -> str:
    return f"on the {body['place']} for {body['for_h']:g} h"


_Words = Callable[[_Body, Settings], str]
_WHOLE: dict[str, _Words] = {
    kind.TAKEN_BACK: _back,
    UNDONE: _back,
    kind.READY: _ready,
    kind.WRONG: _wrong,
    READ: _unplaced,
}
_DETAILS: dict[str, _Words] = {
    kind.READ_START: _start,
    kind.PART_IN: _weighed,
    kind.WEIGHED_FIVE: _five,
    kind.KEPT_BACK: _kept_back,
    kind.HUNG: _hung,
    MEANT: _read,
}
