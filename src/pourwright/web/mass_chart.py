"""The weight of a bait, drawn lot by lot, with its limits and the moving mean."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.units import UNITS
from pourwright.shop.chart.mass import ChartedMass, MassAnswer
from pourwright.web.chart_frame import Dot, Frame, GridLine
from pourwright.web.share_chart import Called
from pourwright.web.show import Settings, exactly

_ROOM = 0.12
# The least share of the weight that the frame shows, so that a scale's step looks like nothing.
_LEAST_SHARE = 0.02


@dataclass(frozen=True, slots=True)
class MassRow:
    """One lot in words."""

    lot: str
    address: str
    mean: str
    moving: str
    called: bool


@dataclass(frozen=True, slots=True)
class MassChart:
    """Dots, center and limits, the moving mean with its limits, and the same in words."""

    dots: tuple[Dot, ...]
    lines: tuple[GridLine, ...]
    center_y: float
    limit_ys: tuple[float, ...]
    moving: str
    moving_high: str
    moving_low: str
    first: str
    last: str
    words: str
    notes: tuple[str, ...]
    called: tuple[Called, ...]
    rows: tuple[MassRow, ...]
    limits: str


def mass_chart_view(it: MassAnswer, addresses: dict[str, str], settings: Settings) -> MassChart:
    """The chart; `addresses` are those of the lots."""
    frame = _frame(it)
    called = {s.place - 1 for s in it.signals}
    gram = UNITS["g"]
    return MassChart(
        dots=tuple(
            Dot(frame.x(i), frame.y(lot.mean_g), i in called) for i, lot in enumerate(it.lots)
        ),
        lines=tuple(GridLine(frame.y(v), exactly(v, gram, settings)) for v in frame.lines()),
        center_y=frame.y(it.center_g),
        limit_ys=tuple(frame.y(v) for v in (it.low_g, it.high_g) if v is not None),
        moving=frame.line(tuple(lot.ewma_g for lot in it.lots)),
        moving_high=frame.steps(tuple(lot.ewma_high_g for lot in it.lots)),
        moving_low=frame.steps(tuple(lot.ewma_low_g for lot in it.lots)),
        first=it.lots[0].lot,
        last=it.lots[-1].lot,
        words=it.words,
        notes=it.notes,
        called=tuple(Called(s.words, addresses.get(s.lot, "")) for s in it.signals),
        rows=tuple(_row(lot, addresses, settings, i in called) for i, lot in enumerate(it.lots)),
        limits=_limits(it, settings),
    )


def _frame(it: MassAnswer) -> Frame:
    values = [it.center_g, *(lot.mean_g for lot in it.lots)]
    values += [v for v in (it.low_g, it.high_g) if v is not None]
    low, high = min(values), max(values)
    least = _LEAST_SHARE * it.center_g
    room = max(_ROOM * (high - low), (least - (high - low)) / 2)
    return Frame(len(it.lots), low - room, high + room)


def _row(
    lot: ChartedMass, addresses: dict[str, str], settings: Settings, called: bool
) -> MassRow:  # fmt: skip
    gram = UNITS["g"]
    return MassRow(
        lot.lot, addresses.get(lot.lot, ""), exactly(round(lot.mean_g, 3), gram, settings),
        exactly(round(lot.ewma_g, 3), gram, settings), called,
    )  # fmt: skip


def _limits(it: MassAnswer, settings: Settings) -> str:
    if it.low_g is None or it.high_g is None:
        return ""
    gram = UNITS["g"]
    low, high = (exactly(round(v, 2), gram, settings) for v in (it.low_g, it.high_g))
    return f"Chance alone keeps a lot between {low} and {high}."
