"""An invented lot for the demo bench, with what was done to its two cups."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.actions.cup_fill import cup_fill
from pourwright.actions.freeze_sheet import sheet_of
from pourwright.actions.oven_history import begun
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import Bench, Event, Ids
from pourwright.base.units import convert
from pourwright.bench.cup_story import POURED, WORKED, Entry, worked_body
from pourwright.heat.history import Did, Step
from pourwright.shop.draft import Draft
from pourwright.shop.lot import COUNTED, LotEntry, body_of
from pourwright.shop.sheet import Sheet

FROZEN_AT = "2026-01-17T14:05:00Z"
COUNTED_AT = "2026-01-17T17:40:00Z"
# Seconds heated and whole degrees Fahrenheit read, a quarter of a minute later, while stirring.
_ROUNDS = {1: ((47, 150), (112, 291), (42, 328), (27, 341), (0, 338)),
           2: ((67, 158), (152, 303), (52, 335), (20, 341), (0, 340))}  # fmt: skip
_BEGAN = {1: "14:31", 2: "14:52"}
_REST_S, _BETWEEN_S, _SECOND_LOOK_S = 15, 15, 8
_ENTRY = LotEntry(
    shots=18, good=31, flash=2, short=2, dent=1, five_g=57.4, remelt_g=64, sprue_g=63, minutes=158,
    note="Invented for the demo bench.",
)  # fmt: skip


def fill_demo_lot(bench: Bench, ids: Ids) -> None:
    """Freeze a sheet for the demo bench and tell what came of it."""
    planned = plan_batch(bench, DEMO_LOT_DRAFT)
    sheet = sheet_of(planned, number=bench.sheets.next_number(), at=FROZEN_AT)
    bench.sheets.add(sheet)
    for cup in sheet.plan["cups"]:
        for event in _cup_events(sheet, cup["number"], ids):
            bench.ledger.append(event)
    counted = Event(ids.fresh(), f"lot/{sheet.code}", COUNTED, COUNTED_AT, body_of(_ENTRY))
    bench.ledger.append(counted)


DEMO_LOT_DRAFT = Draft(
    name="Invented lot: slough shad, two colors",
    mold="demo-mold-paddle", count=30, cup="demo-cup-small", look="demo-look-shad",
    plastic="demo-plastic-medium", microwave="demo-oven-small",
    thermometer="demo-thermometer-gun", injector="demo-injector-six", spoons="demo-spoons",
    scale="demo-scale", packing="demo-packing",
)  # fmt: skip


def _cup_events(sheet: Sheet, number: int, ids: Ids) -> Iterator[Event]:
    subject = f"lot/{sheet.code}"
    entries = tuple(_entries(number, ids))
    first = begun(sheet, number, cup_fill(sheet, number), id=ids.fresh(), at=entries[0].at)
    yield first
    for entry in entries:
        yield Event(entry.id, subject, WORKED, entry.at, worked_body(number, entry))
    yield Event(ids.fresh(), subject, POURED, entries[-1].at, {"cup": number})


def _entries(number: int, ids: Ids) -> Iterator[Entry]:
    at = _seconds(_BEGAN[number])
    for heated_s, read_f in _ROUNDS[number]:
        rest = heated_s + _REST_S if heated_s else 0
        at += 0 if heated_s else _SECOND_LOOK_S - _BETWEEN_S
        yield Entry(ids.fresh(), _clock(at), _steps(heated_s, read_f, float(rest)))
        at += rest + _BETWEEN_S


def _steps(heated_s: float, read_f: float, read_at_s: float) -> tuple[Step, ...]:
    read = Step(did=Did.READ, at_s=read_at_s, read_c=convert(read_f, "f", "c"), while_stirring=True)
    stirred = Step(did=Did.STIRRED, at_s=read_at_s)
    heated = (Step(did=Did.HEATED, at_s=0, for_s=heated_s),) if heated_s else ()
    return (*heated, stirred, read)


def _seconds(clock: str) -> int:
    hours, minutes = clock.split(":")
    return int(hours) * 3600 + int(minutes) * 60


def _clock(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{FROZEN_AT[:10]}T{hours:02d}:{minutes:02d}:{rest:02d}Z"
