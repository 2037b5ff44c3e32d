"""The guide to pucks: what to pour and read, what it taught, what is missing."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.calibrate_shelf import calibrate_shelf
from pourwright.actions.import_spectra import import_spectra
from pourwright.actions.port import Bench
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.color.calibrate.answer import CalibrateAnswer
from pourwright.color.calibrate.entry import Use
from pourwright.shop.calibration import Calibration
from pourwright.shop.card import Card
from pourwright.shop.material import Colorant, PearlPowder, Plastic
from pourwright.shop.puck import Puck
from pourwright.web.page import Page, Show, Visit

_PUCKS_EACH = 3


@dataclass(frozen=True, slots=True)
class State:
    """How well the color of one material is known."""

    name: str
    address: str
    color_hex: str
    pucks: int
    words: str
    open_lab: float | None
    asks: str


@dataclass(frozen=True, slots=True)
class Entered:
    """A puck or a card in the store."""

    name: str
    address: str
    words: str


@dataclass(frozen=True, slots=True)
class GuideContext:
    """The page."""

    title: str
    states: tuple[State, ...]
    cards: tuple[Entered, ...]
    pucks: tuple[Entered, ...]
    answer: CalibrateAnswer | None
    refused: str
    taken: tuple[str, ...]


def guide(visit: Visit) -> Show:
    """See what is known, and learn from what was read."""
    answer, refused, status = None, "", 200
    if visit.posted:
        try:
            answer = calibrate_shelf(visit.world).answer
        except PourwrightError as error:
            refused, status = str(error), error.http_status
    with visit.world.bench() as bench:
        return Show("puck/guide.html", _context(bench, answer, refused), status)


def spectra(visit: Visit) -> Show:
    """Put a file of spectra into the cards and pucks its columns name."""
    upload = visit.files.get("spectra")
    taken: tuple[str, ...] = ()
    refused, status = "", 200
    try:
        if upload is None:
            raise BadInput("spectra", None, "choose a CSV file first")
        taken = import_spectra(visit.world, upload.file.read())
    except PourwrightError as error:
        refused, status = str(error), error.http_status
    with visit.world.bench() as bench:
        return Show("puck/guide.html", _context(bench, None, refused, taken), status)


def _context(
    bench: Bench, answer: CalibrateAnswer | None, refused: str, taken: tuple[str, ...] = ()
) -> GuideContext:
    return GuideContext(
        "Pucks",
        _states(bench),
        tuple(
            Entered(s.noun.name, f"/records/card/{s.id}", "bare card")
            for s in bench.records.all(Card.key)
        ),
        _pucks(bench),
        answer,
        refused,
        taken,
    )


def _states(bench: Bench) -> tuple[State, ...]:
    known = {
        s.noun.material: s.noun
        for s in bench.records.all(Calibration.key)
        if isinstance(s.noun, Calibration)
    }
    pucks = [s.noun for s in bench.records.all(Puck.key) if isinstance(s.noun, Puck)]
    found = []
    for sort in (Plastic.key, Colorant.key, PearlPowder.key):
        for stored in bench.records.all(sort):
            held = _held(pucks, stored.id, plain=sort == Plastic.key)
            belief = known.get(stored.id)
            found.append(
                State(
                    stored.noun.name,
                    f"/records/{sort}/{stored.id}",
                    getattr(stored.noun, "color_hex", ""),
                    held,
                    belief.words if belief else "the color entered",
                    belief.open_lab if belief and sort != Plastic.key else None,
                    _asks(held, plain=sort == Plastic.key),
                )
            )
    return tuple(found)


def _held(pucks: list[Puck], material: str, *, plain: bool) -> int:
    if plain:
        return sum(p.plastic == material and not p.doses for p in pucks)
    return sum(any(d.material == material for d in p.doses) for p in pucks)


def _asks(held: int, *, plain: bool) -> str:
    if plain:
        return "" if held else "a plain puck, 5 or 10 mm"
    words = ("2 drops in 100 g", "8 drops in 100 g", "4 drops with 2 of white")
    return ", ".join(words[held:]) if held < _PUCKS_EACH else ""


def _pucks(bench: Bench) -> tuple[Entered, ...]:
    found = []
    for stored in bench.records.all(Puck.key):
        noun = stored.noun
        if isinstance(noun, Puck):
            use = "tests only" if noun.use is Use.CHECK else "teaches"
            words = f"{noun.source.value}, {noun.instrument.value}, {noun.placing.value}, {use}"
            found.append(Entered(noun.name, f"/records/puck/{stored.id}", words))
    return tuple(found)


PUCK_PAGES = (
    Page("/pucks", guide, ("GET", "POST")),
    Page("/pucks/spectra", spectra, ("POST",)),
)
