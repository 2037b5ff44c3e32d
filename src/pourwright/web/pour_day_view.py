"""A pour day in words: what each color needs, what to do when, what is late."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pourwright.actions.pour_day_follow import Followed
from pourwright.actions.pour_day_heat import DayHeat, day_heat
from pourwright.actions.pour_day_late import LateBatch, late_batches, late_cups
from pourwright.actions.pour_day_sums import CupSums, cups_by_batch, sums_of
from pourwright.base.band import Band
from pourwright.base.units import convert
from pourwright.base.wording import percent
from pourwright.shop.pour_day import PlannedCup, PlannedStep, PourDay, Timetable
from pourwright.web.pour_day_chart import DayChart, clock_after, day_chart
from pourwright.web.question.words import in_words
from pourwright.web.show import opened

FIRST = "into microwave {lane} for {min} min with rests and stirs"
AGAIN = "warm again in microwave {lane}, {min} min"
CLEAN = "clean kit {kit} before it, {min} min"
SHOOT = "shoot {count} × {mold} at {at}, open from {opens}"


@dataclass(frozen=True, slots=True)
class ColorRow:
    """All cups of one look."""

    title: str
    colors: tuple[str, ...]
    sums: CupSums
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
    sums: CupSums
    gap_words: str
    searched: bool
    urgent: tuple[str, ...]
    remarks: tuple[str, ...]
    heat: DayHeat
    ages: str
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
    early: str


def running_view(it: Followed, molds: Mapping[str, str]) -> RunningDay:
    """What the bench is told of a day that runs."""
    start = it.day.begins_min
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
        _early(it.early_s),
    )


def _early(seconds: int) -> str:
    """Where somebody began before the start of the day."""
    minutes = round(seconds / 60)
    if minutes < 1:
        return ""
    return (
        f"Begun {minutes} min before the start of the day: what was tapped until then counts "
        "from the start."
    )


def _slip(seconds: int) -> str:
    minutes = round(abs(seconds) / 60)
    if minutes < 2:
        return "On time."
    return f"{minutes} min {'behind' if seconds > 0 else 'ahead of'} the timetable."


def day_view(
    day: PourDay, table: Timetable, molds: Mapping[str, str], *, now_s: float | None = None
) -> DayView:
    """What the page of a laid day shows."""
    start, steps, heat = day.begins_min, table.steps, day_heat(table)
    return DayView(
        colors=_colors(day, table),
        chart=day_chart(table.cups, steps, start_min=start, molds=dict(molds), now_s=now_s),
        steps=step_rows(day, table.cups, steps, molds),
        done_at=clock_after(start, table.span_s),
        hours=f"{table.span_s // 3600} h {table.span_s % 3600 // 60:02} min",
        late=_late(day, table, start),
        clean_ups=table.clean_ups,
        sums=sums_of(table.cups),
        gap_words=table.gap_words,
        searched=table.searched,
        urgent=tuple(r.words for r in table.remarks if r.urgent),
        remarks=tuple(
            opened(in_words(r.words, PourDay, Timetable)) for r in table.remarks if not r.urgent
        ),
        heat=heat,
        ages=_ages(heat),
        points=table.points,
    )


def step_rows(
    day: PourDay,
    cups: Sequence[PlannedCup],
    steps: Sequence[PlannedStep],
    molds: Mapping[str, str],
) -> tuple[StepRow, ...]:
    """What to do, heating by heating; cooling goes by itself."""
    start, known = day.begins_min, {c.name: c for c in cups}
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


def _colors(day: PourDay, table: Timetable) -> tuple[ColorRow, ...]:
    return tuple(
        ColorRow(
            mine[0].title, tuple(mine[0].colors.split()), sums_of(mine),
            _minutes(mine[0].heat_s), _minutes(mine[0].cool_s), day.batches[place].sheet,
        )
        for place, mine in cups_by_batch(table).items()
    )  # fmt: skip


def _minutes(seconds: Band) -> tuple[float, float, float]:
    ends = (seconds.low, seconds.typical, seconds.high)
    low, typical, high = (convert(end, "s", "min") for end in ends)
    return low, typical, high


def _late(day: PourDay, table: Timetable, start: int) -> tuple[str, ...]:
    """Which batches and cups miss the day or the time they are needed by, and by how much."""
    return (*map(_days_late, late_batches(day, table)), *(
        f"{it.cup}, {it.title}: out of the molds at {clock_after(start, it.done_s)}, needed by "
        f"{it.needed_at or 'midnight'}: {convert(it.late_s, 's', 'min'):.0f} min late."
        for it in late_cups(day, table)
    ))  # fmt: skip


def _days_late(it: LateBatch) -> str:
    days = f"{it.days} {'day' if it.days == 1 else 'days'}"
    return f"{it.title}: needed by {it.due_on}, this pour is {days} late."


def _ages(heat: DayHeat) -> str:
    """That one cup is heated too often for its plastic; empty where none is."""
    if not heat.ages:
        return ""
    used = heat.used_share
    return (
        f"One cup is heated {heat.heatings} times. Were each a usual heat, that would use about "
        f"{percent(used.typical)} of its heat budget ({percent(used)}); short ones use less. What "
        "has yellowed or smells sharp is not heated again: fewer shots to a cup, or more molds, "
        "spare it."
    )
