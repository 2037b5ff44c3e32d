"""Blocks set in columns: whole where they can be, else run on; what is left over is counted."""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Sequence

from pourwright.render.pen import Pen
from pourwright.render.piece import Piece, line, more_rows
from pourwright.render.style import Style

Column = list[Piece]


def in_columns(
    blocks: Sequence[Sequence[Piece]], *, each: float, gutter: float, style: Style, most: float
) -> Piece:
    """The blocks in as many columns as the style has, at most `most` points tall.

    The first piece of a block is its head; it is repeated where a block runs on.
    """
    columns = _whole(blocks, style.columns)
    if _tallest(columns) > most:
        columns = _run_on(blocks, style.columns, most, each, style)
    pitch = each + gutter

    def draw(pen: Pen, x: float, y: float) -> None:
        for i, column in enumerate(columns):
            at = y
            for piece in column:
                piece.draw(pen, x + i * pitch, at)
                at += piece.height

    return Piece(_tallest(columns), draw)


def _tallest(columns: Sequence[Column]) -> float:
    return max((sum(p.height for p in column) for column in columns), default=0.0)


def _whole(blocks: Sequence[Sequence[Piece]], count: int) -> list[Column]:
    """The lowest arrangement in reading order that breaks no block."""
    heights = [sum(p.height for p in block) for block in blocks]
    whole = range(math.ceil(max(heights, default=0)), math.ceil(sum(heights)) + 1)
    most = bisect.bisect_left(
        whole, True, key=lambda most: len(_packed(blocks, heights, most)) <= count
    )  # fmt: skip
    return _packed(blocks, heights, whole[most])


def _packed(blocks: Sequence[Sequence[Piece]], heights: list[float], most: float) -> list[Column]:
    columns: list[Column] = []
    room: float = 0.0
    for block, height in zip(blocks, heights, strict=True):
        if not columns or height > room:
            columns.append([])
            room = most
        columns[-1].extend(block)
        room -= height
    return columns


def _run_on(
    blocks: Sequence[Sequence[Piece]], count: int, most: float, each: float, style: Style
) -> list[Column]:
    """Columns filled to the bottom; the last one keeps a line for what does not fit."""
    columns: list[Column] = [[]]
    room = most
    pairs = [(block[0], piece) for block in blocks for piece in block[1:]]
    for i, (head, piece) in enumerate(pairs):
        begins = i == 0 or pairs[i - 1][0] is not head
        need = piece.height + (head.height if begins or not columns[-1] else 0.0)
        kept = style.row if len(columns) == count and i < len(pairs) - 1 else 0.0
        if need + kept > room:
            if len(columns) == count:
                left = sum(p.rows for _, p in itertools.islice(pairs, i, None))
                if left:
                    columns[-1].append(line(more_rows(left), each, style, bold=True))
                return columns
            columns.append([])
            room, need = most, piece.height + head.height
        if need > piece.height:
            columns[-1].append(head)
        columns[-1].append(piece)
        room -= need
    return columns
