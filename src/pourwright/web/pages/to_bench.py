"""The way onto the bench: straight to the pour that runs, else a choice of sheets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.pour_standing import pour_standings
from pourwright.actions.see_today import not_begun, put_away, running_pours
from pourwright.web.bench_way import bench_address
from pourwright.web.guard import LAPTOP
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.pour_day_hint import DayHint, day_hint
from pourwright.web.thumb import Thumb, lot_thumbs
from pourwright.web.today_view import (
    RunningView,
    Waiting,
    away_view,
    running_view,
    waiting_view,
)


@dataclass(frozen=True, slots=True)
class ToBenchContext:
    """What could be poured on; `at_laptop` where phones are paired from here.

    `thumbs` are the pictures of its lots, by the number of the sheet; `day` is the pour day that
    runs.
    """

    title: str
    now: str
    running: tuple[RunningView, ...]
    away: tuple[Waiting, ...]
    frozen: tuple[Waiting, ...]
    at_laptop: bool
    thumbs: Mapping[int, Thumb]
    day: DayHint | None


def to_bench(visit: Visit) -> Show | Go:
    """Go on with the one pour that runs, or choose."""
    now = visit.world.clock.now()
    with visit.world.reading() as bench:
        standings = pour_standings(bench)
        running, lost = running_pours(bench, standings, now)
        away, frozen = put_away(standings), not_begun(bench, standings)
        told = tuple(it.told.sheet for it in running)
        thumbs = lot_thumbs(bench, (*told, *(it.sheet for it in away),
                                    *(it.sheet for it in (*lost, *frozen))))  # fmt: skip
        day = day_hint(bench, now)
    if len(running) == 1 and not lost:
        return Go(bench_address(running[0].told.sheet.number))
    context = ToBenchContext(
        "Bench",
        now,
        tuple(running_view(r, now) for r in running),
        tuple(away_view(a, now) for a in away),
        tuple(waiting_view(f, now) for f in (*lost, *frozen)),
        visit.request.state.device == LAPTOP,
        thumbs,
        day,
    )
    return Show("today/bench.html", context)


TO_BENCH = Page("/bench", to_bench, label="Bench", icon="pour")
