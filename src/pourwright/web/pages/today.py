"""Today, the batch book and the first start."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.demo import fill_demo
from pourwright.actions.enter_lot import LotView, lot_of
from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import PourStanding, pour_standing
from pourwright.actions.see_today import Low, Today, see_today
from pourwright.actions.set_up import Answers, set_up
from pourwright.base.errors import PourwrightError
from pourwright.base.revive import revived
from pourwright.plan.batch_plan import LayerLook
from pourwright.shop.sheet import Sheet
from pourwright.shop.workplace import Workplace
from pourwright.web.bench_way import BenchWay, bench_way
from pourwright.web.form import parsed, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.page import Go, Page, Show, Visit, number_in_address
from pourwright.web.pages.rack import RACK_PAGES, TakenOff, just_taken_off
from pourwright.web.thumb import LotThumbs, Thumb, lot_thumbs
from pourwright.web.today_here import day_here
from pourwright.web.today_orders import Ordered, ordered_view
from pourwright.web.today_view import (
    HangingView,
    RunningView,
    Waiting,
    away_view,
    hanging_view,
    mark_of,
    running_view,
    waiting_view,
)
from pourwright.web.widget import FormView, form_view


@dataclass(frozen=True, slots=True)
class Entry:
    """A batch in the book, and its way to the bench."""

    lot: LotView
    looks: tuple[LayerLook, ...]
    way: BenchWay
    thumb: Thumb | None


@dataclass(frozen=True, slots=True)
class Counted:
    """A lot that was poured last."""

    lot: LotView
    looks: tuple[LayerLook, ...]


@dataclass(frozen=True, slots=True)
class TodayContext:
    """What needs a hand; `mark` changes with it, `now` is the laptop's time.

    `thumbs` are the pictures of its lots, by the number of the sheet.
    """

    title: str
    mark: str
    now: str
    running: tuple[RunningView, ...]
    lost: tuple[Waiting, ...]
    hanging: tuple[HangingView, ...]
    frozen: tuple[Waiting, ...]
    away: tuple[Waiting, ...]
    uncounted: tuple[Sheet, ...]
    recent: tuple[Counted, ...]
    low: tuple[Low, ...]
    ordered: Ordered
    taken_off: TakenOff | None
    thumbs: Mapping[int, Thumb]

    @property
    def fresh(self) -> bool:
        """Whether nothing was ever frozen."""
        lists = (self.running, self.lost, self.hanging, self.frozen, self.away, self.uncounted)
        return not any(lists) and not self.recent


# Batches on one page of the book.
BATCHES = 40


@dataclass(frozen=True, slots=True)
class BookContext:
    """Sheets and their lots; older ones begin before the sheet `older`, newer ones are on top."""

    title: str
    entries: tuple[Entry, ...]
    older: int | None
    newest: bool


@dataclass(frozen=True, slots=True)
class WelcomeContext:
    """Two doors, or the five questions."""

    title: str
    form: FormView | None
    refused: str = ""


def today(visit: Visit) -> Show | Go:
    """What runs, hangs and waits; the first start where nothing stands yet."""
    now, fresh = visit.world.clock.now(), visit.world.ids.fresh
    off = visit.request.query_params.get("off", "")
    with visit.world.reading() as bench:
        if not bench.records.all(Workplace.key):
            return Go("/welcome")
        seen = see_today(bench, now, day_here(now))
        number = number_in_address(off, "off", "a sheet") if off else 0
        taken_off = just_taken_off(bench, number, undo_id=fresh()) if number else None
        thumbs = _thumbs(bench, seen)
    context = TodayContext(
        title="Today",
        mark=mark_of(seen),
        now=now,
        running=tuple(running_view(r, now) for r in seen.running),
        lost=tuple(waiting_view(u, now) for u in seen.lost),
        hanging=tuple(hanging_view(h, now, event_id=fresh()) for h in seen.hanging),
        frozen=tuple(waiting_view(f, now) for f in seen.frozen),
        away=tuple(away_view(a, now) for a in seen.away),
        uncounted=seen.uncounted,
        recent=tuple(Counted(lot, _looks(lot.sheet)) for lot in seen.recent),
        low=seen.low,
        ordered=ordered_view(seen.orders),
        taken_off=taken_off,
        thumbs=thumbs,
    )
    return Show("today/today.html", context)


def book(visit: Visit) -> Show:
    """The batches, newest first, so many a page."""
    before = visit.request.query_params.get("before", "")
    with visit.world.reading() as bench:
        sheets = bench.sheets.all()
        if before:
            number = number_in_address(before, "before", "a sheet")
            sheets = tuple(s for s in sheets if s.number < number)
        shown, thumbs = sheets[:BATCHES], LotThumbs(bench)
        entries = tuple(_entry(bench, pour_standing(bench, s), thumbs.of(s)) for s in shown)
    older = shown[-1].number if len(sheets) > BATCHES else None
    return Show("today/book.html", BookContext("Batch book", entries, older, not before))


def _entry(bench: Bench, it: PourStanding, thumb: Thumb | None) -> Entry:
    return Entry(lot_of(it.sheet, it.happenings), _looks(it.sheet), bench_way(bench, it), thumb)


def welcome(visit: Visit) -> Show | Go:
    """Two doors."""
    if visit.posted:
        with visit.world.reading() as bench:
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


def _looks(sheet: Sheet) -> tuple[LayerLook, ...]:
    """The swatches alone: reading back a whole plan takes long."""
    return tuple(revived(LayerLook, look) for look in sheet.plan["looks"])


def _thumbs(bench: Bench, seen: Today) -> dict[int, Thumb]:
    sheets = (
        *(it.told.sheet for it in seen.running),
        *(it.sheet for it in (*seen.lost, *seen.frozen)),
        *(it.sheet for it in seen.hanging),
        *(it.sheet for it in seen.away),
        *seen.uncounted,
        *(it.sheet for it in seen.recent),
    )
    return lot_thumbs(bench, sheets)


TODAY_PAGES = (
    Page("/", today, label="Today", icon="today"),
    Page("/welcome", welcome, ("GET", "POST")),
    Page("/set-up", set_up_page, ("GET", "POST")),
    *RACK_PAGES,
)
BOOK = Page(
    "/book", book, label="Batch book", short="Book", icon="book", covers=("/lots", "/sheets")
)
