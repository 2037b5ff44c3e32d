"""The frozen sheet's own table, reads X heat Y, as screens a phone can show without the laptop."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.base.units import convert
from pourwright.base.wording import clock
from pourwright.bench.tap_body import READ
from pourwright.web.bench.hot import heat_for, oven_phases
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Pad, Row, Screen
from pourwright.web.degrees import read_words


@dataclass(frozen=True, slots=True)
class Table:
    """Rows that lead from a reading to a screen, and those screens."""

    rows: tuple[Row, ...]
    screens: Mapping[str, Screen]


def heat_table(it: Moment, *, hot: str) -> Table:
    """The table of the cup in question; a reading that needs no more heat leads to `hot`."""
    plans = it.told.sheet.plan["heat"]
    plan = next((h for h in plans if it.hand.cup in h["cups"]), plans[0])
    rows: list[Row] = []
    for row in plan["table"]:
        to = _key(it, row["heat_s"]) if row["heat_s"] > 0 else hot
        rows += [
            Row(round(convert(row["reads_c"], "c", unit), 1), unit, to) for unit in ("f", "c")
        ]  # fmt: skip
    screens: dict[str, Screen] = {}
    for row in plan["table"]:
        if row["heat_s"] > 0:
            screens |= _screens(it, row, tuple(rows))
    return Table(tuple(rows), screens)


def _screens(it: Moment, row: Mapping[str, float], rows: tuple[Row, ...]) -> dict[str, Screen]:
    """Start the oven; the oven on, a rest, stir and read."""
    seconds, bare = row["heat_s"], dataclasses.replace(it, view=None)
    low_s, high_s = row["low_s"], row["high_s"]
    reads, between = read_words(row["reads_c"], it.settings), f"{clock(low_s)} to {clock(high_s)}"
    words = (f"From the sheet's table for {reads}: {between}.", "The laptop is out of reach.")
    key = _key(it, seconds)
    start = heat_for(bare, seconds, words)
    pads = tuple(dataclasses.replace(p, next=f"{key}-on") for p in start.pads)
    on, rest, read = oven_phases(bare, seconds)
    looked_up = tuple(_looked_up(p, rows) for p in read.pads)
    stage, about = it.hand.stage.value, it.about
    return {
        key: Screen(key, stage, about, (dataclasses.replace(start, pads=pads),)),
        f"{key}-on": Screen(
            f"{key}-on", stage, about, (on, rest, dataclasses.replace(read, pads=looked_up))
        ),
    }


def _looked_up(pad: Pad, rows: tuple[Row, ...]) -> Pad:
    return dataclasses.replace(pad, next_by=rows) if pad.kind == READ else pad


def _key(it: Moment, seconds: float) -> str:
    return f"table-{it.hand.cup}-{seconds:.0f}"
