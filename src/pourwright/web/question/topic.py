"""Which questions a person may ask by hand, under which heading, and with which caution."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.actions.catalog import CATALOG, named
from pourwright.base.calc import Calculation
from pourwright.base.errors import NotFound
from pourwright.heat.thermometer_words import CAUTIONS as THERMOMETER_CAUTIONS
from pourwright.plan.caution import PRESSURE
from pourwright.web.question.shape import needs_file
from pourwright.web.show import opened

HEADINGS: Mapping[str, tuple[str, ...]] = {
    "Filling the mold": ("shot", "fill", "pour"),
    "Baits and molds": ("body", "mold"),
    "Softness and weight": ("blend",),
    "In the water": ("swim", "water", "fish"),
    "Heat and cooling": ("oven", "thermometer", "cook", "cool"),
    "Color and flake": ("recipe", "color", "flake", "pearl", "look"),
    "Planning": ("plan",),
    "Money, orders and codes": ("shop", "order"),
    "Keeping an eye on it": ("chart",),
}
OTHER = "More"
# Questions that a page of their own asks better than a form can.
OWN_PAGE: Mapping[str, str] = {
    "plan.batch": "/plan",
    "cook.section": "/inside-the-cup",
    "cook.scorch": "/heat-budget",
    "color.match": "/looks",
    "color.correct": "/looks",
    "color.reach": "/reach",
    "color.calibrate": "/pucks",
    "color.photo": "/pucks",
    "pearl.calibrate": "/pucks",
}
# Too slow to answer before anybody asked.
ON_DEMAND = frozenset({"mold.make"})


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt while the answer is put to use."""

    title: str
    words: str


@dataclass(frozen=True, slots=True)
class Entry:
    """A question in the list; `own` where a page of its own asks it."""

    name: str
    purpose: str
    address: str
    own: bool


@dataclass(frozen=True, slots=True)
class Topic:
    """Questions under one heading."""

    heading: str
    entries: tuple[Entry, ...]


_BURNED = (
    "Burned: cool running water for about 20 minutes, do not peel plastic off, see a doctor. "
    "Local codes and the data sheet come first."
)
_HOT = Caution(
    "Gloves, long sleeves, face shield",
    "Molds, cups and powders bone dry: water flashes to steam in hot plastic. " + _BURNED,
)
PRESSED = Caution("Hot plastic under pressure", PRESSURE)
_HEATED = Caution(
    "Never leave a heating cup",
    "Smoke or flame: door stays shut, switch off, unplug if safely reached, get out, call the "
    "fire service. Never water on it; never carry a smoking cup. Gloves, face shield, extraction "
    "on; no metal in the running oven. Local codes and the data sheet come first.",
)
_BLENDED = Caution(
    "Dust, fumes, wet baits",
    "Powders bone dry and weighed under extraction; plasticizer off the skin. A bait weighed in "
    "water goes back to the pot only once it is dry: water flashes to steam in hot plastic. The "
    "data sheets come first.",
)
_LEADED = Caution(
    "Lead is a poison",
    "Wash your hands after handling lead weights, never near food, out of reach of children. Some "
    "waters forbid lead: the local rules come first. Melting lead is no part of this.",
)
_VACUUM = Caution(
    "Vacuum",
    "A chamber under vacuum can burst inward: one made and rated for it, with a guard, never a "
    "jar. Foam rises to several times its height. Hot plastic gives off fumes that the pump blows "
    "into the room: extraction on. Local codes and the maker's manual come first.",
)
_TAXED = Caution("No tax advice", "Figures to take to somebody licensed; the tax office decides.")
_CAUTIONS: Mapping[str, Caution] = {
    "fill.bubbles": _VACUUM,
    "body.weigh": _BLENDED,
    "thermometer": Caution("Steam, hot plastic, metal", " ".join(THERMOMETER_CAUTIONS)),
    "shop.price": _TAXED,
    "shop.price_breaks": _TAXED,
    "shop.payback": _TAXED,
    "shop.excise": _TAXED,
    "fill": PRESSED,
    "mold": PRESSED,
    "shot": _HOT,
    "pour": _HOT,
    "recipe": _HOT,
    "flake": _HOT,
    "cool": _HOT,
    "blend": _BLENDED,
    "swim": _LEADED,
    "oven": _HEATED,
    "cook": _HEATED,
}


def topics(calculations: Iterable[Calculation[Any, Any]]) -> tuple[Topic, ...]:
    """The questions by heading; empty headings are left out."""
    found: dict[str, list[Entry]] = {heading: [] for heading in (*HEADINGS, OTHER)}
    for it in calculations:
        if it.name in OWN_PAGE or not needs_file(it.takes):
            found[heading_of(it.name)].append(_entry(it))
    return tuple(Topic(heading, tuple(rows)) for heading, rows in found.items() if rows)


def heading_of(name: str) -> str:
    """The heading a calculation stands under, by the part of its name before the dot."""
    subject = name.partition(".")[0]
    return next((h for h, subjects in HEADINGS.items() if subject in subjects), OTHER)


def caution_of(name: str) -> Caution | None:
    """The usual caution of a question, or of its subject."""
    return _CAUTIONS.get(name) or _CAUTIONS.get(name.partition(".")[0])


def question_named(name: str) -> Calculation[Any, Any]:
    """A calculation a person may ask by hand.

    Raises: NotFound for an unknown name, and for one that needs a file and has no page.
    """
    found = named(name) if name in CATALOG else None
    if found is None or (name not in OWN_PAGE and needs_file(found.takes)):
        raise NotFound(f"no question is called {name!r}; the list of questions has them all")
    return found


def _entry(it: Calculation[Any, Any]) -> Entry:
    own = OWN_PAGE.get(it.name)
    return Entry(it.name, opened(it.purpose), own or f"/questions/{it.name}", own is not None)
