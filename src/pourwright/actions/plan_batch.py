"""Plan a batch from what a person picked."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.actions.oven_history import cooked_cups
from pourwright.actions.plan_fill import Fills, fills
from pourwright.actions.port import Bench
from pourwright.actions.shelf_color import calibrations
from pourwright.base.errors import NotFound
from pourwright.base.field import fields_of
from pourwright.forecast.request import BatchRequest
from pourwright.plan.batch import plan_batch as planned
from pourwright.plan.batch_plan import BatchPlan
from pourwright.plan.resolve import Picked, request_of
from pourwright.plan.risk import fill_warnings
from pourwright.shop.draft import Draft
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import ADDITIVES
from pourwright.shop.own_shape import OwnShape
from pourwright.shop.workplace import Workplace

# There is exactly one workplace, and this is its id.
WORKPLACE = "workplace"


@dataclass(frozen=True, slots=True)
class Planned:
    """A draft with the numbers it stands for, the plan they give, and whether its mold fills."""

    draft: Draft
    request: BatchRequest
    plan: BatchPlan
    fills: Fills | None = None


def plan_batch(bench: Bench, draft: Draft) -> Planned:
    """The plan of a draft.

    Raises: BadInput naming the entry that is missing or does not fit, NotFound for a record that
    is not in the store, NoAnswer where no plan exists.
    """
    request = request_of(draft, picked(bench, draft))
    plan, found = planned(request), fills(bench, draft)
    warned = (*fill_warnings(found.odds if found else None), *plan.warnings)
    return Planned(draft, request, dataclasses.replace(plan, warnings=warned), found)


def workplace(bench: Bench) -> Workplace:
    """The settings of the bench; typical ones until somebody sets it up."""
    try:
        found = bench.records.get(Workplace.key, WORKPLACE).noun
    except NotFound:
        return Workplace(name="Workplace")
    return found if isinstance(found, Workplace) else Workplace(name="Workplace")


def picked(bench: Bench, draft: Draft) -> Picked:
    """Every noun a draft refers to, itself or through its mold and look."""
    nouns: dict[str, Noun] = {}
    for field in fields_of(Draft):
        key = getattr(draft, field.name)
        if field.spec.refers and key:
            nouns[key] = bench.records.get(field.spec.refers, key).noun
    for noun in tuple(nouns.values()):
        if isinstance(noun, Mold):
            bait = nouns[noun.bait] = bench.records.get("bait", noun.bait).noun
            if isinstance(bait, Bait) and bait.own_shape:
                nouns[bait.own_shape] = bench.records.get(OwnShape.key, bait.own_shape).noun
        if isinstance(noun, Look):
            nouns |= _additives(bench, (d.material for layer in noun.layers for d in layer.doses))
    measured = {m: dataclasses.replace(c, spread=()) for m, c in calibrations(bench).items()}
    taught = {m: c for m, c in measured.items() if m in nouns}
    cups = cooked_cups(bench, draft.microwave) if draft.microwave else ()
    return Picked(workplace(bench), nouns, taught, cups)


def _additives(bench: Bench, ids: Iterable[str]) -> dict[str, Noun]:
    wanted = set(ids)
    return {
        stored.id: stored.noun
        for sort in ADDITIVES
        for stored in bench.records.all(sort, retired=True)
        if stored.id in wanted
    }
