"""Follow a frozen pour day: what is next by its timetable, and what moves when reality slips."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.pour_day_late import done_by_cup
from pourwright.actions.pour_day_lay import day_input, kept_day, timetable_of
from pourwright.actions.pour_day_taps import ToldCup, ToldWave, told_cups
from pourwright.base.errors import BadInput
from pourwright.bench.clock import seconds_between
from pourwright.plan.day.day import best_day
from pourwright.plan.day.day_input import (
    BegunCup,
    BegunWave,
    DayCup,
    DayInput,
    Poured,
)
from pourwright.shop.pour_day import PlannedStep, PourDay, Timetable

# A cup that moves by less than this is not worth a word: estimate.
LEAST_MOVED_S = 120
# So long after a mold was filled the next of the same pour may still come: estimate.
STILL_POURING_S = 120
# A day that began longer ago is over.
LONGEST_S = 18 * 3600
BEFOREHAND_S = 12 * 3600
NEEDS_SOMEBODY = frozenset({"heat", "rewarm", "pour", "clean"})


@dataclass(frozen=True, slots=True)
class Moved:
    """A cup that is done at another time than planned, in seconds from the start of the day."""

    cup: str
    title: str
    planned_s: int
    now_s: int


@dataclass(frozen=True, slots=True)
class Followed:
    """A frozen day as it stands.

    `table` is the timetable of what is left, `next` the first of its steps that nobody has begun;
    `slipped_s` is how much later the day ends than planned; `lost` says why the taps do not fit a
    timetable, which then stands as planned; `early_s` is how long before the start the first tap
    was, which then counts from the start.
    """

    id: str
    day: PourDay
    table: Timetable
    now_s: float
    next: PlannedStep | None
    slipped_s: int
    moved: tuple[Moved, ...]
    over: bool
    lost: str = ""
    early_s: int = 0


def pour_day_now(bench: Bench, now: str) -> Followed | None:
    """The pour day that runs, or is about to; the latest where there are several."""
    days = [s for s in bench.records.all(PourDay.key) if isinstance(s.noun, PourDay)]
    near = [
        (s.noun.starts_at, s.id)
        for s in days
        if isinstance(s.noun, PourDay) and s.noun.frozen and _near(s.noun, now)
    ]
    for _, day_id in sorted(near, reverse=True):
        found = follow_pour_day(bench, day_id, now=now)
        if not found.over:
            return found
    return None


def follow_pour_day(bench: Bench, id: str, *, now: str) -> Followed:
    """A frozen day at a moment, the rest of it planned anew from what the taps tell.

    Raises: NotFound.
    """
    day = kept_day(bench, id).day
    table = day.timetable or Timetable()
    now_s = seconds_between(day.starts_at, now)
    asked = day_input(bench, day, table.cups)
    told = told_cups(bench, day, {m.name: m.count for m in asked.molds})
    over = all(it.over for it in told.values())
    early_s = round(max((it.early_s for it in told.values()), default=0))
    if over or now_s < 0 or not _near(day, now):
        return Followed(id, day, table, now_s, _next(table), 0, (), over, early_s=early_s)
    try:
        anew = _planned_anew(table, asked, told, round(now_s))
    except BadInput as error:
        return Followed(id, day, table, now_s, _next(table), 0, (), False, error.why, early_s)
    return Followed(
        id, day, anew, now_s, _next(anew), anew.span_s - table.span_s, _moved(table, anew),
        over=False, early_s=early_s,
    )  # fmt: skip


def _near(day: PourDay, now: str) -> bool:
    return -BEFOREHAND_S <= seconds_between(day.starts_at, now) <= LONGEST_S


def _next(table: Timetable) -> PlannedStep | None:
    left = (s for s in table.steps if s.doing in NEEDS_SOMEBODY and not s.begun)
    return min(left, key=lambda s: s.start_s, default=None)


def _planned_anew(
    table: Timetable, asked: DayInput, told: dict[str, ToldCup], now_s: int
) -> Timetable:
    kits = {s.cup: s.kit for s in table.steps if s.doing == "heat"}
    cups, begun = [], []
    for cup in asked.cups:
        it = told[cup.name]
        if it.waves:
            waves = tuple(_wave(asked, cup, it, wave, now_s) for wave in it.waves)
            begun.append(BegunCup(cup=cup.name, kit=kits[cup.name], waves=waves))
            cups.append(_left(cup, it, waves))
        elif not it.over:
            cups.append(cup)
    facts = dataclasses.replace(asked, cups=tuple(cups), begun=tuple(begun), now_s=now_s, effort=0)
    return timetable_of(table.cups, best_day(facts), table.remarks)


def _left(cup: DayCup, it: ToldCup, waves: tuple[BegunWave, ...]) -> DayCup:
    """The cup without the shots whose molds were opened; one that is over fills no more."""
    inside = sum(p.shots for w in waves for p in w.poured)
    opened = it.filled - it.inside
    shots = inside if it.over else max(inside, cup.fills[0].shots - opened)
    fills = (dataclasses.replace(cup.fills[0], shots=shots),) if shots else ()
    return dataclasses.replace(cup, fills=fills)


def _wave(asked: DayInput, cup: DayCup, it: ToldCup, wave: ToldWave, now_s: int) -> BegunWave:
    """A wave as told; what has no end yet ends when it is expected to."""
    start = round(wave.heat_start_s)
    if wave.first_s is None or wave.last_s is None:
        lasts = cup.heat_s if wave is it.waves[0] else asked.rewarm_s
        hot = max(now_s, start + lasts) if wave.hot_s is None else max(start, round(wave.hot_s))
        return BegunWave(heat_start_s=start, heat_end_s=hot)
    fill = cup.fills[0]
    pour_start = max(start, round(wave.first_s) - fill.pour_s)
    hot = pour_start if wave.hot_s is None else min(max(start, round(wave.hot_s)), pour_start)
    more = _still_to_come(asked, cup, it, wave, now_s)
    end = round(wave.last_s) if not more else max(round(wave.last_s), now_s) + more * fill.pour_s
    inside = wave.inside + more
    return BegunWave(
        heat_start_s=start, heat_end_s=hot, pour_start_s=pour_start, pour_end_s=end,
        poured=(Poured(mold=fill.mold, shots=inside),) if inside else (),
    )  # fmt: skip


def _still_to_come(asked: DayInput, cup: DayCup, it: ToldCup, wave: ToldWave, now_s: int) -> int:
    """Molds that the pour under way will still fill; none once it was left for a while."""
    paused = wave.last_s is None or now_s - wave.last_s > STILL_POURING_S
    if it.over or paused or wave is not it.waves[-1]:
        return 0
    fill = cup.fills[0]
    owned = next(m.count for m in asked.molds if m.name == fill.mold)
    return max(0, min(owned - it.inside, owned - wave.filled, fill.shots - it.filled))


def _moved(planned: Timetable, anew: Timetable) -> tuple[Moved, ...]:
    """Cups that are done at another time than was planned, the soonest first."""
    before, after = done_by_cup(planned), done_by_cup(anew)
    found = [
        Moved(cup.name, cup.title, before[cup.name], after[cup.name])
        for cup in planned.cups
        if cup.name in before
        and cup.name in after
        and abs(after[cup.name] - before[cup.name]) >= LEAST_MOVED_S
    ]
    return tuple(sorted(found, key=lambda m: m.now_s))
