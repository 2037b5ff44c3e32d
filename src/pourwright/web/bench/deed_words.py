"""What an event says in words, for taking it back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.actions.told_pour import ToldPour
from pourwright.base.wording import clock
from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import MEANT, POURED, WORKED
from pourwright.bench.tap_body import CARD
from pourwright.shop.lot import COUNTED
from pourwright.web.bench.end import TALLY_NAMES
from pourwright.web.bench.step_words import ready_words

_PLAIN = {
    kind.READ_START: "Start read",
    kind.DRIED: "Dry",
    kind.PART_IN: "{name} in",
    kind.PARTS_IN: "All parts of cup {cup} in",
    kind.BEGUN: "Oven started",
    kind.ENDED: "Oven stopped",
    kind.HOT: "Hot enough",
    kind.TINTED: "{name} all in",
    kind.PRIMED: "Injector warmed",
    kind.FILLED: "Mold {mold} full",
    kind.SOFT: "Mold {mold} still soft",
    kind.OPENED: "Mold {mold} opened",
    kind.DIPPED: "Mold {mold} cooled in water",
    kind.MORE: "One more shot",
    POURED: "Cup {cup} empty",
    kind.DISCARDED: "Cup {cup} given up",
    kind.WEIGHED_FIVE: "Five weighed",
    kind.KEPT_BACK: "Remelt weighed",
    WORKED: "Reading of cup {cup}",
    MEANT: "Unit of a reading",
    COUNTED: "Count kept",
    kind.FINISHED: "Finished: {what}",
    kind.HUNG: "Hung",
    kind.TAKEN_OFF: "Taken off",
    kind.PUT_AWAY: "Put away",
    kind.TAKEN_UP: "Taken up",
    kind.WRONG: "Something wrong: {what}",
    kind.WENT_ON: "All is well",
}


def deed_words(told: ToldPour, event_kind: str, body: Mapping[str, Any]) -> str:
    """A few words for an event of a pour."""
    name = _part_name(told, body)
    if event_kind == kind.DRIPPED:
        drops, lost_g = body.get("drops"), body.get("lost_g")
        count = "1 drop" if drops == 1 else f"{drops} drops"
        return f"{count} of {name}" if drops else f"{lost_g:g} g of {name}"
    if event_kind == kind.BEGUN:
        return f"Oven started for {clock(body['for_s'])}"
    if event_kind == kind.READY:
        return f"Done: {ready_words(body['item'])}"
    if event_kind == kind.TALLIED:
        return f"{body['n']} {TALLY_NAMES[body['came_out']].lower()}"
    if event_kind == kind.TINTED and body["part"] == CARD:
        return "Drip on the card"
    return _PLAIN[event_kind].format(**{"name": name, **body})


def _part_name(told: ToldPour, body: Mapping[str, Any]) -> str:
    task = told.setup.cup(int(body.get("cup", 0)))
    parts = (*task.weigh, *task.tint) if task else ()
    return next((p.name for p in parts if p.key == body.get("part")), "")
