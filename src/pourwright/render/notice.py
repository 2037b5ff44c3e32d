"""What to know before pouring: what is short, what is risky, what the cost is made of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from pourwright.base.units import System
from pourwright.base.wording import money, worded
from pourwright.plan.batch_plan import BatchPlan, CostLine, ShelfLine
from pourwright.render.piece import Entry, Piece, cut, entry, gap, heading, stacked
from pourwright.render.style import Style
from pourwright.render.type_face import width_of

_GRAVE = {"stop": "Stop", "risk": "Risk"}
_MILD = {"note": "Note"}


def notices(
    plan: BatchPlan, system: System, sign: str, *, width: float, style: Style, most: float
) -> Piece:
    """The section with at most `most` points, the gravest first.

    A full sheet leaves notes and the parts of the cost to the screen.
    """
    grave = (*_short(plan.shelf, system), *_warnings(plan, _GRAVE))
    mild = () if style.compact else (*_warnings(plan, _MILD), *_costs(plan.costs, sign))
    found = (*grave, *mild)
    if not found:
        return stacked(())
    title = gap(0) if style.compact else heading("Before you start", "", width, style)
    lead = max(width_of(word, style.small, bold=True) for word, _ in found) + 6
    rows = [entry(one, lead, width, style, most=2) for one in found]
    return stacked((title, *cut(rows, most - title.height, width, style)))


def _short(shelf: Sequence[ShelfLine], system: System) -> list[Entry]:
    lines = [
        f"{line.name} {worded(line.short_g, 'g', system)} of {worded(line.need_g, 'g', system)}"
        for line in shelf
        if line.short_g > 0
    ]
    return [("Short", f"missing on the shelf: {'; '.join(lines)}.")] if lines else []


def _warnings(plan: BatchPlan, levels: Mapping[str, str]) -> list[Entry]:
    """By level, without those that repeat what is short on the shelf."""
    short = tuple(line.name for line in plan.shelf if line.short_g > 0)
    return [
        (word, warning.text)
        for level, word in levels.items()
        for warning in plan.warnings
        if warning.level == level
        and not (level == "stop" and any(name in warning.text for name in short))
    ]


def _costs(costs: Sequence[CostLine], sign: str) -> list[Entry]:
    parts = [f"{cost.kind} {money(cost.amount_money.typical, sign)}" for cost in costs]
    return [("Cost", f"{', '.join(parts)}.")] if parts else []
