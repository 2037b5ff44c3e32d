"""Invented counted lots of one mold, so that charts have something to say."""

from __future__ import annotations

import dataclasses

from pourwright.actions.freeze_sheet import sheet_of
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import Bench, Event, Ids
from pourwright.shop.draft import Draft
from pourwright.shop.lot import COUNTED, LotEntry, body_of

# Day poured, good, flash, short, and what five good ones weighed: one lot flashed badly, after
# which the clamps were seen to, and the weight creeps up towards the end.
_POURED = (
    ("2026-01-18", 26, 1, 1, 81.6), ("2026-01-24", 25, 0, 2, 81.2), ("2026-01-25", 27, 1, 0, 81.9),
    ("2026-01-31", 26, 2, 0, 81.4), ("2026-02-01", 24, 1, 1, 81.7), ("2026-02-07", 26, 0, 1, 81.1),
    ("2026-02-08", 19, 8, 1, 82.3), ("2026-02-14", 27, 0, 1, 81.5), ("2026-02-15", 26, 1, 0, 82.0),
    ("2026-02-21", 25, 1, 2, 82.2), ("2026-02-22", 26, 0, 0, 82.4), ("2026-02-28", 27, 1, 0, 82.6),
)  # fmt: skip


def add_counted_lots(bench: Bench, ids: Ids, draft: Draft) -> None:
    """Freeze the same plan on many days, and count what came of each."""
    planned = plan_batch(bench, draft)
    for day, good, flash, short, five_g in _POURED:
        number = bench.sheets.next_number()
        sheet = sheet_of(planned, number=number, at=f"{day}T14:00:00Z")
        bench.sheets.add(dataclasses.replace(sheet, title=f"Invented: {sheet.title}"))
        entry = LotEntry(
            shots=8, good=good, flash=flash, short=short, five_g=five_g, minutes=70,
            note="Invented.",
        )  # fmt: skip
        at = f"{day}T16:30:00Z"
        bench.ledger.append(
            Event(ids.fresh(), f"lot/{sheet.code}", COUNTED, at, body_of(entry))
        )  # fmt: skip
