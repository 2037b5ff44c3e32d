"""Today, the batch book and the first start."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.demo import fill_demo
from pourwright.actions.enter_lot import LotView, lot_view
from pourwright.actions.port import Bench
from pourwright.actions.set_up import Answers, set_up
from pourwright.base.errors import PourwrightError
from pourwright.base.revive import revived
from pourwright.plan.batch_plan import BatchPlan, LayerLook
from pourwright.shop.material import Material
from pourwright.shop.nouns import NOUNS
from pourwright.shop.workplace import Workplace
from pourwright.web.form import parsed, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.widget import FormView, form_view

# Less than this is worth a word on the Today page: estimate.
LOW_SHARE = 0.15


@dataclass(frozen=True, slots=True)
class Entry:
    """A batch in the book."""

    lot: LotView
    looks: tuple[LayerLook, ...]


@dataclass(frozen=True, slots=True)
class Low:
    """Something running out."""

    name: str
    left_g: float
    address: str


@dataclass(frozen=True, slots=True)
class TodayContext:
    """What needs a hand."""

    title: str
    waiting: tuple[Entry, ...]
    recent: tuple[Entry, ...]
    low: tuple[Low, ...]


@dataclass(frozen=True, slots=True)
class BookContext:
    """Every sheet and its lot."""

    title: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class WelcomeContext:
    """Two doors, or the five questions."""

    title: str
    form: FormView | None
    refused: str = ""


def today(visit: Visit) -> Show | Go:
    """What waits and what runs low; the first start where nothing stands yet."""
    with visit.world.bench() as bench:
        if not bench.records.all(Workplace.key):
            return Go("/welcome")
        entries = _entries(bench)
        low = _low(bench)
    waiting = tuple(e for e in entries if e.lot.lot.entry is None)
    done = tuple(e for e in entries if e.lot.lot.entry is not None)
    return Show("today/today.html", TodayContext("Today", waiting[:6], done[:4], low))


def book(visit: Visit) -> Show:
    """Every batch, newest first."""
    with visit.world.bench() as bench:
        return Show("today/book.html", BookContext("Batch book", _entries(bench)))


def welcome(visit: Visit) -> Show | Go:
    """Two doors."""
    if visit.posted:
        with visit.world.bench() as bench:
            standing = bench.records.all(Workplace.key, retired=True)
        if not standing:
            fill_demo(visit.world)
        return Go("/plan")
    return Show("today/welcome.html", WelcomeContext("Welcome to your bench", None))


def set_up_page(visit: Visit) -> Show | Go:
    """Five questions and a water test; each may be left empty."""
    if not visit.posted:
        return _questions(visit, texts_of(Answers, None, visit.settings.system))
    sent = dict(visit.sent)
    command = sent.pop("@do", "save")
    typed, appeared = settled(Answers, sent, visit.settings.system)
    typed = edited(Answers, typed, command, visit.settings.system)
    if command != "save" or appeared:
        return _questions(visit, typed)
    found = parsed(Answers, typed, visit.settings)
    if found.problems:
        return _questions(visit, typed, problems=dict(found.problems), status=422)
    try:
        return Go(f"/plan?draft={set_up(visit.world, found.record)}")
    except PourwrightError as error:
        return _questions(visit, typed, refused=str(error), status=error.http_status)


def _questions(
    visit: Visit, typed: dict[str, str], *, problems: dict[str, str] | None = None,
    refused: str = "", status: int = 200,
) -> Show:  # fmt: skip
    form = form_view(
        Answers, typed, problems=problems or {}, settings=visit.settings, references=lambda _: ()
    )
    return Show("today/set_up.html", WelcomeContext("Set up mine", form, refused), status)


def _entries(bench: Bench) -> tuple[Entry, ...]:
    found = []
    for sheet in bench.sheets.all():
        plan = revived(BatchPlan, sheet.plan)
        found.append(Entry(lot_view(bench, sheet.number), plan.looks))
    return tuple(found)


def _low(bench: Bench) -> tuple[Low, ...]:
    found = []
    for sort in NOUNS.values():
        if not issubclass(sort, Material):
            continue
        for stored in bench.records.all(sort.key):
            noun = stored.noun
            if not isinstance(noun, Material) or noun.on_hand_g is None or not noun.package_g:
                continue
            if noun.on_hand_g < LOW_SHARE * noun.package_g:
                address = f"/records/{sort.key}/{stored.id}"
                found.append(Low(noun.name, noun.on_hand_g, address))
    return tuple(found)


TODAY_PAGES = (
    Page("/", today, label="Today", icon="today"),
    Page("/welcome", welcome, ("GET", "POST")),
    Page("/set-up", set_up_page, ("GET", "POST")),
)
BOOK = Page("/book", book, label="Batch book", short="Book", icon="book")
