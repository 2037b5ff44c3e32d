"""Something wrong: what to do first, before anything is written down."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.bench.tap_body import Trouble
from pourwright.bench.tap_kind import DISCARDED, WENT_ON, WRONG
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Pad, Phase, Screen


@dataclass(frozen=True, slots=True)
class TroubleScreen:
    """One sort of trouble, and what to do in what order."""

    what: str
    label: str
    first: tuple[str, ...]
    pad: Pad


# First aid for burns: European Resuscitation Council Guidelines 2021, first aid (from memory:
# cool at once with running water, twenty minutes); fire and fumes: common practice, no source.
_FIRST: dict[Trouble, tuple[str, tuple[str, ...]]] = {
    Trouble.HOT: (
        "Too hot or smoking",
        (
            "Door stays shut. Switch the oven off.",
            "Unplug it if the plug is safely reached.",
            "Out of the fumes, everybody; air the room from outside.",
            "Flame, or smoke that goes on: call the fire service.",
            "Never water on it. Never carry a smoking cup.",
        ),
    ),
    Trouble.SPILLED: (
        "Spilled",
        (
            "Step back. On skin: cool running water now, and choose Burned.",
            "Clothes soaked with hot plastic: hold under water, then off, unless they stick.",
            "Oven off if it ran there. No water on a pool of hot plastic.",
            "Leave it until it is cold and firm; then peel it up.",
        ),
    ),
    Trouble.BURNED: (
        "Burned",
        (
            "Cool running water on it now, for twenty minutes.",
            "Rings and watch off. Never pull off plastic that sticks to skin.",
            "Face, eyes, hands, large or deep, or a child: call the emergency number.",
            "Then cover it loosely, clean and dry. No ice, no ointment.",
            "Somebody else switches the oven off.",
        ),
    ),
    Trouble.OTHER: (
        "Something else",
        (
            "Oven off. Hands off what is hot.",
            "People first: out of fumes, away from drips.",
            "Power, glass, gas: by local codes and licensed help.",
            "It is stamped; write down what it was in the lot's note.",
        ),
    ),
}


def halted(it: Moment) -> Screen:
    """After trouble: what to do first stays in view until somebody goes on."""
    label, first = _FIRST[Trouble(it.hand.item)]
    pads = [Pad("All is well: go on", WENT_ON, main=True)]
    if it.hand.cup:
        give_up = {"cup": it.hand.cup}
        pads.append(Pad(f"Give cup {it.hand.cup} up", DISCARDED, give_up, hold=True))
    phase = Phase(label, words=first, say=f"Stopped. {first[0]}", pads=tuple(pads),
                  caution="Stopped: the oven counts as switched off")  # fmt: skip
    return it.screen(phase, count=len(it.told.pour.troubles))


def troubles() -> tuple[TroubleScreen, ...]:
    """The four sorts, each with the event it stamps."""
    return tuple(
        TroubleScreen(what.value, label, first, Pad(label, WRONG, {"what": what.value}))
        for what, (label, first) in _FIRST.items()
    )
