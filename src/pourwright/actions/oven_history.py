"""The cups cooked in one microwave so far, and what they taught of it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pourwright.actions.port import Bench, Event, Recorded
from pourwright.base.record import from_json, to_json
from pourwright.bench.cup_story import CupStory, Happening, cup_stories, never_emptied
from pourwright.heat.cooked_cup import CookedCup
from pourwright.shop.sheet import Sheet

CUP_BEGUN = "cup_begun"
LOTS = "lot/"
MOST_CUPS = 12


@dataclass(frozen=True, slots=True)
class OvenCup:
    """A cup of a lot that was cooked in the oven, with all that was done to it."""

    lot: str
    sheet: int
    number: int
    started_at: str
    cup: CookedCup


def oven_subject(sheet: Sheet) -> str:
    """Under what the ledger keeps the cups of a sheet's oven; one without a record has its own."""
    return subject_of(str(sheet.draft.get("microwave", "")) or f"of-{sheet.code}")


def begun(sheet: Sheet, number: int, fill: CookedCup, *, id: str, at: str) -> Event:
    """The event that tells an oven of a cup."""
    body = {"lot": sheet.code, "sheet": sheet.number, "cup": number, "fill": to_json(fill)}
    return Event(id, oven_subject(sheet), CUP_BEGUN, at, body)


def stories(bench: Bench, lot: str) -> dict[int, CupStory]:
    """What happened to the cups of a lot, by number."""
    return cup_stories(happenings(bench, lot))


def happenings(bench: Bench, lot: str) -> tuple[Happening, ...]:
    """The events of a lot as the bench folds them, oldest first."""
    return happened(bench.ledger.of(lot_subject(lot)))


def lot_subject(code: str) -> str:
    """Under what the ledger keeps a lot."""
    return f"{LOTS}{code}"


def happened(told: Iterable[Recorded]) -> tuple[Happening, ...]:
    """Events of a lot as the bench folds them."""
    return tuple(Happening(e.event.id, e.event.kind, e.event.at, e.event.body) for e in told)


def cooked_cups(bench: Bench, microwave: str) -> tuple[CookedCup, ...]:
    """The last cups cooked in a microwave, oldest first."""
    return tuple(it.cup for it in oven_cups(bench, subject_of(microwave)))


def oven_cups(
    bench: Bench, subject: str, *, until: tuple[str, int] | None = None
) -> tuple[OvenCup, ...]:
    """The last cups of an oven that taught something, oldest first.

    `until` names a lot and a cup: only those begun before it count.
    """
    known: dict[tuple[str, int], Event] = {}
    for recorded in bench.ledger.of(subject):
        body = recorded.event.body
        known.setdefault((body["lot"], body["cup"]), recorded.event)
    places = list(known)
    if until in known:
        places = places[: places.index(until)]
    told: dict[str, Mapping[int, CupStory]] = {}
    found: list[OvenCup] = []
    for lot, number in reversed(places):
        if len(found) == MOST_CUPS:
            break
        if lot not in told:
            told[lot] = stories(bench, lot)
        cup = _cooked(known[lot, number], told[lot].get(number))
        found += [cup] if cup else []
    return tuple(sorted(found, key=lambda it: it.started_at))


def _cooked(event: Event, story: CupStory | None) -> OvenCup | None:
    if story is None:
        return None
    fill = from_json(CookedCup, event.body["fill"])
    steps = never_emptied(story.steps, fill.plastic_g)
    cup = dataclasses.replace(fill, history=steps)
    if not cup.taught:
        return None
    body = event.body
    return OvenCup(body["lot"], body["sheet"], body["cup"], story.started_at, cup)


def subject_of(microwave: str) -> str:
    """Under what the ledger keeps the cups of a microwave."""
    return f"oven/{microwave}"
