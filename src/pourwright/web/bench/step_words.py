"""What the hands do next in one line, for pages beside the bench."""

from __future__ import annotations

from pourwright.actions.told_pour import ToldPour
from pourwright.bench.hand import Hand, What
from pourwright.web.bench.moment import about_cup

_READY = {
    "room": "air, gloves, shield",
    "jug": "mix the jug",
    "start": "read plastic and room",
    "dry": "molds, cups and salt dry",
    "oven": "one oven, one circuit",
    "injector": "plunger and molds",
}


def step_words(told: ToldPour, hand: Hand) -> str:
    """The step and what it is about: `Cool and open: mold 1`."""
    about = _about(told, hand)
    return f"{hand.stage.value}: {about}" if about else hand.stage.value


def ready_words(item: str) -> str:
    """What is made ready, in a few words."""
    return _READY.get(item, item)


def _about(told: ToldPour, hand: Hand) -> str:
    match hand.what:
        case What.READY:
            return ready_words(hand.item)
        case What.DRY_TOOL:
            return next(w.name for w in told.setup.wet if w.id == hand.item)
        case What.WEIGH | What.TINT:
            return f"{_part_name(told, hand)} into {_cup(told, hand.cup)}"
        case What.CARD:
            return f"a drip of {_cup(told, hand.cup)} on the card"
        case What.OVEN:
            return f"{_cup(told, hand.cup)} in the oven"
        case What.DRY:
            return f"dry mold {hand.mold}"
        case What.FIVE:
            return "weigh five"
        case What.BACK:
            return "back to the pot"
        case What.TALLY | What.FINISH:
            return hand.item
    if hand.mold:
        return f"mold {hand.mold}"
    return _cup(told, hand.cup) if hand.cup else ""


def _part_name(told: ToldPour, hand: Hand) -> str:
    task = told.setup.cup(hand.cup)
    parts = (*task.weigh, *task.tint) if task else ()
    return next(p.name for p in parts if p.key == hand.item)


def _cup(told: ToldPour, number: int) -> str:
    words = about_cup(told, number)
    return f"{words[0].lower()}{words[1:]}"
