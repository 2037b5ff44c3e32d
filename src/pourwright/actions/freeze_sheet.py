"""Freeze a plan into a numbered batch sheet that never changes."""

from __future__ import annotations

import pourwright
from pourwright.actions.plan_batch import Planned, plan_batch
from pourwright.actions.port import World
from pourwright.base.record import from_json, to_json
from pourwright.forecast.request import BatchRequest
from pourwright.plan.batch import plan_batch as planned_batch
from pourwright.shop.code import lot_code
from pourwright.shop.draft import Draft
from pourwright.shop.sheet import Sheet


def freeze_sheet(world: World, draft: Draft) -> Sheet:
    """The frozen sheet of a draft.

    Raises: as `plan_batch`; Conflict if two people froze at the same moment.
    """
    with world.bench() as bench:
        planned = plan_batch(bench, draft)
        sheet = sheet_of(planned, number=bench.sheets.next_number(), at=world.clock.now())
        bench.sheets.add(sheet)
        bench.commit()
    return sheet


def loose_sheet(data: object, *, at: str) -> Sheet:
    """A sheet of a plan that lies in no store, numbered 0.

    `data` is what the calculation `plan.batch` takes. Raises: BadInput, NoAnswer.
    """
    request = from_json(BatchRequest, data)
    plan = planned_batch(request)
    return Sheet(
        number=0,
        code=lot_code(date=at[:10], number=0),
        frozen_at=at,
        version=pourwright.__version__,
        title=plan.title,
        draft={},
        request=to_json(request),
        plan=to_json(plan),
    )


def sheet_of(planned: Planned, *, number: int, at: str) -> Sheet:
    """A sheet with everything it was computed from."""
    return Sheet(
        number=number,
        code=lot_code(date=at[:10], number=number),
        frozen_at=at,
        version=pourwright.__version__,
        title=planned.draft.name or planned.plan.title,
        draft={k: v for k, v in to_json(planned.draft).items() if k != "kind"},
        request=to_json(planned.request),
        plan=to_json(planned.plan),
    )
