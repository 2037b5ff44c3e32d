"""How far each cup of a sheet has come, and whose turn it is."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.oven_history import stories
from pourwright.actions.port import Bench
from pourwright.bench.cup_story import CupStory
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class CupTurn:
    """A cup of a sheet: begun once anything was entered, due where it is the next to heat."""

    number: int
    begun: bool
    poured: bool
    due: bool


def cup_turns(bench: Bench, sheet: Sheet) -> tuple[CupTurn, ...]:
    """The cups of a sheet in order; the first that was not poured is due."""
    told = stories(bench, sheet.code)
    found: list[CupTurn] = []
    for cup in sheet.plan["cups"]:
        story = told.get(cup["number"], CupStory(cup["number"]))
        poured = bool(story.poured)
        due = not poured and not any(c.due for c in found)
        found.append(CupTurn(story.number, bool(story.entries), poured, due))
    return tuple(found)
