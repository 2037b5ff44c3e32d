"""The way from a sheet or a lot to its cups."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.oven_history import stories
from pourwright.actions.port import Bench
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class CupLink:
    """A cup of a sheet: where its page is, and how far it has come."""

    label: str
    address: str


@dataclass(frozen=True, slots=True)
class CupLinks:
    """The cup whose turn it is, if any, and all others."""

    next: CupLink | None
    others: tuple[CupLink, ...]


def cup_links(bench: Bench, sheet: Sheet) -> CupLinks:
    """The cups of a sheet in order; poured ones are not offered for heating."""
    told = stories(bench, sheet.code)
    due: CupLink | None = None
    others: list[CupLink] = []
    for cup in sheet.plan["cups"]:
        number = cup["number"]
        address = f"/sheets/{sheet.number}/cups/{number}"
        story = told.get(number)
        if story and story.poured:
            others.append(CupLink(f"Cup {number}: poured", address))
        elif due is None:
            begun = story is not None and story.entries
            due = CupLink(f"{'Go on with' if begun else 'Heat'} cup {number}", address)
        else:
            others.append(CupLink(f"Cup {number}", address))
    return CupLinks(due, tuple(others))
