"""The paper table that steers the heating without any device: it reads X, so heat Y."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.units import System
from pourwright.base.wording import EN_DASH, clock, unit_label, words_of
from pourwright.plan.batch_plan import HeatPlan, ReadRow
from pourwright.render.cup_group import cups_named
from pourwright.render.pen import HAIR, THIN, Pen
from pourwright.render.piece import Piece, gap, paragraph, stacked
from pourwright.render.style import Style

STOP = "stop"
_CAPPED = "*"
_LEAD = 104.0
# More sizes of cup than this are on the screen only.
MOST_SIZES = 6


def reading_table(
    plans: Sequence[HeatPlan], system: System, *, width: float, style: Style
) -> Piece:
    """One column for each reading, one row for each size of cup."""
    readings = sorted({row.reads_c for plan in plans for row in plan.table})
    if not readings:
        return gap(0)
    pitch = (width - _LEAD) / len(readings)
    shown = plans[:MOST_SIZES]
    rows = [_size_row(plan, readings, pitch, style) for plan in shown]
    frame = stacked((_head(readings, system, pitch, style), *rows))
    foot = paragraph(_foot(plans, len(plans) - len(shown)), width, style, most=2)

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.box(x, y, width, frame.height, THIN)
        frame.draw(pen, x, y)

    return stacked((Piece(frame.height, draw), gap(2), foot))


def _head(readings: Sequence[float], system: System, pitch: float, style: Style) -> Piece:
    def draw(pen: Pen, x: float, y: float) -> None:
        words = f"It reads {unit_label('c', system)}"
        pen.words(x + 4, y + 1.5, words, style.size, bold=True, width=_LEAD - 6)
        for i, reads in enumerate(readings):
            at = x + _LEAD + (i + 0.5) * pitch
            words = words_of(reads, "c", system).bare
            pen.words(at, y + 1.5, words, style.size, bold=True, align="middle", width=pitch)

    return Piece(style.row + 2, draw)


def _size_row(plan: HeatPlan, readings: Sequence[float], pitch: float, style: Style) -> Piece:
    rows = {row.reads_c: row for row in plan.table}
    height = style.row + 1.5 + (0 if style.compact else style.small + 1)
    words = f"heat min:s, {cups_named(plan.cups).lower()}"

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.rule(x, y, _LEAD + pitch * len(readings), HAIR)
        pen.words(x + 4, y + 1.5, words, style.size, width=_LEAD - 6)
        for i, reads in enumerate(readings):
            if reads in rows:
                _cell(pen, x + _LEAD + (i + 0.5) * pitch, y, rows[reads], pitch, style)

    return Piece(height, draw)


def _cell(pen: Pen, x: float, y: float, row: ReadRow, pitch: float, style: Style) -> None:
    mark = _CAPPED if row.capped else ""
    words = f"{clock(row.heat_s)}{mark}" if row.heat_s else STOP
    pen.words(x, y + 1.5, words, style.size, bold=True, align="middle", width=pitch)
    low, high = clock(row.low_s), clock(row.high_s)
    if low != high and not style.compact:
        below = y + 1 + style.row
        spread = f"{low}{EN_DASH}{high}"
        pen.words(x, below, spread, style.small, align="middle", width=pitch)


def _foot(plans: Sequence[HeatPlan], left: int) -> str:
    words = [
        "Between two readings take the shorter time. Read while you stir.",
        f"At {STOP}: pour once it is clear and runny.",
    ]
    if any(row.capped for plan in plans for row in plan.table):
        words.append(f"{_CAPPED} Shortened for the hot limit: stir, read again.")
    if left:
        words.append(f"{left} more {'size' if left == 1 else 'sizes'} of cup: see the screen.")
    return " ".join(words)
