"""A pour day in words: what each color needs, what to do when, what is late."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from pourwright.actions.pour_day_follow import Followed
from pourwright.shop.pour_day import PlannedCup, PlannedStep, PourDay, Timetable
from pourwright.web.pour_day_chart import DayChart, clock_after, day_chart

FIRST = "into microwave {lane} for {min} min with rests and stirs"
AGAIN = "warm again in microwave {lane}, {min} min"
CLEAN = "clean kit {kit} before it, {min} min"
SHOOT = "shoot {count} × {mold} at {at}, open from {opens}"


@dataclass(frozen=True, slots=True)
class ColorRow:
    """All cups of one look."""

    title: str
    colors: tuple[str, ...]
    cups: int
    shots: int
    plastic_g: float
    remelt_g: float
    virgin_g: float
    heat_min: tuple[float, float, float]
    cool_min: tuple[float, float, float]
    sheet: int


@dataclass(frozen=True, slots=True)
class StepRow:
    """One thing to do."""

    at: str
    doing: str
    cup: str
    title: str
    colors: tuple[str, ...]
    words: str
    begun: bool


@dataclass(frozen=True, slots=True)
class DayView:
    """A laid pour day."""

    colors: tuple[ColorRow, ...]
    chart: DayChart
    steps: tuple[StepRow, ...]
    done_at: str
    hours: str
    late: tuple[str, ...]
    clean_ups: int
    cups: int
    shots: int
    plastic_g: float
    remelt_g: float
    gap_words: str
    searched: bool
    urgent: tuple[str, ...]
    remarks: tuple[str, ...]
    hot_at_once: int
    heatings: int
    points: float


@dataclass(frozen=True, slots=True)
class RunningDay:
    """A frozen day in words: what is next, how it runs, what moved."""

    next: str
    next_at: str
    sheet: int
    slip: str
    moved: tuple[str, ...]
    over: bool
    lost: str


def running_view(it: Followed, molds: Mapping[str, str]) -> RunningDay:
    """What the bench is told of a day that runs."""
    start = start_minute(it.day)
    row: StepRow | None = None
    cups = {c.name: c for c in it.table.cups}
    if it.next is not None and it.next.cup in cups:
        wave = [s for s in it.table.steps if (s.cup, s.wave) == (it.next.cup, it.next.wave)]
        row = _row(start, cups[it.next.cup], [s for s in wave if not s.begun], molds)
    moved = (
        f"{m.cup}, {m.title}: out of the molds at {clock_after(start, m.now_s)}, "
        f"planned for {clock_after(start, m.planned_s)}"
        for m in it.moved
    )
    return RunningDay(
        f"{row.cup}: {row.words}" if row else "",
        row.at if row else "",
        it.day.batches[cups[it.next.cup].batch].sheet if row and it.next else 0,
        _slip(it.slipped_s),
        tuple(moved),
        it.over,
        it.lost,
    )


def _slip(seconds: int) -> str:
    minutes = round(abs(seconds) / 60)
    if minutes < 2:
        return "On time."
    return f"{minutes} min {'behind' if seconds > 0 else 'ahead of'} the timetable."


def start_minute(day: PourDay) -> int:
    """The start of the day in minutes from midnight."""
    hours, minutes = day.begins.split(":")
    return 60 * int(hours) + int(minutes)


def day_view(
    day: PourDay, table: Timetable, molds: Mapping[str, str], *, now_s: float | None = None
) -> DayView:
    """What the page of a laid day shows."""
    start, steps = start_minute(day), table.steps
    return DayView(
        colors=_colors(day, table.cups),
        chart=day_chart(table.cups, steps, start_min=start, molds=dict(molds), now_s=now_s),
        steps=step_rows(day, table.cups, steps, molds),
        done_at=clock_after(start, table.span_s),
        hours=f"{table.span_s // 3600} h {table.span_s % 3600 // 60:02} min",
        late=_late(day, table, start),
        clean_ups=table.clean_ups,
        cups=sum(len(c.cups) for c in table.cups),
        shots=sum(c.shots for c in table.cups),
        plastic_g=sum(c.plastic_g for c in table.cups),
        remelt_g=sum(c.remelt_g for c in table.cups),
        gap_words=table.gap_words,
        searched=table.searched,
        urgent=tuple(r.words for r in table.remarks if r.urgent),
        remarks=tuple(r.words for r in table.remarks if not r.urgent),
        hot_at_once=_hot_at_once(table.cups, steps),
        heatings=_most_heatings(steps),
        points=table.points,
    )


def step_rows(
    day: PourDay,
    cups: Sequence[PlannedCup],
    steps: Sequence[PlannedStep],
    molds: Mapping[str, str],
) -> tuple[StepRow, ...]:
    """What to do, heating by heating; cooling goes by itself."""
    start, known = start_minute(day), {c.name: c for c in cups}
    waves: dict[tuple[str, int], list[PlannedStep]] = {}
    for step in steps:
        if step.cup in known:
            waves.setdefault((step.cup, step.wave), []).append(step)
    rows = [
        (its[0].start_s, _row(start, known[cup], its, molds)) for (cup, _), its in waves.items()
    ]
    return tuple(row for _, row in sorted(rows, key=lambda it: it[0]))


def _row(
    start: int, cup: PlannedCup, steps: Sequence[PlannedStep], molds: Mapping[str, str]
) -> StepRow:
    first = steps[0]
    words = [w for s in steps if (w := _words(start, s, steps, molds))]
    return StepRow(
        clock_after(start, first.start_s),
        first.doing,
        cup.name,
        cup.title,
        tuple(cup.colors.split()),
        "; ".join(words),
        all(s.begun for s in steps),
    )


def _words(
    start: int, step: PlannedStep, wave: Sequence[PlannedStep], molds: Mapping[str, str]
) -> str:
    minutes = f"{(step.end_s - step.start_s) / 60:.0f}"
    match step.doing:
        case "heat":
            return FIRST.format(lane=step.lane, min=minutes)
        case "rewarm":
            return AGAIN.format(lane=step.lane, min=minutes)
        case "clean":
            return CLEAN.format(kit=step.kit, min=minutes)
        case "cool":
            poured = next((s for s in wave if s.doing == "pour"), step)
            return SHOOT.format(
                count=step.molds,
                mold=molds.get(step.mold, step.mold),
                at=clock_after(start, poured.start_s),
                opens=clock_after(start, step.end_s),
            )
        case _:
            return ""


def _colors(day: PourDay, cups: Sequence[PlannedCup]) -> tuple[ColorRow, ...]:
    found = []
    for place, batch in enumerate(day.batches):
        mine = [c for c in cups if c.batch == place]
        if not mine:
            continue
        plastic, remelt = sum(c.plastic_g for c in mine), sum(c.remelt_g for c in mine)
        heat, cool = mine[0].heat_s, mine[0].cool_s
        found.append(
            ColorRow(
                mine[0].title, tuple(mine[0].colors.split()), sum(len(c.cups) for c in mine),
                sum(c.shots for c in mine), plastic, remelt, plastic - remelt,
                (heat.low / 60, heat.typical / 60, heat.high / 60),
                (cool.low / 60, cool.typical / 60, cool.high / 60), batch.sheet,
            )
        )  # fmt: skip
    return tuple(found)


def _late(day: PourDay, table: Timetable, start: int) -> tuple[str, ...]:
    """Which batches and cups miss the day or the time they are needed by, and by how much."""
    found = list(_days_late(day, table))
    for cup in table.cups:
        done = max((s.end_s for s in table.steps if s.cup == cup.name), default=0)
        if cup.due_min is not None and done > 60 * cup.due_min:
            late = (done - 60 * cup.due_min) / 60
            needed = day.batches[cup.batch].needed_at or "midnight"
            at = clock_after(start, done)
            found.append(
                f"{cup.name}, {cup.title}: out of the molds at {at}, needed by {needed}: "
                f"{late:.0f} min late."
            )
    return tuple(found)


def _days_late(day: PourDay, table: Timetable) -> Iterator[str]:
    """Batches that were needed before the pour day."""
    titles = {cup.batch: cup.title for cup in table.cups}
    for place, batch in enumerate(day.batches):
        if place in titles and batch.due_on and batch.due_on < day.day:
            late = (dt.date.fromisoformat(day.day) - dt.date.fromisoformat(batch.due_on)).days
            days = f"{late} {'day' if late == 1 else 'days'}"
            yield f"{titles[place]}: needed by {batch.due_on}, this pour is {days} late."


def _hot_at_once(cups: Sequence[PlannedCup], steps: Sequence[PlannedStep]) -> int:
    """The most cups with hot plastic in them at one time; each layer of a look has its own."""
    each = {cup.name: len(cup.cups) for cup in cups}
    spans: dict[str, tuple[int, int]] = {}
    for s in steps:
        if s.doing in {"heat", "rewarm", "pour"}:
            first, last = spans.get(s.cup, (s.start_s, s.end_s))
            spans[s.cup] = min(first, s.start_s), max(last, s.end_s)
    hot = (
        sum(each.get(cup, 1) for cup, (first, last) in spans.items() if first <= at < last)
        for at, _ in spans.values()
    )
    return max(hot, default=0)


def _most_heatings(steps: Sequence[PlannedStep]) -> int:
    """How often the cup that is heated most often is heated."""
    heated = Counter(s.cup for s in steps if s.doing in {"heat", "rewarm"})
    return max(heated.values(), default=0)
