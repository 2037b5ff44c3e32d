"""The share of bad baits, drawn lot by lot, with what chance alone makes of each."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.shop.chart.share import ChartedShare, ShareAnswer
from pourwright.web.chart_frame import Dot, Frame, GridLine
from pourwright.web.show import percent

_ROOM = 1.15
_LEAST_TOP = 0.1


@dataclass(frozen=True, slots=True)
class LotRow:
    """One lot in words."""

    lot: str
    address: str
    counted: str
    share: str
    chance: str
    possible: str
    called: bool


@dataclass(frozen=True, slots=True)
class Called:
    """Something that stands out, and the lot it is at."""

    words: str
    address: str


@dataclass(frozen=True, slots=True)
class ShareChart:
    """Dots, the center, the exact limits as steps, and the same in words."""

    name: str
    dots: tuple[Dot, ...]
    lines: tuple[GridLine, ...]
    center_y: float
    high: str
    low: str
    first: str
    last: str
    words: str
    notes: tuple[str, ...]
    called: tuple[Called, ...]
    rows: tuple[LotRow, ...]
    guide: str


def share_chart_view(
    name: str, it: ShareAnswer, addresses: dict[str, str], *, guide: str
) -> ShareChart:
    """The chart of a defect; `addresses` are those of the lots, `guide` that of the defect."""
    high = tuple(None if lot.most is None else lot.most / lot.n for lot in it.lots)
    low = tuple(None if lot.fewest is None else lot.fewest / lot.n for lot in it.lots)
    ends = [_LEAST_TOP, it.center, *(lot.share for lot in it.lots), *(v for v in high if v)]
    frame = Frame(len(it.lots), 0.0, min(max(ends) * _ROOM, 1.0))
    called = {s.place - 1 for s in it.signals}
    return ShareChart(
        name=name,
        dots=tuple(
            Dot(frame.x(i), frame.y(lot.share), i in called) for i, lot in enumerate(it.lots)
        ),
        lines=tuple(GridLine(frame.y(v), percent(v)) for v in frame.lines()),
        center_y=frame.y(it.center),
        high=frame.steps(high),
        low=frame.steps(low),
        first=it.lots[0].lot,
        last=it.lots[-1].lot,
        words=it.words,
        notes=it.notes,
        called=tuple(Called(s.words, addresses.get(s.lot, "")) for s in it.signals),
        rows=tuple(_row(lot, addresses, i in called) for i, lot in enumerate(it.lots)),
        guide=guide,
    )


def _row(lot: ChartedShare, addresses: dict[str, str], called: bool) -> LotRow:
    return LotRow(
        lot=lot.lot,
        address=addresses.get(lot.lot, ""),
        counted=f"{lot.bad} of {lot.n}",
        share=percent(lot.share),
        chance=_chance(lot),
        possible=f"{percent(lot.possible_low)} to {percent(lot.possible_high)}",
        called=called,
    )


def _chance(lot: ChartedShare) -> str:
    if lot.most is None and lot.fewest is None:
        return "too few to say"
    return f"{lot.fewest or 0} to {lot.n if lot.most is None else lot.most}"
