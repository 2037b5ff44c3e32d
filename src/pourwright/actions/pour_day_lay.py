"""A timetable for a pour day: at once by simple rules, a better one in the background."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.actions.port import Bench, JobState, Progress, World
from pourwright.actions.pour_day_cups import CupsOfDay, cups_of_day, due_min, rounded_up
from pourwright.actions.pour_day_room import needs_s, too_long
from pourwright.base.assume import left_out
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.base.record import to_json
from pourwright.base.revive import revived
from pourwright.base.typical import given_or_typical
from pourwright.plan.day.day import DayAnswer, best_day
from pourwright.plan.day.day_input import DayCup, DayFill, DayInput, DayMold
from pourwright.plan.day.day_step import DayStep, StepSort
from pourwright.shop.mold import Mold
from pourwright.shop.pour_day import (
    MOST_CUPS,
    PlannedCup,
    PlannedStep,
    PourDay,
    Remark,
    Timetable,
)

EFFORT = 20.0


@dataclass(frozen=True, slots=True)
class KeptDay:
    """A stored pour day."""

    id: str
    version: int
    retired: bool
    day: PourDay


def kept_day(bench: Bench, id: str) -> KeptDay:
    """A pour day. Raises: NotFound."""
    stored = bench.records.get(PourDay.key, id)
    if not isinstance(stored.noun, PourDay):
        raise NotFound(f"there is no pour day {id!r}")
    return KeptDay(stored.id, stored.version, stored.retired, stored.noun)


def next_day(bench: Bench, today: str) -> KeptDay | None:
    """The first pour day from today on; none where nothing is laid out."""
    kept = [(s, s.noun) for s in bench.records.all(PourDay.key) if isinstance(s.noun, PourDay)]
    ahead = [(day.day, s.changed_at, s.id) for s, day in kept if day.timetable and day.day >= today]
    return kept_day(bench, min(ahead)[-1]) if ahead else None


def laid(bench: Bench, day: PourDay) -> PourDay:
    """The day with its cups, and with the best timetable of the simple rules.

    Raises: as `cups_of_day`; BadInput for more cups than a timetable takes.
    """
    found = cups_of_day(bench, day)
    if len(found.cups) > MOST_CUPS:
        why = f"comes to {len(found.cups)} cups; one day takes at most {MOST_CUPS}: pour fewer"
        raise BadInput("batches", len(day.batches), why)
    asked = day_input(bench, day, found.cups)
    answer = best_day(dataclasses.replace(asked, effort=0))
    needs = needs_s(day, found.cups, asked)
    remarks = (*too_long(day, needs), *_remarks(day, found))
    return dataclasses.replace(day, timetable=timetable_of(found.cups, answer, remarks))


def day_input(bench: Bench, day: PourDay, cups: Sequence[PlannedCup]) -> DayInput:
    """The day as the timetable is asked, in whole steps of its grid."""
    cool: dict[str, float] = {}
    for cup in cups:
        mold = day.batches[cup.batch].mold
        cool[mold] = max(cool.get(mold, 0.0), cup.cool_s.typical)
    return DayInput(
        cups=tuple(_day_cup(day, cup) for cup in cups),
        molds=tuple(
            DayMold(name=mold, count=_owned(bench, mold), cool_s=rounded_up(seconds))
            for mold, seconds in cool.items()
        ),
        microwaves=day.microwaves,
        hands=day.hands,
        kits=day.kits,
        hold_s=rounded_up(given_or_typical(day, "hold_s")),
        rewarm_s=rounded_up(given_or_typical(day, "rewarm_s")),
        clean_s=rounded_up(60 * given_or_typical(day, "clean_min")),
        effort=EFFORT,
    )


def better_timetable(world: World, id: str) -> JobState:
    """Look for a better timetable in the background, or find what was found.

    Raises: NotFound; Conflict for a day without a timetable, or one whose sheets are frozen.
    """
    with world.reading() as bench:
        kept = kept_day(bench, id)
        table = open_table(kept.day)
        asked = day_input(bench, kept.day, table.cups)

    def work(progress: Progress) -> Mapping[str, Any]:
        found: dict[str, Any] = to_json(best_day(asked, _reporting(progress)))
        return found

    return world.jobs.start("plan.day", to_json(asked), work)


def take_better(world: World, id: str) -> Timetable:
    """Keep what the background found, where it has fewer points.

    Raises: NotFound; Conflict while nothing is found.
    """
    state = better_timetable(world, id)
    if state.answer is None:
        raise Conflict("nothing better is found yet: the search is still running")
    answer = revived(DayAnswer, state.answer)
    with world.bench() as bench:
        kept = kept_day(bench, id)
        table = open_table(kept.day)
        if table.points < answer.totals.objective:
            return table
        found = timetable_of(table.cups, answer, table.remarks, searched=True)
        day = dataclasses.replace(kept.day, timetable=found)
        bench.records.save(PourDay.key, id, day, expected_version=kept.version)
        bench.commit()
    return found


def timetable_of(
    cups: Sequence[PlannedCup], answer: DayAnswer, remarks: Sequence[Remark], *,
    searched: bool = False,
) -> Timetable:  # fmt: skip
    """A timetable as the record keeps it; what the remarks say already is not said again."""
    said = {remark.words for remark in remarks}
    notes = (Remark(words=note) for note in answer.notes if note not in said)
    return Timetable(
        cups=tuple(cups),
        steps=tuple(planned_step(step) for step in answer.steps),
        points=answer.totals.objective,
        span_s=answer.totals.span_s,
        late_s=answer.totals.late_s,
        clean_ups=answer.totals.clean_ups,
        gap_words=answer.gap_words,
        searched=searched,
        remarks=(*remarks, *notes),
    )


def planned_step(step: DayStep) -> PlannedStep:
    """A step as the record keeps it."""
    return PlannedStep(
        doing=StepSort(step.sort).value, cup=step.cup, wave=step.wave, start_s=step.start_s,
        end_s=step.end_s, kit=step.kit, lane=step.lane, mold=step.mold, molds=step.molds,
        begun=step.begun,
    )  # fmt: skip


def open_table(day: PourDay) -> Timetable:
    """The timetable of a day that may still be changed. Raises: Conflict."""
    if day.timetable is None:
        raise Conflict("the day has no timetable yet: lay it out first")
    if day.frozen:
        raise Conflict("its sheets are frozen: the timetable now follows the pour")
    return day.timetable


def _reporting(progress: Progress) -> Callable[[DayAnswer], None]:
    """Each better timetable moves the bar half the way that is left."""
    share = 0.0
    progress.at(share)

    def better(answer: DayAnswer) -> None:  # noqa: ARG001
        nonlocal share
        share += (1 - share) / 2
        progress.at(share)

    return better


def _day_cup(day: PourDay, cup: PlannedCup) -> DayCup:
    batch = day.batches[cup.batch]
    return DayCup(
        name=cup.name,
        heat_s=rounded_up(cup.heat_s.typical),
        shade=cup.shade,
        due_min=due_min(day, batch, cup.batch),
        fills=(
            DayFill(mold=batch.mold, shots=cup.shots, pour_s=rounded_up(cup.shot_s.typical)),
        ),
    )  # fmt: skip


def _owned(bench: Bench, mold_id: str) -> int:
    mold = bench.records.get(Mold.key, mold_id).noun
    return mold.owned if isinstance(mold, Mold) else 1


def _remarks(day: PourDay, found: CupsOfDay) -> tuple[Remark, ...]:
    keeps = "Here each batch keeps its own, since a sheet guides one mold."
    words = [f"{it.words} {keeps}" for it in found.packed.shared]
    if any(len(cup.cups) > 1 for cup in found.cups):
        words.append(
            "A look of several layers is heated one cup after the other and shot together: the "
            "first of them waits for the last. Warm it again before the shot."
        )
    if day.microwaves > 1:
        words.append(
            "The heating times are those of the one microwave picked; another one differs. Only "
            "one oven to a rated circuit."
        )
    return tuple(Remark(words=w) for w in (*words, *left_out(day)))
