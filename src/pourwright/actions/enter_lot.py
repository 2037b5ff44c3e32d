"""Enter what came out of a batch, and read it back beside what was planned."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.lot_cost import taken_by
from pourwright.actions.lot_told import lot_told
from pourwright.actions.oven_history import happenings
from pourwright.actions.port import Bench, Event, World
from pourwright.actions.post_pour import post_pour, sheet_cause
from pourwright.base.errors import BadInput
from pourwright.bench.cup_story import Happening
from pourwright.shop.actual import Comparison, compared
from pourwright.shop.lot import COUNTED, PHOTOGRAPHED, Lot, LotEntry, body_of
from pourwright.shop.lot_cost import NO_MOVES, Taken
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class LotView:
    """A sheet, its lot, and planned against actual once something was entered."""

    sheet: Sheet
    lot: Lot
    comparison: Comparison | None


def enter_lot(
    world: World, number: int, entry: LotEntry, *, event_id: str | None = None
) -> LotView:
    """Keep what came out of the batch of that sheet; a second entry corrects the first.

    What it used and gave is posted to the stock with it. `event_id` makes a repeated send
    harmless. Raises: NotFound for an unknown sheet, BadInput for more baits than the shots can
    have made, Conflict for fewer than went on already.
    """
    with world.bench() as bench:
        sheet = bench.sheets.get(number)
        _possible(sheet, entry)
        event = Event(
            id=event_id or world.ids.fresh(),
            subject=f"lot/{sheet.code}",
            kind=COUNTED,
            at=world.clock.now(),
            body=body_of(entry),
        )
        known = any(it.event.id == event.id for it in bench.ledger.of(event.subject))
        bench.ledger.append(event)
        view = lot_view(bench, number)
        if not known:
            post_pour(bench, sheet, view.lot.entry, key=event.id, at=event.at)
        bench.commit()
        return view


def add_lot_photo(world: World, number: int, jpeg: bytes) -> str:
    """Keep a picture of the lot; the answer is the picture's id."""
    with world.bench() as bench:
        sheet = bench.sheets.get(number)
        photo = world.ids.fresh()
        bench.photos.add(photo, jpeg)
        event = Event(
            id=world.ids.fresh(),
            subject=f"lot/{sheet.code}",
            kind=PHOTOGRAPHED,
            at=world.clock.now(),
            body={"photo": photo},
        )
        bench.ledger.append(event)
        bench.commit()
    return photo


def lot_view(bench: Bench, number: int) -> LotView:
    """A sheet with what came of it. Raises: NotFound."""
    sheet = bench.sheets.get(number)
    taken = taken_by(bench.stock.moves(cause=sheet_cause(number)))
    return lot_of(sheet, happenings(bench, sheet.code), taken)


def lot_of(sheet: Sheet, told: tuple[Happening, ...], taken: Taken = NO_MOVES) -> LotView:
    """The same from the lot's events and its moves; what was taken back does not count."""
    lot = lot_told(sheet.code, told)
    return LotView(sheet, lot, compared(sheet, lot.entry, taken) if lot.entry else None)


def lot_by_code(bench: Bench, code: str) -> LotView:
    """The lot whose code stands on a printed sheet. Raises: NotFound."""
    return lot_view(bench, bench.sheets.of_code(code).number)


def _possible(sheet: Sheet, entry: LotEntry) -> None:
    cavities = int(sheet.request["mold"]["cavities"])
    most = entry.shots * cavities
    made = entry.good + entry.rejected + entry.warmup
    if made > most:
        why = f"{entry.shots} shots of {cavities} cavities give at most {most} baits"
        raise BadInput("good", made, why)
