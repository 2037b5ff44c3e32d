"""Money drawn month by month: what was sold and what is left of it, stock and purchases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.actions.money_totals import MoneyMonth
from pourwright.base.units import UNITS
from pourwright.shop.money import Money
from pourwright.web.chart_frame import Frame, GridLine
from pourwright.web.show import Settings, exactly

NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_BAR, _ROOM = 0.68, 1.1
# An empty year is drawn on a scale of its own.
_LEAST_TOP = 10.0


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar from the line of zero; `below` where it hangs from it."""

    x: float
    y: float
    wide: float
    tall: float
    below: bool


@dataclass(frozen=True, slots=True)
class MoneyChart:
    """Outlined bars, filled bars within them, a line over both, and all of it in words."""

    lines: tuple[GridLine, ...]
    zero_y: float
    months: tuple[tuple[float, str], ...]
    outer: tuple[Bar, ...]
    inner: tuple[Bar, ...]
    line: str
    dots: tuple[tuple[float, float], ...]
    words: str


def sales_chart(months: Sequence[MoneyMonth], settings: Settings) -> MoneyChart:
    """Bars of goods sold, and in them what is left."""
    goods = [it.totals.goods for it in months]
    left = [it.totals.left for it in months]
    words = [
        f"{it.month}: sold {_words(sold, settings)}, left {_words(rest, settings)}"
        for it, sold, rest in zip(months, goods, left, strict=True)
        if it.totals.sales
    ]
    return _chart(months, settings, outer=goods, inner=left, line=(), words=words)


def stock_chart(months: Sequence[MoneyMonth], ended: int, settings: Settings) -> MoneyChart:
    """Bars of purchases, and the worth of the stock at the end of the first `ended` months."""
    bought = [it.totals.bought for it in months]
    worth = [it.totals.stock_end for it in months[:ended]]
    words = [
        f"{it.month}: bought {_words(bill, settings)}, stock at its end {_words(rest, settings)}"
        for it, bill, rest in zip(months, bought, worth, strict=False)
    ]
    return _chart(months, settings, outer=bought, inner=(), line=worth, words=words)


def _chart(
    months: Sequence[MoneyMonth],
    settings: Settings,
    *,
    outer: Sequence[Money],
    inner: Sequence[Money],
    line: Sequence[Money],
    words: Sequence[str],
) -> MoneyChart:
    amounts = [it.amount for it in (*outer, *inner, *line)]
    frame = Frame(len(months), min(0.0, *amounts) * _ROOM, max(_LEAST_TOP, *amounts) * _ROOM)
    values = tuple(it.amount for it in line)
    return MoneyChart(
        lines=tuple(GridLine(frame.y(v), _round(v, settings)) for v in frame.lines()),
        zero_y=frame.y(0),
        months=tuple((frame.x(i), NAMES[int(it.month[-2:]) - 1]) for i, it in enumerate(months)),
        outer=_bars(frame, outer),
        inner=_bars(frame, inner),
        line=frame.line(values),
        dots=tuple((frame.x(i), frame.y(v)) for i, v in enumerate(values)),
        words=". ".join(words),
    )


def _bars(frame: Frame, amounts: Sequence[Money]) -> tuple[Bar, ...]:
    wide = round(frame.step * _BAR, 1)
    bars = []
    for i, it in enumerate(amounts):
        ends = sorted((frame.y(0), frame.y(it.amount)))
        if it.amount:
            x = round(frame.x(i) - wide / 2, 1)
            bars.append(Bar(x, ends[0], wide, round(ends[1] - ends[0], 1), it.amount < 0))
    return tuple(bars)


def _words(amount: Money, settings: Settings) -> str:
    return exactly(float(amount.cents()), UNITS["money"], settings)


def _round(value: float, settings: Settings) -> str:
    return _words(Money.of(value), settings).removesuffix(".00")
