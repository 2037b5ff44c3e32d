"""What to weigh, drip and spoon: one band for each lot of cups filled alike."""

from __future__ import annotations

import math
import string
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from pourwright.base.units import System
from pourwright.base.wording import percent
from pourwright.plan.batch_plan import BatchPlan, LayerLook
from pourwright.render.cup_group import CupGroup, Measured, cup_groups
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece, cut, gap, heading, paragraph, stacked
from pourwright.render.style import Style
from pourwright.render.text import wrapped
from pourwright.render.type_face import width_of

_GUTTER = 14.0
_TICK = 11.0
_AIR = 5.0
ASIDE = "tick what is in; each row: measure out, exact weight, how far it misses"


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the number columns of a row end, from its left; the name takes what is left."""

    use: float
    weight: float
    off: float


def weigh(plan: BatchPlan, system: System, *, width: float, style: Style, most: float) -> Piece:
    """The section with at most `most` points; rows that do not fit are counted and said."""
    groups = cup_groups(plan.cups, system)
    rows = [row for group in groups for row in group.rows]
    notes = _marked(row.note for row in rows if row.note)
    columns = _columns(rows, (width + _GUTTER) / style.columns - _GUTTER, style)
    looks = {look.layer: look for look in plan.looks}
    title = heading("1  Weigh and tint", ASIDE, width, style)
    words = "   ".join(f"{mark} {note}" for note, mark in notes.items())
    foot = paragraph(words, width, style, most=3) if notes else gap(0)
    bands = [_band(g, looks.get(g.layer), notes, columns, width, style) for g in groups]
    return stacked((title, *cut(bands, most - title.height - foot.height, width, style), foot))


def _marked(notes: Iterable[str]) -> dict[str, str]:
    letters = string.ascii_lowercase + string.ascii_uppercase
    return {note: f"[{letters[i % 52]}]" for i, note in enumerate(dict.fromkeys(notes))}


def _columns(rows: Sequence[Measured], width: float, style: Style) -> _Columns:
    weight = width - max((width_of(r.off, style.size) for r in rows), default=0.0) - _AIR
    use = weight - max((width_of(r.weight, style.size) for r in rows), default=0.0) - _AIR
    return _Columns(use, weight, width)


def _band(
    group: CupGroup,
    look: LayerLook | None,
    notes: Mapping[str, str],
    columns: _Columns,
    width: float,
    style: Style,
) -> Piece:
    """A head, and the rows running down its columns."""
    head = _head(group, look, width, style)
    rows = [_row(row, notes.get(row.note, ""), columns, style) for row in group.rows]
    tall = math.ceil(len(rows) / style.columns)
    stacks = [stacked(rows[i : i + tall]) for i in range(0, len(rows), tall)]

    def draw(pen: Pen, x: float, y: float) -> None:
        head.draw(pen, x, y)
        for i, stack in enumerate(stacks):
            stack.draw(pen, x + i * (columns.off + _GUTTER), y + head.height)

    height = head.height + max(stack.height for stack in stacks) + style.gap * 0.5
    return Piece(height, draw, rows=len(rows))


def _head(group: CupGroup, look: LayerLook | None, width: float, style: Style) -> Piece:
    tall = style.row - 2
    start = 2.4 * tall + 4 if look else 0.0
    title = width_of(group.title, style.size, bold=True) + 8
    certain = look is None or look.calibrated
    share = f"{percent(look.share)} of the bait, " if look and look.share < 1 else ""

    def draw(pen: Pen, x: float, y: float) -> None:
        if look:
            pen.swatch(x, y, start - 4, tall, look.over_white, look.over_dark)
        pen.words(x + start, y, group.title, style.size, bold=True, width=width - start)
        room = width - start - title
        if room > 0:
            words = share + group.poured + ("" if certain else "; swatch uncalibrated")
            pen.words(x + start + title, y + 0.5, words, style.small, width=room)
        pen.rule(x, y + style.row - 0.8, width, HAIR)

    return Piece(style.row + 1, draw)


def _row(row: Measured, mark: str, columns: _Columns, style: Style) -> Piece:
    taken = width_of(row.use, style.size, bold=True) + _AIR
    marked = width_of(f"{mark} ", style.small) if mark else 0.0
    name = wrapped(row.name, columns.use - taken - marked - _TICK, style.size, most=2)
    numbers = ((columns.use, row.use), (columns.weight, row.weight), (columns.off, row.off))

    def draw(pen: Pen, x: float, y: float) -> None:
        tick = style.size - 1.5
        pen.box(x, y + 0.8, tick, tick, HAIR * 1.5)
        for i, words in enumerate(name):
            pen.words(x + _TICK, y + i * (style.row - 0.7), words, style.size)
        if mark:
            at = x + columns.use - taken
            pen.words(at, y + 0.4, mark, style.small, align="right")
        for end, words in numbers:
            pen.words(x + end, y, words, style.size, bold=end == columns.use, align="right")

    return Piece(style.row * max(len(name), 1), draw)
