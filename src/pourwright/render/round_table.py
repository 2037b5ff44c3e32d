"""Rounds in the microwave: a row for each round, or in a full sheet a row for each size of cup."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import astuple, dataclass

from pourwright.base.units import System
from pourwright.base.wording import clock, unit_label, worded, words_of
from pourwright.plan.batch_plan import HeatPlan, HeatRound
from pourwright.render.cup_group import cups_named
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece, paragraph
from pourwright.render.style import Style
from pourwright.render.text import wrapped
from pourwright.render.type_face import width_of

_MOST_LEAD = 130.0
_AIR = 9.0


@dataclass(frozen=True, slots=True)
class _Round:
    """One row in words."""

    cups: str
    number: str
    heat: str
    reads: str
    hottest: str
    note: str


def round_rows(
    plans: Sequence[HeatPlan], system: System, width: float, style: Style
) -> tuple[Piece, ...]:
    """A row for each round: seconds, what it should read, what it should look like."""
    degrees = unit_label("c", system)
    heads = _Round(
        "cup", "round", "heat min:s", f"should read {degrees}", f"hottest place {degrees}",
        "after the stir it should be",
    )  # fmt: skip
    rounds = [_words(plan, r, system) for plan in plans for r in plan.rounds]
    ends = _ends([heads, *rounds], style)
    return tuple(_row(r, ends, width, style, head=r is heads) for r in (heads, *rounds))


def compact_rounds(
    plans: Sequence[HeatPlan], system: System, width: float, style: Style
) -> tuple[Piece, ...]:
    """A row for each size of cup, and what each round should look like said once."""
    count = max((len(plan.rounds) for plan in plans), default=0)
    lead = min(_MOST_LEAD, max((width_of(sized(p, system), style.size, bold=True) for p in plans),
                               default=0.0) + _AIR)  # fmt: skip
    pitch = (width - lead) / max(count, 1)
    heads = [f"{i + 1}: heat, reads {unit_label('c', system)}" for i in range(count)]
    head = _cells("cup", [("", words) for words in heads], lead, pitch, style)
    rows = [
        _cells(sized(plan, system), [_cell(r, system) for r in plan.rounds], lead, pitch, style)
        for plan in plans
    ]
    return (head, *rows, paragraph(_looks_like(plans), width, style, most=3))


def sized(plan: HeatPlan, system: System) -> str:
    """Which cups a heat plan is for, and what they hold."""
    return f"{cups_named(plan.cups)} ({worded(round(plan.mass_g), 'g', system)})"


def _words(plan: HeatPlan, found: HeatRound, system: System) -> _Round:
    return _Round(
        sized(plan, system) if found is plan.rounds[0] else "",
        str(found.number),
        clock(found.on_s),
        words_of(found.reads_c, "c", system).bare,
        words_of(found.hottest_c, "c", system).bare,
        found.note,
    )


def _ends(rows: Sequence[_Round], style: Style) -> tuple[float, ...]:
    """The right ends of the columns before the note."""
    at, ends = 0.0, []
    for column in tuple(zip(*(astuple(row) for row in rows), strict=True))[:-1]:
        need = max(width_of(words, style.size, bold=True) for words in column)
        at += min(need, _MOST_LEAD) + _AIR
        ends.append(at)
    return tuple(ends)


def _row(row: _Round, ends: Sequence[float], width: float, style: Style, *, head: bool) -> Piece:
    lead, start = ends[0], ends[-1] + 2
    size = style.small if head else style.size
    notes = wrapped(row.note, width - start, style.small, most=2)
    step = style.small + 1.4
    cells = (row.number, row.heat, row.reads, row.hottest)

    def draw(pen: Pen, x: float, y: float) -> None:
        if row.cups and not head:
            pen.rule(x, y - 0.8, width, HAIR)
        pen.words(x, y, row.cups, size, width=lead - _AIR / 2, bold=not head)
        for end, words in zip(ends[1:], cells, strict=True):
            bold = not head and words in {row.heat, row.reads}
            pen.words(x + end - _AIR / 2, y, words, size, align="right", bold=bold)
        for i, words in enumerate(notes):
            pen.words(x + start, y + i * step + 0.4, words, style.small)

    return Piece(max(style.row, step * len(notes) + 1), draw, rows=0 if head else 1)


def _cell(found: HeatRound, system: System) -> tuple[str, str]:
    return clock(found.on_s), words_of(found.reads_c, "c", system).bare


def _cells(
    cups: str, cells: Sequence[tuple[str, str]], lead: float, pitch: float, style: Style
) -> Piece:
    """A row of cells, each a bold time and what it should read; a head has no times."""
    head = not any(time for time, _ in cells)
    size = style.small if head else style.size

    def draw(pen: Pen, x: float, y: float) -> None:
        if not head:
            pen.rule(x, y, lead + pitch * len(cells), HAIR)
        pen.words(x, y + 1, cups, size, bold=not head, width=lead - 4)
        for i, (time, reads) in enumerate(cells):
            at = x + lead + i * pitch
            pen.words(at, y + 1, time, size, bold=True)
            start = 0 if head else 30
            pen.words(at + start, y + 1, reads, size, width=pitch - start - 2)

    return Piece(style.row + 0.8, draw, rows=0 if head else 1)


def _looks_like(plans: Sequence[HeatPlan]) -> str:
    """What the plan says of each round, said once for the rounds it is said of."""
    found: dict[str, set[int]] = {}
    for plan in plans:
        for r in plan.rounds:
            found.setdefault(r.note, set()).add(r.number)
    notes = (f"{', '.join(map(str, sorted(ns)))}: {note}" for note, ns in found.items() if note)
    return f"After the stir of round {'. '.join(notes)}." if found else ""
