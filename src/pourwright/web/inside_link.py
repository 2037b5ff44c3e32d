"""The way from a plan or a sheet to the inside of its cups."""

from __future__ import annotations

from urllib.parse import urlencode

from pourwright.actions.plan_batch import Planned
from pourwright.actions.see_inside import InsideEntry, inside_plan
from pourwright.base.errors import PourwrightError
from pourwright.plan.batch_plan import BatchPlan
from pourwright.web.form import texts_of
from pourwright.web.show import Settings

INSIDE = "/inside-the-cup"


def inside_sheet_links(number: int, plan: BatchPlan) -> tuple[str, ...]:
    """Where to see inside a cup of each heat plan of a frozen sheet."""
    return tuple(f"{INSIDE}?sheet={number}&cup={heat.cups[0]}" for heat in plan.heat)


def inside_plan_links(planned: Planned, settings: Settings) -> tuple[str, ...]:
    """The same for a plan that lies in no store; empty where a cup is too small to look into."""
    try:
        entries = [inside_plan(planned, heat.cups[0]) for heat in planned.plan.heat]
    except PourwrightError:
        return ()
    texts = [texts_of(InsideEntry, entry, settings.system) for entry in entries]
    return tuple(f"{INSIDE}?{urlencode(text)}" for text in texts)
