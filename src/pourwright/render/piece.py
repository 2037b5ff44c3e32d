"""Pieces of a page: each knows its height and draws itself below a given line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pourwright.render.pen import HAIR, Pen
from pourwright.render.style import Style
from pourwright.render.text import wrapped
from pourwright.render.type_face import width_of

# Heights are sums of floats; nobody sees a hundredth of a point.
_SLACK = 0.01

Draw = Callable[[Pen, float, float], None]
Entry = tuple[str, str]
Entries = Sequence[Entry]


@dataclass(frozen=True, slots=True)
class Piece:
    """Something `height` points tall, drawn with its top left corner at (x, y).

    `rows` is how many rows of a table it stands for when it has to be left out.
    """

    height: float
    draw: Draw
    rows: int = 0


def stacked(pieces: Sequence[Piece]) -> Piece:
    """Pieces one below the other."""

    def draw(pen: Pen, x: float, y: float) -> None:
        for piece in pieces:
            piece.draw(pen, x, y)
            y += piece.height

    return Piece(sum(p.height for p in pieces), draw, sum(p.rows for p in pieces))


def gap(height: float) -> Piece:
    """Empty paper."""
    return Piece(height, lambda _pen, _x, _y: None)


def line(text: str, width: float, style: Style, *, bold: bool = False) -> Piece:
    """One line of words, cut to the width."""

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.words(x, y, text, style.size, width=width, bold=bold)

    return Piece(style.row, draw)


def paragraph(text: str, width: float, style: Style, *, most: int = 99) -> Piece:
    """Words over as many lines as they need, up to `most`."""
    lines = wrapped(text, width, style.small, most=most)
    step = style.small + 1.4

    def draw(pen: Pen, x: float, y: float) -> None:
        for i, words in enumerate(lines):
            pen.words(x, y + i * step, words, style.small)

    return Piece(len(lines) * step, draw, rows=1)


def entries(found: Entries, width: float, style: Style, *, most: int = 99) -> Piece:
    """Bold lead words in one column, what they are about in the other."""
    lead = max((width_of(name, style.small, bold=True) for name, _ in found), default=0) + 6
    return stacked([entry(e, lead, width, style, most=most) for e in found])


def entry(found: Entry, lead: float, width: float, style: Style, *, most: int = 99) -> Piece:
    """One lead word in `lead` points, and its text beside it."""
    name, text = found
    lines = wrapped(text, width - lead, style.small, most=most)
    step = style.small + 1.4

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.words(x, y, name, style.small, bold=True)
        for i, words in enumerate(lines):
            pen.words(x + lead, y + i * step, words, style.small)

    return Piece(len(lines) * step + 0.6, draw, rows=1)


def heading(text: str, aside: str, width: float, style: Style) -> Piece:
    """A section's name over a rule, with a word beside it."""
    size = style.size + 1.5

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.words(x, y, text, size, bold=True)
        pen.words(x + width, y + 1.2, aside, style.small, align="right", width=width * 0.75)
        pen.rule(x, y + size + 1.5, width, HAIR * 2)

    return Piece(size + 4.5, draw)


def cut(pieces: Sequence[Piece], most: float, width: float, style: Style) -> tuple[Piece, ...]:
    """As many pieces as fit into `most` points; the rows left out are counted and said."""
    if sum(p.height for p in pieces) <= most + _SLACK:
        return tuple(pieces)
    kept: list[Piece] = []
    room = most - style.row
    for piece in pieces:
        if piece.height > room:
            break
        kept.append(piece)
        room -= piece.height
    missing = sum(p.rows for p in pieces[len(kept) :])
    return (*kept, line(more_rows(missing), width, style, bold=True)) if missing else tuple(kept)


def more_rows(count: int) -> str:
    """What stands in for rows that do not fit."""
    return f"{count} more {'row' if count == 1 else 'rows'}: see the screen"
