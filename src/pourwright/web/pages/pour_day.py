"""Pour day: choose what to pour, see cups and timetable, better it, freeze it, take it along."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from starlette.responses import JSONResponse, Response

from pourwright.actions.port import Bench
from pourwright.actions.pour_day_begin import PICKED, beginning, keep_laid_out, needs_to_add
from pourwright.actions.pour_day_calendar import pour_day_calendar
from pourwright.actions.pour_day_follow import follow_pour_day
from pourwright.actions.pour_day_freeze import freeze_pour_day
from pourwright.actions.pour_day_lay import (
    KeptDay,
    better_timetable,
    kept_day,
    next_day,
    take_better,
)
from pourwright.actions.pour_day_need import Need, pour_needs
from pourwright.actions.pour_day_room import hours
from pourwright.actions.pour_day_split import day_shares, split_pour_day
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.shop.pour_day import PourDay
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.form_edit import edited
from pourwright.web.local_time import dated
from pourwright.web.names import Names
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.pour_day_hint import mold_names
from pourwright.web.pour_day_view import DayView, RunningDay, day_view, running_view
from pourwright.web.today_here import day_here
from pourwright.web.widget import FormView, Group, Rows, Widget, form_view

MAIN = ("day", "begins", "batches")
KEPT_BACK = ("timetable", "starts_at", "name")
FROM_ORDERS = "orders"


@dataclass(frozen=True, slots=True)
class Listed:
    """An earlier pour day."""

    address: str
    words: str


@dataclass(frozen=True, slots=True)
class SplitDayRow:
    """What would be poured on one of the days."""

    day: str
    titles: tuple[str, ...]
    hours: str


@dataclass(frozen=True, slots=True)
class SplitView:
    """The days a day would be split over, with the reasons; `refused` says why it cannot be."""

    days: tuple[SplitDayRow, ...]
    torn: tuple[str, ...]
    reasons: tuple[str, ...]
    refused: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PourDayContext:
    """The choice, and the day it makes; `refused` says why it makes none."""

    title: str
    id: str
    version: int
    needs: tuple[Need, ...]
    form: FormView
    main: tuple[Widget, ...]
    tools: tuple[Widget, ...]
    times: tuple[Widget, ...]
    days: tuple[Listed, ...]
    view: DayView | None
    running: RunningDay | None
    split: SplitView | None
    frozen: bool
    refused: str = ""


def pour_day(visit: Visit) -> Show | Go:
    """The next pour day that was laid out, unless a new one is asked for; else a new one."""
    if visit.posted or "new" in visit.request.query_params:
        return _page_of(visit, None)
    with visit.world.reading() as bench:
        ahead = next_day(bench, day_here(visit.world.clock.now()))
    return _page_of(visit, ahead)


def one_pour_day(visit: Visit) -> Show | Go:
    """A pour day that was laid out."""
    with visit.world.reading() as bench:
        kept = kept_day(bench, visit.part("id"))
    return _page_of(visit, kept)


def _page_of(visit: Visit, kept: KeptDay | None) -> Show | Go:
    if visit.posted:
        return _posted(visit, kept)
    with visit.world.reading() as bench:
        needs = pour_needs(bench)
        typed = _typed(visit, kept.day) if kept else _fresh(visit, bench, needs)
        return _shown(visit, bench, kept, typed, needs)


def _typed(visit: Visit, day: PourDay) -> dict[str, str]:
    """What was chosen for a day; its timetable is made, never typed."""
    chosen = dataclasses.replace(day, timetable=None, starts_at="")
    return texts_of(PourDay, chosen, visit.settings.system)


def _posted(visit: Visit, kept: KeptDay | None) -> Show | Go:
    sent = dict(visit.sent)
    command = sent.pop("@do", "lay")
    sent.pop("@version", None)
    if command != "lay":
        with visit.world.reading() as bench:
            needs = pour_needs(bench)
            if command == FROM_ORDERS:
                typed = _with_needs(sent, needs)
            else:
                typed = edited(PourDay, sent, command, visit.settings.system)
            return _shown(visit, bench, kept, typed, needs)
    found = parsed(PourDay, sent, visit.settings)
    if found.problems:
        with visit.world.reading() as bench:
            return _shown(
                visit, bench, kept, sent, pour_needs(bench), problems=found.problems, status=422
            )
    version = visit.whole("@version") or (kept.version if kept else 0)
    try:
        laid_out = keep_laid_out(visit.world, found.record, kept, expected_version=version)
        return Go(f"/pour-day/{laid_out.id}")
    except PourwrightError as error:
        problems = {error.field: error.why} if isinstance(error, BadInput) else {}
        with visit.world.reading() as bench:
            return _shown(
                visit, bench, kept, sent, pour_needs(bench), problems=problems,
                status=error.http_status, refused="" if problems else str(error),
            )  # fmt: skip


def better(visit: Visit) -> Response:
    """Look for a better timetable in the background."""
    state = better_timetable(visit.world, visit.part("id"))
    return JSONResponse({"job": state.key, "status": state.status}, status_code=202)


def take(visit: Visit) -> Go:
    """Keep the better timetable."""
    take_better(visit.world, visit.part("id"))
    return Go(f"/pour-day/{visit.part('id')}")


def freeze(visit: Visit) -> Go:
    """Freeze the sheets, in order."""
    with visit.world.reading() as bench:
        day = kept_day(bench, visit.part("id")).day
    local = dt.datetime.fromisoformat(f"{day.day}T{day.begins}:00").astimezone()
    starts_at = local.astimezone(dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    freeze_pour_day(visit.world, visit.part("id"), starts_at=starts_at)
    return Go(f"/pour-day/{visit.part('id')}")


def split(visit: Visit) -> Go:
    """Make a pour day of each day's batches."""
    first, *_ = split_pour_day(visit.world, visit.part("id"))
    return Go(f"/pour-day/{first}")


def calendar_file(visit: Visit) -> Response:
    """The day as a calendar file."""
    with visit.world.reading() as bench:
        kept = kept_day(bench, visit.part("id"))
    made = visit.world.printer.calendar(
        f"Pour day {kept.day.day}", pour_day_calendar(kept.id, kept.day),
        made_at=visit.world.clock.now(),
    )  # fmt: skip
    headers = {"content-disposition": f'attachment; filename="pour-day-{kept.day.day}.ics"'}
    return Response(made, media_type="text/calendar; charset=utf-8", headers=headers)


def _fresh(visit: Visit, bench: Bench, needs: Sequence[Need]) -> dict[str, str]:
    """A new day: today, the first tool of each sort, and what orders want."""
    begun = beginning(bench)
    typed = texts_of(PourDay, None, visit.settings.system) | begun.picked
    typed |= {"day": day_here(visit.world.clock.now()), "kits": str(begun.kits)}
    return _with_needs(typed, needs)


def _with_needs(typed: Typed, needs: Sequence[Need]) -> dict[str, str]:
    """The form with a batch for each need that can be poured and is not there yet."""
    found = dict(typed)
    rows = int(found.get("batches#", "0") or 0)
    there = {
        (found.get(f"batches[{i}].mold", ""), found.get(f"batches[{i}].look", ""))
        for i in range(rows)
    }
    for need in needs_to_add(needs, there):
        row = f"batches[{rows}]"
        found |= {
            f"{row}.mold": need.mold, f"{row}.look": need.kind.look,
            f"{row}.count": str(need.baits), f"{row}.why": ", ".join(need.orders)[:300],
            f"{row}.due_on": need.due_on, f"{row}.needed_at": "",
            f"{row}.heat_min": "", f"{row}.cool_min": "",
        }  # fmt: skip
        rows += 1
    return found | {"batches#": str(rows)}


def _shown(
    visit: Visit, bench: Bench, kept: KeptDay | None, typed: Typed, needs: Sequence[Need], *,
    problems: Mapping[str, str] | None = None, status: int = 200, refused: str = "",
) -> Show:  # fmt: skip
    names = Names(bench)
    form = form_view(
        PourDay, typed, problems=problems or {}, settings=visit.settings, references=names.choices
    )
    by_path = {w.path: _plain(w) for w in form.widgets}
    running = None
    if kept and kept.day.frozen:
        running = follow_pour_day(bench, kept.id, now=visit.world.clock.now())
    table = running.table if running else kept.day.timetable if kept else None
    molds = mold_names(bench)
    context = PourDayContext(
        title=f"Pour day {dated(kept.day.day)}" if kept else "Pour day",
        id=kept.id if kept else "",
        version=kept.version if kept else 0,
        needs=tuple(needs),
        form=form,
        main=tuple(by_path[p] for p in MAIN),
        tools=tuple(by_path[p] for p in PICKED),
        times=tuple(w for p, w in by_path.items() if p not in {*MAIN, *PICKED, *KEPT_BACK}),
        days=_days(bench, kept),
        view=day_view(kept.day, table, molds, now_s=running.now_s if running else None)
        if kept and table
        else None,
        running=running_view(running, molds) if running else None,
        split=_split(bench, kept) if kept else None,
        frozen=kept.day.frozen if kept else False,
        refused=refused,
    )
    return Show("pour_day/pour_day.html", context, status)


def _split(bench: Bench, kept: KeptDay) -> SplitView | None:
    """How to split a day that is too long; none for one that fits, or may not be changed."""
    if kept.retired or kept.day.frozen or kept.day.timetable is None:
        return None
    try:
        shares = day_shares(bench, kept.day)
    except PourwrightError as error:
        return SplitView((), (), (), str(error))
    if not shares:
        return None
    rows = tuple(SplitDayRow(it.day, it.titles, hours(it.used_s)) for it in shares)
    torn = tuple(dict.fromkeys(words for it in shares for words in it.torn))
    return SplitView(rows, torn, tuple(words for it in shares for words in it.reasons))


def _plain(widget: Widget) -> Widget:
    """A batch without the number of its sheet, which nobody types."""
    if not isinstance(widget, Rows):
        return widget
    rows = [
        dataclasses.replace(
            row, children=tuple(c for c in row.children if not c.path.endswith(".sheet"))
        )
        if isinstance(row, Group)
        else row
        for row in widget.rows
    ]
    return dataclasses.replace(widget, rows=tuple(rows))


def _days(bench: Bench, kept: KeptDay | None) -> tuple[Listed, ...]:
    found = [s for s in bench.records.all(PourDay.key) if kept is None or s.id != kept.id]
    days = [(s, s.noun) for s in found if isinstance(s.noun, PourDay)]
    days.sort(key=lambda it: (it[1].day, it[0].changed_at), reverse=True)
    return tuple(
        Listed(f"/pour-day/{s.id}", f"{day.day}{': ' if day.name else ''}{day.name}")
        for s, day in days[:12]
    )


POUR_DAY_PAGES = (
    Page("/pour-day", pour_day, ("GET", "POST"), label="Pour day", icon="timetable"),
    Page("/pour-day/{id}", one_pour_day, ("GET", "POST")),
    Page("/pour-day/{id}/better", better, ("POST",)),
    Page("/pour-day/{id}/take", take, ("POST",)),
    Page("/pour-day/{id}/freeze", freeze, ("POST",)),
    Page("/pour-day/{id}/split", split, ("POST",)),
    Page("/pour-day/{id}/day.ics", calendar_file),
)
