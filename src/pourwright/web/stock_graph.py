"""The way of a lot as a picture: what it came from above it, what it went into below."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from pourwright.actions.see_lot import LotStock, TracedLot
from pourwright.shop.lot import MG
from pourwright.shop.stock_lot import LotSort

WIDE, TALL, GAP_X, GAP_Y, EDGE = 160, 62, 14, 40, 6
# Boxes side by side on a phone and on a laptop.
NARROW, BROAD = 2, 5
_LONGEST = 18
SPOKEN = {
    LotSort.MATERIAL: "bought", LotSort.POT: "remelt", LotSort.POURED: "poured",
    LotSort.BAGGED: "bagged",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Box:
    """A lot in the picture."""

    x: int
    y: int
    code: str
    name: str
    words: str
    here: bool

    @property
    def middle(self) -> int:
        """Where lines meet it."""
        return self.x + WIDE // 2


@dataclass(frozen=True, slots=True)
class Line:
    """A way between two boxes."""

    x1: int
    y1: int
    x2: int
    y2: int


@dataclass(frozen=True, slots=True)
class Graph:
    """The picture; `left_out` says what is not drawn."""

    width: int
    height: int
    boxes: tuple[Box, ...]
    lines: tuple[Line, ...]
    left_out: tuple[str, ...]


def graph_of(lot: LotStock, across: int) -> Graph:
    """The picture of a lot's way, at most so many boxes side by side.

    Ways run behind the boxes, so that one that passes a row does not cross its words.
    """
    levels: dict[int, list[TracedLot]] = defaultdict(list)
    for it in lot.lots:
        levels[it.steps].append(it)
    rows = [
        level[i : i + across]
        for _, level in sorted(levels.items())
        for i in range(0, len(level), across)
    ]
    width = 2 * EDGE + max(len(row) for row in rows) * (WIDE + GAP_X) - GAP_X
    boxes = {
        box.code: box
        for n, row in enumerate(rows)
        for box in _row(row, width, EDGE + n * (TALL + GAP_Y))
    }
    lines = [
        Line(boxes[a].middle, boxes[a].y + TALL, boxes[b].middle, boxes[b].y)
        for a, b in lot.ways
        if a in boxes and b in boxes
    ]
    height = 2 * EDGE + len(rows) * (TALL + GAP_Y) - GAP_Y
    return Graph(width, height, tuple(boxes.values()), tuple(lines), _left_out(lot))


def _row(lots: list[TracedLot], width: int, y: int) -> list[Box]:
    used = len(lots) * (WIDE + GAP_X) - GAP_X
    start = (width - used) // 2
    return [_box(it, start + i * (WIDE + GAP_X), y) for i, it in enumerate(lots)]


def _box(it: TracedLot, x: int, y: int) -> Box:
    lot = it.held.lot
    name = lot.name if len(lot.name) <= _LONGEST else f"{lot.name[: _LONGEST - 1]}…"
    moved = f", {it.moved_mg / MG:.0f} g" if it.moved_mg else ""
    lost = f", lost {it.loss_mg / MG:.0f} g" if it.loss_mg else ""
    words = f"{SPOKEN[lot.sort]}{moved}{lost}"
    return Box(x, y, lot.code, name, words, it.steps == 0)


def _left_out(lot: LotStock) -> tuple[str, ...]:
    return tuple(
        f"{count} more lots {abs(steps)} {'up' if steps < 0 else 'down'}"
        for steps, count in lot.more.items()
    )
