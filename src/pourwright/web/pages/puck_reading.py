"""Enter what was read of a puck over a card, or of a bare card, typed or from a photo."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

from pourwright.actions.enter_reading import Reading, read_card, read_puck
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.color.fit.reading import Instrument
from pourwright.color.lab import Lab
from pourwright.color.slab import Placing
from pourwright.shop.card import Card
from pourwright.shop.puck import Puck
from pourwright.web.number_text import NotANumber, number_of
from pourwright.web.page import Go, Page, Show, Visit

E = TypeVar("E", bound=StrEnum)
_LABELS = {"l": "L*", "a": "a*", "b": "b*"}
_BY_LAB = (Instrument.METER, Instrument.PHOTO)
_LIES = {
    Placing.CONTACT: "poured on the card: it touches",
    Placing.AIR_GAP: "lying on the card: air under it",
}
MOST_NAME = 60


@dataclass(frozen=True, slots=True)
class Chosen:
    """A puck or a card to choose."""

    id: str
    words: str


@dataclass(frozen=True, slots=True)
class ReadingContext:
    """The page; `typed` holds what was typed or came from a photo."""

    title: str
    typed: Mapping[str, str]
    pucks: tuple[Chosen, ...]
    cards: tuple[Chosen, ...]
    instruments: tuple[str, ...]
    lies: tuple[Chosen, ...]
    refused: str


def reading(visit: Visit) -> Show | Go:
    """Type a reading, or take one over from a photo."""
    if not visit.posted:
        return _page(visit, dict(visit.request.query_params))
    typed = dict(visit.sent)
    try:
        _keep(visit, typed)
    except PourwrightError as error:
        return _page(visit, typed, error)
    return Go("/pucks?did=read")


def _keep(visit: Visit, typed: Mapping[str, str]) -> None:
    lab = Lab(lightness=_number(typed, "l"), a=_number(typed, "a"), b=_number(typed, "b"))
    if typed.get("puck"):
        if not typed.get("card"):
            raise BadInput("card", "", "pick the card under the puck, or enter the bare card first")
        read = Reading(
            lab=lab,
            instrument=_picked(typed, "instrument", _BY_LAB),
            placing=_picked(typed, "placing", tuple(_LIES)),
        )
        read_puck(visit.world, typed["puck"], typed["card"], read)
        return
    name = typed.get("name", "").strip()
    if not 0 < len(name) <= MOST_NAME:
        raise BadInput("name", name, "pick a puck, or name the bare card that was read")
    read_card(visit.world, name, lab)


def _picked(typed: Mapping[str, str], key: str, among: tuple[E, ...]) -> E:
    given = typed.get(key, "")
    found = next((one for one in among if one.value == given), None)
    if found is None:
        raise BadInput(key, given, f"must be one of {', '.join(among)}")
    return found


def _number(typed: Mapping[str, str], key: str) -> float:
    text = typed.get(key, "").strip()
    try:
        return number_of(text, unit="")
    except NotANumber as error:
        raise BadInput(_LABELS[key], text, str(error)) from error


def _page(visit: Visit, typed: dict[str, str], error: PourwrightError | None = None) -> Show:
    keys = ("puck", "card", "name", "l", "a", "b", "instrument", "placing")
    with visit.world.reading() as bench:
        context = ReadingContext(
            "Enter a reading",
            {k: typed.get(k, "") for k in keys},
            tuple(
                Chosen(s.id, f"{s.noun.name} ({len(s.noun.readings)} so far)")
                for s in bench.records.all(Puck.key)
                if isinstance(s.noun, Puck)
            ),
            tuple(Chosen(s.id, s.noun.name) for s in bench.records.all(Card.key)),
            tuple(i.value for i in _BY_LAB),
            (Chosen("", "say which"), *(Chosen(p.value, words) for p, words in _LIES.items())),
            str(error) if error else "",
        )
    return Show("puck/reading.html", context, error.http_status if error else 200)


READING_PAGES = (Page("/pucks/reading", reading, ("GET", "POST")),)
