"""How each size of cup is cooked: where to stop, the rounds, and `reads X, heat Y seconds`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.base.units import System
from pourwright.base.wording import clock, prose, unit_label, words_of, worded
from pourwright.render.cup_group import counted, ranges
from pourwright.render.figure_strip import grams
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece, cut, heading, paragraph, stacked
from pourwright.render.reading_table import reading_table
from pourwright.render.style import Style
from pourwright.render.text import wrapped
from pourwright.render.type_face import width_of

Plan = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class _Round:
    """One row in words."""

    cups: str
    number: str
    heat: str
    reads: str
    hottest: str
    note: str


def heat_table(plans: Sequence[Plan], system: System, *, width: float, style: Style,
               most: float) -> Piece:  # fmt: skip
    """The section with at most `most` points; rounds that do not fit are counted and said."""
    cups = counted(sum(len(p["cups"]) for p in plans), "cup")
    title = heading("2  Heat", f"{cups}, one at a time; stir after every round", width, style)
    stops = [paragraph(words, width, style) for words in dict.fromkeys(
        _stop(plan, system) for plan in plans
    )]  # fmt: skip
    table = reading_table(plans, system, width=width, style=style)
    room = most - title.height - sum(p.height for p in stops) - table.height
    rows = cut(_round_rows(plans, system, width, style), room, width, style)
    return stacked((title, *stops, *rows, table))


def named(plan: Plan) -> str:
    """Which cups a heat plan is for, and what they hold."""
    return f"{'Cup' if len(plan['cups']) == 1 else 'Cups'} {ranges(plan['cups'])}"


def _stop(plan: Plan, system: System) -> str:
    target, limit = (worded(plan[k], "c", system) for k in ("target_c", "limit_c"))
    return (
        f"Stop at {target} after a stir: pour. Hot limit {limit}, anywhere in the cup: above it "
        f"stop, door shut ({prose(plan['limit_reason'], system)})."
    )


def _round_rows(plans: Sequence[Plan], system: System, width: float, style: Style) -> list[Piece]:
    degrees = unit_label("c", system)
    heads = _Round(
        "cup", "round", "heat min:s", f"should read {degrees}", f"hottest {degrees}",
        "after the stir it should be",
    )  # fmt: skip
    rounds = [_words(plan, i, system) for plan in plans for i in range(len(plan["rounds"]))]
    ends = _ends([heads, *rounds], style)
    return [_row(r, ends, width, style, head=r is heads) for r in (heads, *rounds)]


def _words(plan: Plan, i: int, system: System) -> _Round:
    found = plan["rounds"][i]
    return _Round(
        f"{named(plan)} ({grams(plan['mass_g'])})" if i == 0 else "",
        str(found["number"]),
        clock(found["on_s"]),
        words_of(found["reads_c"], "c", system).bare,
        words_of(found["hottest_c"], "c", system).bare,
        prose(found["note"], system),
    )


def _ends(rows: Sequence[_Round], style: Style) -> tuple[float, ...]:
    """The right ends of the five number columns."""

    def need(name: str, most: float = 999.0) -> float:
        return min(most, max(width_of(getattr(r, name), style.size, bold=True) for r in rows)) + 9

    at, ends = 0.0, []
    for name, most in (("cups", 120.0), ("number", 99), ("heat", 99), ("reads", 99),
                       ("hottest", 99)):  # fmt: skip
        at += need(name, most)
        ends.append(at)
    return tuple(ends)


def _row(row: _Round, ends: Sequence[float], width: float, style: Style, *, head: bool) -> Piece:
    cups, number, heat, reads, hottest = ends
    size = style.small if head else style.size
    room = width - hottest - 4
    notes = wrapped(row.note, room, size if head else style.small, most=2)
    step = style.small + 1.4
    height = max(style.row, step * len(notes) + 1)

    def draw(pen: Pen, x: float, y: float) -> None:
        if row.cups and not head:
            pen.rule(x, y - 0.6, width, HAIR)
        pen.words(x, y, row.cups, size, width=cups - 6, bold=not head)
        cells = ((number, row.number), (heat, row.heat), (reads, row.reads), (hottest, row.hottest))
        for end, words in cells:
            bold = not head and end in {heat, reads}
            pen.words(x + end - 6, y, words, size, align="right", bold=bold)
        for i, words in enumerate(notes):
            pen.words(x + hottest + 4, y + i * step + 0.3, words, style.small)

    return Piece(height, draw, rows=0 if head else 1)
