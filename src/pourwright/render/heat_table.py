"""How each size of cup is cooked: where to stop, the rounds, and the reading table."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.units import System
from pourwright.base.wording import worded
from pourwright.plan.batch_plan import HeatPlan
from pourwright.render.cup_group import counted
from pourwright.render.piece import Piece, cut, entries, gap, heading, stacked
from pourwright.render.reading_table import reading_table
from pourwright.render.round_table import compact_rounds, round_rows
from pourwright.render.style import Style


def heat_table(
    plans: Sequence[HeatPlan], system: System, *, width: float, style: Style, most: float
) -> Piece:
    """The section with at most `most` points; rounds that do not fit are counted and said."""
    cups = counted(sum(len(plan.cups) for plan in plans), "cup")
    title = heading("2  Heat", f"{cups}, one at a time; stir after every round", width, style)
    stops = _stops(plans, system, width, style)
    table = reading_table(plans, system, width=width, style=style)
    room = most - title.height - stops.height - table.height - 5
    rounds = compact_rounds if style.compact else round_rows
    rows = cut(rounds(plans, system, width, style), room, width, style)
    return stacked((title, stops, gap(1), *rows, gap(4), table))


def _stops(plans: Sequence[HeatPlan], system: System, width: float, style: Style) -> Piece:
    """Target and limit; they are the same for every cup of a batch unless a plan says so."""
    found: list[tuple[str, str]] = []
    for plan in plans:
        target, limit = (worded(value, "c", system) for value in (plan.target_c, plan.limit_c))
        found += [
            (f"Pour at {target}", "Mean of the cup: once the last round reads as it should."),
            (
                f"Hot limit {limit}",
                (
                    "Nowhere in the cup above it. Hotter: stop, door shut, let it cool. Why: "
                    f"{plan.limit_reason}."
                ),
            ),
        ]
    return entries(tuple(dict.fromkeys(found)), width, style, most=2)
