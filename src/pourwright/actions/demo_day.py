"""An invented pour day for the demo bench: tomorrow, what its orders still want."""

from __future__ import annotations

import datetime as dt

from pourwright.actions.port import Bench, Clock
from pourwright.actions.pour_day_lay import laid
from pourwright.actions.pour_day_need import pour_needs
from pourwright.shop.pour_day import PourBatch, PourDay

DEMO_DAY = "demo-pour-day"


def fill_demo_day(bench: Bench, clock: Clock) -> None:
    """Lay it out and keep it."""
    tomorrow = dt.date.fromisoformat(clock.now()[:10]) + dt.timedelta(days=1)
    day = PourDay(
        name="What is promised, invented", day=tomorrow.isoformat(), batches=_wanted(bench),
        cup="demo-cup-small", plastic="demo-plastic-medium", microwave="demo-oven-small",
        thermometer="demo-thermometer-gun", injector="demo-injector-six", spoons="demo-spoons",
        scale="demo-scale",
    )  # fmt: skip
    bench.records.save(PourDay.key, DEMO_DAY, laid(bench, day), expected_version=0)


def _wanted(bench: Bench) -> tuple[PourBatch, ...]:
    return tuple(
        PourBatch(
            mold=it.mold, look=it.kind.look, count=it.baits, due_on=it.due_on,
            why=", ".join(it.orders),
        )
        for it in pour_needs(bench)
        if it.baits and it.mold
    )  # fmt: skip
