"""Freeze the sheets of a pour day, in the order in which their first cups are heated."""

from __future__ import annotations

import dataclasses

from pourwright.actions.freeze_sheet import sheet_of
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import World
from pourwright.actions.pour_day_cups import draft_of
from pourwright.actions.pour_day_lay import kept_day
from pourwright.base.errors import Conflict
from pourwright.shop.pour_day import PourDay, Timetable


def freeze_pour_day(world: World, id: str, *, starts_at: str) -> PourDay:
    """The day with a batch sheet for every batch; all of them are frozen, or none.

    `starts_at` is the start of the day in universal time. Raises: NotFound; Conflict for a day
    without a timetable or frozen already; as the plan of a batch.
    """
    with world.bench() as bench:
        kept = kept_day(bench, id)
        day, table = kept.day, kept.day.timetable
        if kept.retired or day.frozen:
            raise Conflict("this pour day was frozen, or taken off, before")
        if table is None:
            raise Conflict("the day has no timetable yet: lay it out first")
        numbers: dict[int, int] = {}
        for place in batches_in_order(table):
            remelt = sum(c.remelt_g for c in table.cups if c.batch == place)
            planned = plan_batch(bench, draft_of(day, day.batches[place], remelt))
            numbers[place] = bench.sheets.next_number()
            sheet = sheet_of(planned, number=numbers[place], at=world.clock.now())
            bench.sheets.add(sheet)
        batches = tuple(
            dataclasses.replace(it, sheet=numbers[place]) for place, it in enumerate(day.batches)
        )
        frozen = dataclasses.replace(day, batches=batches, starts_at=starts_at)
        bench.records.save(PourDay.key, id, frozen, expected_version=kept.version)
        bench.commit()
    return frozen


def batches_in_order(table: Timetable) -> tuple[int, ...]:
    """Places of the batches by the first heating of any of their cups."""
    batch_of = {cup.name: cup.batch for cup in table.cups}
    heats = sorted((s for s in table.steps if s.doing == "heat"), key=lambda s: s.start_s)
    return tuple(dict.fromkeys(batch_of[s.cup] for s in heats))
