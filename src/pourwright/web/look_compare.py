"""Up to four looks side by side: in the hand, and in waters that are picked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations, groupby
from operator import itemgetter

from pourwright.actions.look_to_fish import plastics, thick_of
from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.body.division import Place
from pourwright.forecast.fish_sight import Plastic
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.web.form import Typed
from pourwright.web.look_bait import usual_bait
from pourwright.web.look_fish import FishLine, fish_view, water_words
from pourwright.web.look_form import WishForm, baits_with_shape, wish_form
from pourwright.web.look_picture import picture_address, picture_words, rows_of
from pourwright.web.look_view import refused_picture
from pourwright.web.look_wish import LookWish, Waters, Where, wish_of, wish_texts
from pourwright.web.page import Pair
from pourwright.web.show import Settings, opened

MOST, MOST_WATERS = 4, 3
CELL_PX = 400
USUAL = (Waters.CLEAR, Waters.GREEN, Waters.TEA)
# What shows a look's back and its belly, the first that there is.
_ENDS = {
    "back": (Place.BACK, Place.BODY, Place.VEIN, Place.BELLY, Place.CORE),
    "belly": (Place.BELLY, Place.BODY, Place.VEIN, Place.BACK, Place.CORE),
}
_BOTH = {"back": "Their backs", "belly": "Their bellies"}
_WHOLE = "All of them"


@dataclass(frozen=True, slots=True)
class Tick:
    """Something to tick."""

    value: str
    label: str
    ticked: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """One look in one place, and what a fish makes of each of its layers against the water."""

    name: str
    look: str
    address: str
    words: str
    told: tuple[str, ...] = ()
    refused: str = ""


@dataclass(frozen=True, slots=True)
class PairView:
    """Two looks, told apart by their backs and by their bellies, or as wholes."""

    name: str
    lines: tuple[FishLine, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """All looks in one place, and which of them a fish tells apart there."""

    title: str
    cells: tuple[Cell, ...]
    fish: str = ""
    pairs: tuple[PairView, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CompareContext:
    """The page."""

    title: str
    looks: tuple[Tick, ...]
    waters: tuple[Tick, ...]
    form: WishForm
    problem: str
    rows: tuple[Row, ...]
    wide: int = CELL_PX
    high: int = field(default_factory=lambda: rows_of(CELL_PX))


@dataclass(frozen=True, slots=True)
class _Compared:
    """Everything the rows are made of."""

    bench: Bench
    stored: tuple[Stored, ...]
    pieces: tuple[dict[str, Plastic], ...]
    typed: Typed
    wish: LookWish
    bait: Bait
    settings: Settings


def compare_context(bench: Bench, sent: Sequence[Pair], settings: Settings) -> CompareContext:
    """The page for an address; its first four looks and three waters count."""
    baits = baits_with_shape(bench)
    typed = dict(wish_texts(dict(sent), settings))
    typed["water"] = Waters.CLEAR.value
    asked = tuple(dict.fromkeys(v for k, v in sent if k == "look"))
    waters = _waters([v for k, v in sent if k == "waters"])
    known = bench.records.all(Look.key)
    stored = tuple(s for key in asked[:MOST] for s in known if s.id == key)
    if not typed.get("bait"):
        usual = usual_bait(bench, tuple(map(_look, stored)), baits)
        typed["bait"] = usual.value if usual else ""
    found = wish_of(typed, settings)
    problem = _problem(asked, stored, waters)
    if not {v for k, v in sent if k == "waters"} <= {w.value for w in Waters}:
        problem = problem or "One of the waters is none that is known here, and is left out"
    if stored and not typed["bait"]:
        problem = problem or "No pictures: no bait on this bench has a shape"
    rows: tuple[Row, ...] = ()
    if stored and typed["bait"] and not found.problems:
        try:
            rows = tuple(_rows(bench, stored, waters, typed, found.record, settings))
        except (BadInput, NoAnswer, NotFound) as error:
            problem = f"No pictures: {error}"
    return CompareContext(
        title="Looks side by side",
        looks=tuple(Tick(s.id, s.noun.name, s in stored) for s in known),
        waters=tuple(Tick(w.value, opened(w.value), w in waters[:MOST_WATERS]) for w in Waters),
        form=wish_form(typed, found.problems, baits, settings),
        problem=problem,
        rows=rows,
    )


def _waters(sent: Sequence[str]) -> tuple[Waters, ...]:
    known = {w.value: w for w in Waters}
    picked = tuple(dict.fromkeys(known[w] for w in sent if w in known))
    return picked or USUAL


def _problem(asked: Sequence[str], stored: Sequence[Stored], waters: Sequence[Waters]) -> str:
    if len(asked) > MOST:
        return f"Up to {MOST} looks stand side by side; the first {MOST} are shown"
    if len(waters) > MOST_WATERS:
        return f"Up to {MOST_WATERS} waters fit under one another; the first are shown"
    if len(stored) < len(asked):
        return "One of the looks is no longer on the bench"
    return ""


def _rows(
    bench: Bench,
    stored: tuple[Stored, ...],
    waters: Sequence[Waters],
    typed: Typed,
    wish: LookWish,
    settings: Settings,
) -> Iterable[Row]:
    bait = bench.records.get(Bait.key, wish.bait).noun
    if not isinstance(bait, Bait):
        raise BadInput("bait", wish.bait, "is no bait")
    thick = thick_of(bench, bait)
    pieces = tuple(plastics(bench, _look(s), thick) for s in stored)
    all_of_it = _Compared(bench, stored, pieces, typed, wish, bait, settings)
    yield Row("In the hand", tuple(_cells(all_of_it, Where.HAND, wish.water, {})))
    for water in waters[:MOST_WATERS]:
        yield _in_water(all_of_it, water)


def _in_water(it: _Compared, water: Waters) -> Row:
    wish = replace(it.wish, water=water)
    named = {
        f"{at} {place}": piece for at, its in enumerate(it.pieces) for place, piece in its.items()
    }
    pairs = dict(_pairs(it))
    seen = fish_view(
        it.bench, wish, named, it.settings, pairs={p: w for p, (_, w) in pairs.items()}
    )
    on_water = {line.name: line for line in seen.lines}
    title = opened(water_words(it.bench, water, it.settings))
    notes = (f"{seen.refused}.", *seen.notes) if seen.refused else seen.notes
    cells = tuple(_cells(it, Where.WATER, water, on_water))
    told = zip((name for name, _ in pairs.values()), seen.pairs, strict=False)
    views = tuple(
        PairView(name, tuple(line for _, line in lines))
        for name, lines in groupby(told, key=itemgetter(0))
    )
    return Row(title, cells, seen.title, views, notes)


def _cells(
    it: _Compared, where: Where, water: Waters, on_water: dict[str, FishLine]
) -> Iterable[Cell]:
    typed = {**it.typed, "where": where.value, "water": water.value}
    wish = replace(it.wish, where=where, water=water)
    for at, stored in enumerate(it.stored):
        lines = (
            f"{opened(place)}: by color {line.color.words}; by brightness {line.brightness.words}"
            for place in it.pieces[at]
            if (line := on_water.get(f"{at} {place}"))
        )
        yield Cell(
            stored.noun.name,
            f"/looks/{stored.id}",
            picture_address(stored.id, typed, CELL_PX),
            picture_words(stored.noun.name, it.bait.name, wish, it.settings),
            tuple(lines),
            refused_picture(it.bench, _look(stored), it.bait, wish),
        )


def _pairs(it: _Compared) -> Iterable[tuple[tuple[str, str], tuple[str, str]]]:
    """The backs and the bellies of any two looks, once where both are one: whose, and what."""
    for one, two in combinations(range(len(it.stored)), 2):
        names = f"{it.stored[one].noun.name} and {it.stored[two].noun.name}"
        found: dict[tuple[str, str], list[str]] = {}
        for end, order in _ENDS.items():
            left, right = (f"{at} {_first(it.pieces[at], order)}" for at in (one, two))
            found.setdefault((left, right), []).append(end)
        for pair, ends in found.items():
            yield pair, (names, _BOTH[ends[0]] if len(ends) == 1 else _WHOLE)


def _first(pieces: dict[str, Plastic], order: Sequence[Place]) -> str:
    return next(place.value for place in order if place.value in pieces)


def _look(stored: Stored) -> Look:
    if not isinstance(stored.noun, Look):
        raise NotFound("there is no such look")
    return stored.noun
