"""What hangs on the rack, where and until when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.actions.enter_lot import lot_of
from pourwright.actions.port import Bench
from pourwright.actions.post_pour import poured_lot
from pourwright.actions.pour_standing import PourStanding, Standing, pour_standing
from pourwright.bench.clock import after, seconds_between
from pourwright.bench.tap_kind import HUNG, TAKEN_BACK, TAKEN_OFF
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Hanging:
    """A lot on the rack; `good` is null where nobody counted."""

    sheet: Sheet
    good: int | None
    place: str
    hung_at: str
    due_at: str
    overdue: bool


def hanging_lots(bench: Bench, now: str) -> tuple[Hanging, ...]:
    """The same without reading what happened to lots that hang no more."""
    return hanging_of(bench, (pour_standing(bench, it) for it in _perhaps_hung(bench)), now)


def _perhaps_hung(bench: Bench) -> tuple[Sheet, ...]:
    """Sheets that were hung, and not taken off without anything being taken back."""
    told: dict[str, str] = {}
    for it in bench.ledger.of_kind(HUNG, TAKEN_OFF, TAKEN_BACK):
        subject, kind = it.event.subject, it.event.kind
        if kind == HUNG or (kind == TAKEN_BACK and subject in told):
            told[subject] = HUNG
        elif kind == TAKEN_OFF:
            told[subject] = TAKEN_OFF
    hung = (subject for subject, kind in told.items() if kind == HUNG)
    return tuple(bench.sheets.of_code(subject.removeprefix("lot/")) for subject in hung)


def hanging_of(bench: Bench, standings: Iterable[PourStanding], now: str) -> tuple[Hanging, ...]:
    """The lots on the rack, what is due first; one whose every bait is bagged hangs no more."""
    hung = (it for it in standings if it.standing is Standing.HUNG)
    found = [_hung(it, now) for it in hung if not _emptied(bench, it.sheet)]
    return tuple(sorted(found, key=lambda h: h.due_at))


def _emptied(bench: Bench, sheet: Sheet) -> bool:
    held = poured_lot(bench, sheet)
    return held is not None and held.pieces == 0


def _hung(it: PourStanding, now: str) -> Hanging:
    hung = next(h for h in it.kept if h.kind == HUNG)
    due = after(hung.at, round(float(hung.body["for_h"]) * 3600))
    entry = lot_of(it.sheet, it.happenings).lot.entry
    return Hanging(
        sheet=it.sheet,
        good=entry.good if entry else None,
        place=str(hung.body["place"]),
        hung_at=hung.at,
        due_at=due,
        overdue=seconds_between(due, now) >= 0,
    )
