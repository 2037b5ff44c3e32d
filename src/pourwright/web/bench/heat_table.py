"""The frozen sheet's own table, reads X heat Y, as screens a phone can show without the laptop."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.base.units import convert
from pourwright.base.wording import clock
from pourwright.bench.tap_body import READ
from pourwright.heat.history import HOTTEST_READ_C
from pourwright.web.bench.hot import heat_for, heat_plan, oven_phases, reading
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Pad, Row, Screen
from pourwright.web.degrees import read_words

# A stirred reading so far under the hot limit may hide a place that is over it: estimate.
SHY_K = 6.0


@dataclass(frozen=True, slots=True)
class Table:
    """Rows that lead from a reading to a screen, and those screens."""

    rows: tuple[Row, ...]
    screens: Mapping[str, Screen]


def heat_table(it: Moment, *, hot: str) -> Table:
    """The table of the cup in question.

    A reading that needs no more heat, at the target at the latest, leads to `hot`; one near the
    hot limit leads to a screen that stops.
    """
    plan = heat_plan(it)
    to = {row["reads_c"]: _key(it, row["heat_s"]) if row["heat_s"] > 0 else hot
          for row in plan["table"] if row["reads_c"] < plan["target_c"]}  # fmt: skip
    # The row at or above a reading counts, so that no burst is longer than the table allows.
    to[plan["target_c"]] = hot
    to[max(plan["limit_c"] - SHY_K, plan["target_c"] + 1)] = hot
    to[HOTTEST_READ_C] = _stop_key(it)
    rows = tuple(
        Row(round(convert(reads_c, "c", unit), 1), unit, key)
        for reads_c, key in to.items()
        for unit in ("f", "c")
    )
    screens = {_stop_key(it): _stop(it, plan["limit_c"], rows)}
    for row in plan["table"]:
        if row["heat_s"] > 0:
            screens |= _screens(it, row, rows)
    return Table(rows, screens)


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


def _stop(it: Moment, limit_c: float, rows: tuple[Row, ...]) -> Screen:
    """No more heat: read again once it has stood."""
    read = reading(dataclasses.replace(it, view=None), None)
    phase = dataclasses.replace(
        read,
        name="Stop heating",
        words=(
            f"No hotter than {read_words(limit_c, it.settings)} anywhere: oven off, door shut.",
            "Let it stand; then stir and read again. The laptop is out of reach.",
        ),
        say="Stop heating",
        pads=tuple(_looked_up(pad, rows) for pad in read.pads if pad.kind == READ),
        caution="Near the hot limit",
    )
    return Screen(_stop_key(it), it.hand.stage.value, it.about, (phase,))


def _looked_up(pad: Pad, rows: tuple[Row, ...]) -> Pad:
    return dataclasses.replace(pad, next_by=rows) if pad.kind == READ else pad


def _stop_key(it: Moment) -> str:
    return f"table-{it.hand.cup}-stop"


def _key(it: Moment, seconds: float) -> str:
    return f"table-{it.hand.cup}-{seconds:.0f}"
