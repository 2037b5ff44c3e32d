"""The pages that list what is on the bench: one for each place."""

from __future__ import annotations

import inspect
from dataclasses import dataclass, replace

from pourwright.actions.port import Bench, Stored
from pourwright.shop.look import Look
from pourwright.shop.material import Material
from pourwright.shop.mold import Bait
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import NOUNS
from pourwright.shop.workplace import Workplace
from pourwright.web.deed import Deed, deeds_of
from pourwright.web.fact import Summary, summary
from pourwright.web.guard import LAPTOP
from pourwright.web.look_form import baits_with_shape
from pourwright.web.names import Names
from pourwright.web.page import Page, Show, View, Visit
from pourwright.web.portrait import Portrait, portrait
from pourwright.web.show import Settings
from pourwright.web.thumb import listed_thumb
from pourwright.web.widget import Choice


@dataclass(frozen=True, slots=True)
class Row:
    """A record in the list."""

    id: str
    name: str
    address: str
    summary: Summary
    portrait: Portrait
    saved: bool
    deeds: tuple[Deed, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """The records of one sort; `add` is empty where no more may be added."""

    sort: str
    label: str
    plural: str
    help: str
    rows: tuple[Row, ...]
    add: str


@dataclass(frozen=True, slots=True)
class Gone:
    """A record that was taken off the lists."""

    name: str
    label: str
    history: str


@dataclass(frozen=True, slots=True)
class ListContext:
    """Everything on the bench that belongs to one place."""

    title: str
    lead: str
    filled: tuple[Section, ...]
    empty: tuple[Section, ...]
    gone: tuple[Gone, ...]
    doors: tuple[Deed, ...]


def listing(place: str, title: str, lead: str) -> View:
    """The view of one place."""

    def view(visit: Visit) -> Show:
        saved = visit.request.query_params.get("saved", "")
        with visit.world.reading() as bench:
            sections = tuple(
                _section(bench, sort, visit.settings, saved)
                for sort in NOUNS.values()
                if sort.place == place
            )
            gone = tuple(
                Gone(s.noun.name, sort.label, f"/records/{sort.key}/{s.id}/history")
                for sort in NOUNS.values()
                if sort.place == place
                for s in bench.records.all(sort.key, retired=True)
                if s.retired
            )
        context = ListContext(
            title,
            lead,
            tuple(s for s in sections if s.rows),
            tuple(s for s in sections if not s.rows),
            gone,
            _doors(visit, place),
        )
        return Show("record/list.html", context)

    return view


def _doors(visit: Visit, place: str) -> tuple[Deed, ...]:
    """Pages that belong to a place and to no record of it."""
    questions = Deed("Ask a question by hand", "/questions")
    if place == Workplace.place:
        return (
            *_of_this_device(visit),
            Deed("What to buy", "/kit"),
            questions,
        )
    if place == Material.place:
        return (Deed("Stock and lots", "/stock"),)
    if place == Bait.place:
        return (
            Deed("Pick from the shapes", "/shapes"),
            Deed("Take a shape from a file", "/baits/import"),
            Deed("What is wrong with a bait?", "/defects"),
            questions,
        )
    return ()


def _of_this_device(visit: Visit) -> tuple[Deed, ...]:
    """On the laptop all phones and the exchange, on a phone what it may do for itself."""
    if visit.request.state.device == LAPTOP:
        return Deed("Phones", "/phones"), Deed("Export and import", "/exchange")
    return (Deed("Trust this bench's certificate", "/phones/trust"),)


def _section(bench: Bench, sort: type[Noun], settings: Settings, saved: str) -> Section:
    names = Names(bench)
    stored = bench.records.all(sort.key)
    only_one = sort.key == "workplace" and stored
    baits = baits_with_shape(bench) if sort.key == Look.key else ()
    return Section(
        sort.key,
        sort.label,
        sort.plural,
        (inspect.getdoc(sort) or "").partition("\n")[0],
        tuple(_row(s, settings, names, saved, baits) for s in stored),
        "" if only_one else f"/records/{sort.key}/new",
    )


def _row(
    stored: Stored, settings: Settings, names: Names, saved: str, baits: tuple[Choice, ...]
) -> Row:
    return Row(
        stored.id,
        stored.noun.name,
        f"/records/{stored.sort}/{stored.id}",
        summary(stored.noun, settings, names.name_of),
        _pictured(stored, portrait(names.bench, stored.noun, settings), names.bench, baits),
        stored.id == saved,
        deeds_of(stored),
    )


def _pictured(stored: Stored, seen: Portrait, bench: Bench, baits: tuple[Choice, ...]) -> Portrait:
    """With the picture of a look; without one where no bait can have it or a material is gone."""
    if not isinstance(stored.noun, Look) or not seen.layers:
        return seen
    return replace(seen, thumb=listed_thumb(bench, stored.id, stored.noun, baits))


LOOKS = Page(
    "/looks",
    listing("looks", "Looks", "Layers of a bait, each with its recipe for 100 g of plastic."),
    label="Looks",
    icon="drop",
)
BAITS = Page(
    "/baits",
    listing("baits", "Baits & molds", "What comes out, and what it comes out of."),
    label="Baits & molds",
    short="Baits",
    icon="bait",
    covers=("/molds", "/shapes", "/defects"),
)
SHELF = Page(
    "/shelf",
    listing("shelf", "Shelf", "Plastics and what goes into, onto and around them."),
    label="Shelf",
    icon="bottle",
    covers=("/stock",),
)
WORKPLACE = Page(
    "/workplace",
    listing("workplace", "Workplace", "The tools of your bench, and how you read its numbers."),
    label="Workplace",
    icon="bench",
    covers=("/kit",),
)
