"""Start a new plan from a sheet that was poured before."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from pourwright.actions.enter_lot import lot_view
from pourwright.actions.port import Bench
from pourwright.base.errors import NotFound
from pourwright.base.field import fields_of
from pourwright.base.record import from_json
from pourwright.shop.draft import Draft


@dataclass(frozen=True, slots=True)
class Again:
    """A draft like that of an earlier sheet, and what had to be left behind."""

    draft: Draft
    notes: tuple[str, ...]


def pour_again(bench: Bench, number: int) -> Again:
    """The draft of an earlier sheet, with the share of rejects that its lot really had.

    Records that were taken off the bench since are dropped and named. Raises: NotFound.
    """
    view = lot_view(bench, number)
    draft = from_json(Draft, view.sheet.draft)
    notes: list[str] = []
    for field in fields_of(Draft):
        key = getattr(draft, field.name)
        if field.spec.refers and key and _gone(bench, field.spec.refers, key):
            emptied: dict[str, Any] = {field.name: ""}
            draft = replace(draft, **emptied)
            notes.append(
                f"{field.label}: the one used then is no longer on the bench; pick another."
            )
    entry = view.lot.entry
    if entry and entry.good + entry.rejected >= LEAST_COUNTED:
        share = entry.rejected / (entry.good + entry.rejected)
        draft = replace(draft, reject_share=round(min(share, 0.9), 3))
        notes.append(f"Reject share set to the {share:.1%} that lot {view.sheet.code} had.")
    return Again(draft, tuple(notes))


# Fewer counted baits say too little about the share of rejects: estimate.
LEAST_COUNTED = 20


def _gone(bench: Bench, sort: str, id: str) -> bool:
    try:
        return bench.records.get(sort, id).retired
    except NotFound:
        return True
