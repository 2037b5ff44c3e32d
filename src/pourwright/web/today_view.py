"""Today in words: the pours that run with their clocks, the rack, what waits."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.hanging import Hanging
from pourwright.actions.see_today import (
    Away,
    ClockOf,
    Running,
    RunningClock,
    Today,
    Unguided,
)
from pourwright.actions.told_pour import ToldPour
from pourwright.bench.clock import seconds_between
from pourwright.bench.tap_body import Trouble
from pourwright.web.bench.moment import about_cup
from pourwright.web.bench.step_words import step_words
from pourwright.web.bench.trouble import troubles
from pourwright.web.bench_way import bench_address
from pourwright.web.local_time import time_of_day


@dataclass(frozen=True, slots=True)
class ClockView:
    """A clock of a pour: its end as an absolute time and on the wall, and what is due then."""

    name: str
    until: str
    at: str
    due: str
    over: bool


@dataclass(frozen=True, slots=True)
class RunningView:
    """A pour that runs; `trouble` says what went wrong, empty where nothing did."""

    number: int
    title: str
    code: str
    step: str
    since: str
    address: str
    clocks: tuple[ClockView, ...]
    trouble: str
    needs_hand: bool


@dataclass(frozen=True, slots=True)
class HangingView:
    """A lot on the rack."""

    number: int
    title: str
    good: int | None
    place: str
    hung: str
    due: str
    overdue: bool
    event_id: str


@dataclass(frozen=True, slots=True)
class Waiting:
    """A sheet that waits, and since when; `why` it cannot be guided, empty where it can."""

    number: int
    title: str
    code: str
    since: str
    why: str
    address: str


def running_view(it: Running, now: str) -> RunningView:
    """A pour that runs."""
    sheet = it.told.sheet
    return RunningView(
        sheet.number,
        sheet.title,
        sheet.code,
        step_words(it.told, it.hand),
        time_of_day(it.since, now),
        bench_address(sheet.number),
        tuple(_clock(it.told, clock, now) for clock in it.clocks),
        _trouble(it.trouble),
        it.needs_hand(now),
    )


def hanging_view(it: Hanging, now: str, *, event_id: str) -> HangingView:
    """A lot on the rack, with the id that its "Taken off" will carry."""
    hung, due = time_of_day(it.hung_at, now), time_of_day(it.due_at, now)
    sheet = it.sheet
    return HangingView(
        sheet.number, sheet.title, it.good, it.place, hung, due, it.overdue, event_id
    )


def waiting_view(it: Unguided, now: str) -> Waiting:
    """A frozen sheet."""
    sheet = it.sheet
    since = time_of_day(sheet.frozen_at, now)
    address = "" if it.why else bench_address(sheet.number)
    return Waiting(sheet.number, sheet.title, sheet.code, since, it.why, address)


def away_view(it: Away, now: str) -> Waiting:
    """A pour that was put away."""
    sheet = it.sheet
    since = time_of_day(it.since, now)
    return Waiting(sheet.number, sheet.title, sheet.code, since, "", bench_address(sheet.number))


def mark_of(today: Today) -> str:
    """Changes whenever a page of that moment would say something else."""
    running = [f"{r.told.sheet.number}:{r.told.newest}" for r in today.running]
    hanging = [f"{h.sheet.number}:{h.place}:{h.due_at}:{h.overdue}" for h in today.hanging]
    away = [f"{a.sheet.number}:{a.since}" for a in today.away]
    sheets = [s.sheet.number for s in (*today.lost, *today.frozen)]
    counted = [f"{r.sheet.number}:{r.lot.entered_at}" for r in today.recent]
    return repr((running, hanging, away, sheets, [s.number for s in today.uncounted], counted))


def _clock(told: ToldPour, it: RunningClock, now: str) -> ClockView:
    if it.what is ClockOf.OVEN:
        name, due = f"Oven: {_lower(about_cup(told, it.number))}", "Stir and read it"
    else:
        name, due = f"Mold {it.number}: {told.setup.molds[it.number - 1]}", "Open it"
    over = seconds_between(it.until, now) >= 0
    return ClockView(name, it.until, time_of_day(it.until, now), due, over)


def _trouble(what: str) -> str:
    labels = {t.what: t.label for t in troubles()}
    return labels[Trouble(what).value] if what else ""


def _lower(words: str) -> str:
    return f"{words[0].lower()}{words[1:]}"
