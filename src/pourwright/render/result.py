"""Empty boxes for what came out: readings cup by cup, counts, and a note."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.units import System
from pourwright.base.wording import unit_label
from pourwright.plan.batch_plan import BatchPlan, HeatPlan
from pourwright.render.cup_group import cups_named
from pourwright.render.pen import HAIR, THIN, Pen
from pourwright.render.piece import Piece, gap, heading, line, stacked
from pourwright.render.style import Style

COUNTS = (
    ("Shots", ""), ("Good", ""), ("Flash", ""), ("Short", ""), ("Dent", ""), ("Bubble", ""),
    ("Other", ""), ("Five weigh", "g"), ("To remelt", "g"), ("Time", "min"),
)  # fmt: skip
_GUTTER = 14.0
_LEAD = 34.0
_ACROSS = 2
# More cups than this are written on the back.
MOST_CUPS = 12
_ROUNDS = (3, 6)
_LEAST_NOTE = 26.0


def results(plan: BatchPlan, system: System, *, width: float, style: Style) -> Piece:
    """The boxes in their least height; a note box may take what is left of the page."""
    title = heading(
        "3  What came out", "each round: seconds, then reading while stirring", width, style
    )
    return stacked((title, *_grid(plan, system, width, style), gap(3), _counts(width, style)))


def note_box(width: float, height: float, style: Style) -> Piece:
    """Room for a note, if there is any."""
    if height < _LEAST_NOTE:
        return gap(0)

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.box(x, y + 3, width, height - 3, THIN)
        pen.words(x + 4, y + 5, "Learned, changed, went wrong", style.small)

    return Piece(height, draw)


def _grid(plan: BatchPlan, system: System, width: float, style: Style) -> list[Piece]:
    numbers = [cup.number for cup in plan.cups]
    shown, left = numbers[:MOST_CUPS], numbers[MOST_CUPS:]
    rounds = _rounds(plan.heat)
    pairs = [shown[i : i + _ACROSS] for i in range(0, len(shown), _ACROSS)]
    degrees = unit_label("c", system)
    across = len(pairs[0]) if pairs else 0
    rows = [_rounds_head(rounds, degrees, across, width, style)] if pairs else []
    rows += [_cups_row(pair, rounds, width, style) for pair in pairs]
    if left:
        words = f"{cups_named(left)}: write the readings on the back."
        rows += [gap(2), line(words, width, style)]
    return rows


def _rounds(heat: Sequence[HeatPlan]) -> int:
    """One more than planned, so that an extra round has its box."""
    fewest, most = _ROUNDS
    return min(most, max([fewest, *(len(plan.rounds) + 1 for plan in heat)]))


def _rounds_head(rounds: int, degrees: str, across: int, width: float, style: Style) -> Piece:
    def draw(pen: Pen, x: float, y: float) -> None:
        for side in range(across):
            start, pitch = _column(side, rounds, width)
            for i in range(rounds):
                words = f"{i + 1}: s | {degrees}"
                at = x + start + (i + 0.5) * pitch
                pen.words(at, y, words, style.small, align="middle", width=pitch)

    return Piece(style.small + 2, draw)


def _cups_row(cups: Sequence[int], rounds: int, width: float, style: Style) -> Piece:
    height = style.grid_row

    def draw(pen: Pen, x: float, y: float) -> None:
        for side, number in enumerate(cups):
            start, pitch = _column(side, rounds, width)
            middle = y + (height - style.size) / 2
            pen.words(x + start - _LEAD, middle, f"Cup {number}", style.size, bold=True)
            for i in range(rounds):
                at = x + start + i * pitch
                pen.box(at, y, pitch, height, THIN)
                pen.box(at, y, pitch / 2, height, HAIR)

    return Piece(height, draw)


def _column(side: int, rounds: int, width: float) -> tuple[float, float]:
    each = (width - _GUTTER) / _ACROSS
    return side * (each + _GUTTER) + _LEAD, (each - _LEAD) / rounds


def _counts(width: float, style: Style) -> Piece:
    pitch = width / len(COUNTS)
    box = style.grid_row + 3

    def draw(pen: Pen, x: float, y: float) -> None:
        for i, (label, hint) in enumerate(COUNTS):
            pen.words(x + i * pitch, y, label, style.small, width=pitch)
            pen.write_in(x + i * pitch, y + style.small + 1.5, pitch - 4, box, hint)

    return Piece(style.small + 1.5 + box, draw)
