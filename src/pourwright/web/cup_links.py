"""The way from a sheet or a lot to its cups."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.cup_turns import CupTurn, cup_turns
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
    links = {t: _link(t, sheet.number) for t in cup_turns(bench, sheet)}
    return _links(links)


def note_links(bench: Bench, sheet: Sheet) -> CupLinks:
    """The same for a pour that the bench guides: a cup's page then takes what stands in notes."""
    links = {t: _note_link(t, sheet.number) for t in cup_turns(bench, sheet)}
    return _links(links)


def _links(links: Mapping[CupTurn, CupLink]) -> CupLinks:
    due = next((link for turn, link in links.items() if turn.due), None)
    return CupLinks(due, tuple(link for turn, link in links.items() if not turn.due))


def _link(turn: CupTurn, sheet: int) -> CupLink:
    label = f"Cup {turn.number}" + (": poured" if turn.poured else "")
    if turn.due:
        label = f"{'Go on with' if turn.begun else 'Heat'} cup {turn.number}"
    return CupLink(label, f"/sheets/{sheet}/cups/{turn.number}")


def _note_link(turn: CupTurn, sheet: int) -> CupLink:
    told = "poured" if turn.poured else "enter from notes"
    return CupLink(f"Cup {turn.number}: {told}", f"/sheets/{sheet}/cups/{turn.number}?late=1")
