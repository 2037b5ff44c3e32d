"""The guide to pucks as its template sees it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.actions.calibrate_shelf import last_lesson
from pourwright.actions.port import Bench
from pourwright.actions.puck_input import read_pucks, seen_now
from pourwright.actions.puck_wants import (
    CHECK,
    NEXT,
    Want,
    Wanted,
    cards_missing,
    layers_with,
    recipe_words,
    wanted,
)
from pourwright.color.calibrate.entry import Source
from pourwright.shop.calibration import Calibration
from pourwright.shop.card import Card
from pourwright.shop.lesson import Lesson, Remark
from pourwright.shop.material import Plastic
from pourwright.shop.puck import Puck

LEARN = "Learn from the pucks"
_READ = "/pucks/reading"
# What to say of a puck read over so many cards.
_OVER = ("poured, not read yet", "read over one card, one to go")
# Asking for more at once puts people off.
_MOST_STEPS = 3


@dataclass(frozen=True, slots=True)
class Slot:
    """A wanted puck: its picture, and what to do about it."""

    want: Want
    state: str
    name: str


@dataclass(frozen=True, slots=True)
class Row:
    """One material with its pucks, and how well its color is known."""

    it: Wanted
    slots: tuple[Slot, ...]
    words: str


@dataclass(frozen=True, slots=True)
class Step:
    """Something that would help now, and its button.

    It leads to an address, writes down the puck `key` of a material, or else learns.
    """

    words: str
    label: str
    address: str = ""
    material: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class Named:
    """A stored puck or card, and what there is to say of it."""

    name: str
    address: str
    words: str


@dataclass(frozen=True, slots=True)
class Taught:
    """The last lesson."""

    lesson: Lesson
    stale: bool
    doubted: tuple[Named, ...]
    left_out: tuple[Named, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GuideContext:
    """The page."""

    title: str
    steps: tuple[Step, ...]
    rows: tuple[Row, ...]
    taught: Taught | None
    cards: tuple[Named, ...]
    pucks: tuple[Named, ...]
    can_learn: bool
    refused: str
    done: tuple[str, ...]


def guide_view(bench: Bench, *, refused: str = "", done: tuple[str, ...] = ()) -> GuideContext:
    """The guide as the bench stands."""
    rows = tuple(_row(it, _known(bench)) for it in wanted(bench))
    taught, pucks = _taught(bench), _pucks(bench)
    return GuideContext(
        title="Pucks",
        steps=tuple(_steps(bench, rows, taught))[:_MOST_STEPS],
        rows=rows,
        taught=taught,
        cards=_cards(bench),
        pucks=tuple(Named(p.name, f"/records/puck/{key}", _said(p)) for key, p in pucks.items()),
        can_learn=bool(read_pucks(bench)),
        refused=refused,
        done=done,
    )


def _row(it: Wanted, known: dict[str, Calibration]) -> Row:
    slots = tuple(Slot(w, _state(w), f"{it.name}, {w.words}") for w in it.wants)
    belief = known.get(it.material)
    words = "uncalibrated: only the color you entered is known"
    if belief:
        words = f"learned {belief.words}" if it.sort == Plastic.key else belief.words
        if it.sort != Plastic.key:
            words += f": its usual puck may be off by {belief.open_lab:.1f} Lab units"
    elif it.sort == Plastic.key:
        words = "uncalibrated: taken as plastic usually is"
    return Row(it, slots, "" if it.sort == CHECK else words)


def _state(want: Want) -> str:
    if want.missing:
        return "not poured yet"
    return (*_OVER, "read")[min(want.cards, len(_OVER))]


def _steps(bench: Bench, rows: tuple[Row, ...], taught: Taught | None) -> Iterator[Step]:
    yield from _card_steps(bench)
    for key, puck in _pucks(bench).items():
        over = len({r.card for r in puck.readings})
        if puck.source is Source.PUCK and over < len(_OVER):
            words = f"{puck.name}: {_OVER[over]}."
            yield Step(words, "Enter a reading", f"{_READ}?puck={key}")
    if taught and taught.stale:
        yield Step("Pucks or cards changed since the last lesson.", LEARN)
    if taught is None and read_pucks(bench):
        yield Step("There are readings that nothing was learned from yet.", LEARN)
    if taught and not taught.stale and _to_pour(bench, taught.lesson):
        recipe = recipe_words(bench, taught.lesson.next_puck)
        yield Step(
            f"One more puck here would help most: {recipe}, in 100 g. Its color is open by "
            f"{taught.lesson.next_open_lab:.1f} Lab units.",
            "I pour this one", "", *NEXT,
        )  # fmt: skip
    used = layers_with(bench)
    for row in sorted(rows, key=lambda r: (r.it.sort != Plastic.key, -used.get(r.it.material, 0))):
        if row.slots and all(s.want.missing for s in row.slots):
            first = row.slots[0]
            words = f"Pour {first.name}, in 100 g."
            yield Step(words, "I pour this one", "", row.it.material, first.want.key)


def _to_pour(bench: Bench, lesson: Lesson) -> bool:
    """Whether the lesson asks for a puck that nobody has written down since."""
    return bool(lesson.next_puck) and all(
        p.doses != lesson.next_puck for p in _pucks(bench).values()
    )


def _card_steps(bench: Bench) -> Iterator[Step]:
    for shade in cards_missing(bench):
        name = f"{shade.capitalize()}+card"
        yield Step(f"Read a bare {shade} card.", f"Enter a {shade} card", f"{_READ}?name={name}")


def _known(bench: Bench) -> dict[str, Calibration]:
    nouns = (s.noun for s in bench.records.all(Calibration.key))
    return {n.material: n for n in nouns if isinstance(n, Calibration)}


def _pucks(bench: Bench) -> dict[str, Puck]:
    return {s.id: s.noun for s in bench.records.all(Puck.key) if isinstance(s.noun, Puck)}


def _cards(bench: Bench) -> tuple[Named, ...]:
    cards = bench.records.all(Card.key)
    return tuple(Named(s.noun.name, f"/records/card/{s.id}", "bare card") for s in cards)


def _said(puck: Puck) -> str:
    if not puck.readings:
        return "not read yet"
    lies = "poured on the card" if puck.placing.touching else "lying on the card"
    use = "teaches" if puck.use.value == "fit" else "only tests"
    return f"{puck.source.value} {lies}, read by {puck.instrument.value}, {use}"


def _taught(bench: Bench) -> Taught | None:
    lesson = last_lesson(bench)
    if lesson is None:
        return None
    pucks = {s.id: s.noun.name for s in bench.records.all(Puck.key, retired=True)}

    def named(remarks: tuple[Remark, ...]) -> tuple[Named, ...]:
        return tuple(
            Named(pucks.get(r.puck, "a puck"), f"/records/puck/{r.puck}", r.why) for r in remarks
        )

    return Taught(
        lesson,
        set(lesson.seen) != set(seen_now(bench)),
        named(lesson.doubted),
        named(lesson.left_out),
        tuple(filter(None, lesson.notes.split("\n"))),
    )
