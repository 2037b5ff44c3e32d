"""What to weigh, drip and spoon, cup by cup, in columns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.base.units import System
from pourwright.base.wording import percent
from pourwright.render.column import in_columns
from pourwright.render.cup_group import CupGroup, Measured, cup_groups
from pourwright.render.pen import HAIR, Pen
from pourwright.render.piece import Piece, gap, heading, paragraph, stacked
from pourwright.render.style import Style
from pourwright.render.type_face import width_of

_GUTTER = 14.0
_TICK = 11.0
_HEADS = Measured("", "use", "weight", "off")


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the columns of a block end, from its left."""

    name: float
    use: float
    weight: float
    off: float


def weigh(plan: Mapping[str, Any], system: System, *, width: float, style: Style,
          most: float) -> Piece:  # fmt: skip
    """The section with at most `most` points; what does not fit is counted and said."""
    groups = cup_groups(plan["cups"], system)
    each = (width - (style.columns - 1) * _GUTTER) / style.columns
    notes = _marked({row.note: "" for g in groups for row in g.rows if row.note})
    looks = {look["layer"]: look for look in plan["looks"]}
    blocks = [_block(g, looks.get(g.layer), notes, each, style) for g in groups]
    if notes:
        texts = [paragraph(f"{mark} {note}", each, style) for note, mark in notes.items()]
        blocks.append([gap(0), *texts])
    title = heading("1  Weigh and tint", "a tick for each part in the cup", width, style)
    body = in_columns(blocks, each=each, gutter=_GUTTER, style=style, most=most - title.height)
    return stacked((title, body))


def _marked(notes: Mapping[str, str]) -> dict[str, str]:
    return {note: f"[{'abcdefghijklmnopqrstuvwxyz'[i % 26]}]" for i, note in enumerate(notes)}


def _block(
    group: CupGroup,
    look: Mapping[str, Any] | None,
    notes: Mapping[str, str],
    width: float,
    style: Style,
) -> list[Piece]:
    columns = _columns(group.rows, width, style)
    rows = [_row(r, notes.get(r.note, ""), columns, style) for r in group.rows]
    return [_block_head(group, look, columns, style), *rows, gap(style.gap)]


def _columns(rows: Sequence[Measured], width: float, style: Style) -> _Columns:
    """The numbers take what they need, the names the rest."""

    def need(words: Sequence[str], *, bold: bool = False) -> float:
        return max(width_of(w, style.size, bold=bold) for w in words) + 5

    off = width
    weight = off - need([_HEADS.off, *(r.off for r in rows)])
    use = weight - need([_HEADS.weight, *(r.weight for r in rows)])
    name = use - need([_HEADS.use, *(r.use for r in rows)], bold=True)
    return _Columns(name, use, weight, off)


def _block_head(
    group: CupGroup, look: Mapping[str, Any] | None, columns: _Columns, style: Style
) -> Piece:
    tall = style.row - 2
    start = 2.4 * tall + 4 if look else 0.0
    title = width_of(group.title, style.size, bold=True)

    def draw(pen: Pen, x: float, y: float) -> None:
        if look:
            pen.swatch(x, y, start - 4, tall, look["over_white"], look["over_dark"])
        room = columns.off - start
        pen.words(x + start, y, group.title, style.size, bold=True, width=room)
        share = f"{percent(look['share'])} of the bait" if look and look["share"] < 1 else ""
        aside = ", ".join(filter(None, (share, group.filled)))
        left = room - min(title, room) - 6
        pen.words(x + columns.off, y + 0.4, aside, style.small, align="right", width=left)
        below = y + style.row
        pen.words(x, below, group.poured, style.small, width=columns.name)
        for at, words in zip(_ends(columns), (_HEADS.use, _HEADS.weight, _HEADS.off), strict=True):
            pen.words(x + at, below, words, style.small, align="right")
        pen.rule(x, below + style.row - 0.8, columns.off, HAIR)

    return Piece(2 * style.row, draw)


def _row(row: Measured, mark: str, columns: _Columns, style: Style) -> Piece:
    def draw(pen: Pen, x: float, y: float) -> None:
        tick = style.size - 1.5
        pen.box(x, y + 0.8, tick, tick, HAIR * 1.5)
        room = columns.name - _TICK - (width_of(f" {mark}", style.small) if mark else 0)
        pen.words(x + _TICK, y, row.name, style.size, width=room)
        if mark:
            pen.words(x + columns.name, y + 0.4, mark, style.small, align="right")
        use, weight, off = _ends(columns)
        pen.words(x + use, y, row.use, style.size, bold=True, align="right")
        pen.words(x + weight, y, row.weight, style.size, align="right")
        pen.words(x + off, y, row.off, style.size, align="right")

    return Piece(style.row, draw, rows=1)


def _ends(columns: _Columns) -> tuple[float, float, float]:
    return columns.use, columns.weight, columns.off
