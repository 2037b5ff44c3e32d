"""The paper table that steers the heating without any device: it reads X, so heat Y."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pourwright.base.units import System
from pourwright.base.wording import EN_DASH, clock, unit_label, words_of
from pourwright.render.cup_group import ranges
from pourwright.render.pen import HAIR, THIN, Pen
from pourwright.render.piece import Piece, gap, paragraph, stacked
from pourwright.render.style import Style

STOP = "pour"
_CAPPED = "*"
_LEAD = 96.0
# Any one sheet has at most this many cup sizes in its table; others are on the screen.
_MOST_SIZES = 6


def reading_table(
    plans: Sequence[Mapping[str, Any]], system: System, *, width: float, style: Style
) -> Piece:
    """One column for each reading, one row for each size of cup."""
    readings = sorted({row["reads_c"] for plan in plans for row in plan["table"]})
    if not readings:
        return gap(0)
    pitch = (width - _LEAD) / len(readings)
    head = _head(readings, system, pitch, style)
    shown = plans[:_MOST_SIZES]
    rows = [_size_row(plan, readings, pitch, style) for plan in shown]
    foot = paragraph(_foot(plans, len(plans) - len(shown)), width, style, most=2)
    frame = stacked((head, *rows))

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.box(x, y, width, frame.height, THIN)
        frame.draw(pen, x, y)

    return stacked((gap(3), Piece(frame.height, draw, frame.rows), gap(2), foot))


def _head(readings: Sequence[float], system: System, pitch: float, style: Style) -> Piece:
    def draw(pen: Pen, x: float, y: float) -> None:
        pen.words(x + 4, y + 1.5, f"It reads {unit_label('c', system)}", style.size, bold=True)
        for i, reads in enumerate(readings):
            words = words_of(reads, "c", system).bare
            at = x + _LEAD + (i + 0.5) * pitch
            pen.words(at, y + 1.5, words, style.size, bold=True, align="middle", width=pitch)

    return Piece(style.row + 2, draw)


def _size_row(
    plan: Mapping[str, Any], readings: Sequence[float], pitch: float, style: Style
) -> Piece:
    rows = {row["reads_c"]: row for row in plan["table"]}
    height = style.row + 1.5 + (style.small + 1 if style.spread else 0)
    cups = f"cup {ranges(plan['cups'])}"

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.rule(x, y, _LEAD + pitch * len(readings), HAIR)
        pen.words(x + 4, y + 1.5, f"heat min:s, {cups}", style.size, width=_LEAD - 6)
        for i, reads in enumerate(readings):
            if reads in rows:
                at = x + _LEAD + (i + 0.5) * pitch
                words, spread = _cell(rows[reads])
                pen.words(at, y + 1.5, words, style.size, bold=True, align="middle", width=pitch)
                if style.spread:
                    below = y + 1 + style.row
                    pen.words(at, below, spread, style.small, align="middle", width=pitch)

    return Piece(height, draw, rows=1)


def _cell(row: Mapping[str, Any]) -> tuple[str, str]:
    if not row["heat_s"]:
        return STOP, ""
    low, high = clock(row["low_s"]), clock(row["high_s"])
    mark = _CAPPED if row["capped"] else ""
    return clock(row["heat_s"]) + mark, "" if low == high else f"{low}{EN_DASH}{high}"


def _foot(plans: Sequence[Mapping[str, Any]], left: int) -> str:
    rows = [row for plan in plans for row in plan["table"]]
    words = ["Between two readings take the shorter time. Readings count after a stir only."]
    if any(row["capped"] for row in rows):
        words.append(f"{_CAPPED} shortened for the hot limit: stir, read again.")
    if left:
        words.append(f"{left} more sizes of cup: see the screen.")
    return " ".join(words)
